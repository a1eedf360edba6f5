// Acts on where to put the knife: stations, limits, long pieces, blocks.
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "app.h"
#include "core/base/sorted.h"
#include "core/cutting/advice_text.h"
#include "core/cutting/ruler.h"
#include "digits.h"
#include "line_of.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr const char* kLength = "piece-length";  // setting: until its far end is measured

using Limit = std::optional<TypedLength> body::PlanLimits::*;
struct LimitName {
  std::string_view name;
  Limit limit;
};
constexpr std::array kLimits = {
    LimitName{"thickness-min", &body::PlanLimits::thickness_min},
    LimitName{"thickness-max", &body::PlanLimits::thickness_max},
    LimitName{"least", &body::PlanLimits::least},
    LimitName{"trim-front", &body::PlanLimits::trim_front},
    LimitName{"trim-back", &body::PlanLimits::trim_back},
    LimitName{"saw", &body::PlanLimits::saw},
};

std::string length_label(const std::string& what) { return say("length." + what); }

const StationLine* station_at(const std::vector<StationLine>& stations, const std::string& place) {
  Length at;
  if (!place.empty()) {
    const auto parsed = parse_length(place, "at");
    if (!parsed) return nullptr;
    at = parsed->length;
  }
  for (const StationLine& line : stations) {
    if (line.place() == at) return &line;
  }
  return nullptr;
}

body::Station body_of(const StationLine& line) {
  return {kMainStep, line.at, line.width, line.depth, line.fill};
}

}  // namespace

// ---- what screens read

LengthUnit App::ruler_unit() const {
  const std::string name = ruler();
  return name == "in"   ? LengthUnit::inch
         : name == "cm" ? LengthUnit::centimetre
                        : LengthUnit::millimetre;
}

std::string App::ruler() const {
  return open_ ? std::string(ruler_of(open_->figures.settings)) : "mm";
}

std::string App::open_end() const {
  if (!open_) return {};
  const auto& all = open_->figures.settings.all;
  const auto found = all.find(kLength);
  if (found == all.end()) return {};
  const auto length = parse_length(found->second, "length");
  const std::vector<StationLine> known = stations();
  const bool measured = length && !known.empty() && known.back().place() >= length->length;
  return length && !measured ? found->second : std::string();
}

std::vector<StationLine> App::stations() const {
  std::vector<StationLine> lines;
  if (!open_) return lines;
  const LiveView live(open_->set);
  for (const Entry* entry : live.entries()) {
    const auto* b = std::get_if<body::Station>(&entry->body);
    if (b == nullptr || b->step != kMainStep) continue;
    StationLine line{entry->id, b->at, b->width, b->depth, b->fill};
    const auto same = std::ranges::find_if(
        lines, [&](const StationLine& other) { return other.place() == line.place(); });
    if (same != lines.end()) {
      *same = std::move(line);  // the later one counts
    } else {
      lines.push_back(std::move(line));
    }
  }
  heap_sort(lines,
            [](const StationLine& a, const StationLine& b) { return a.place() < b.place(); });
  return lines;
}

// ---- stations

void App::same_all_along() {
  if (!may_write()) return;
  const std::vector<StationLine> now = stations();
  const auto end = parse_length(open_end(), "length");
  if (now.empty() || !end || now.back().place() >= end->length) return;
  body::Station far = body_of(now.back());
  far.at = *end;
  Writing writing = this->writing();
  writing.add(std::move(far));
  put(std::move(writing), {"notice.station", {as_shown(settings_, end->text)}, true, false});
}

void App::set_face_fill(const std::string& percent, const std::string& name) {
  const auto fill = parse_percent(percent, "fill");
  if (!fill || !may_write()) return;
  Writing writing = this->writing();
  for (const StationLine& line : stations()) {
    body::Station changed = body_of(line);
    changed.fill = *fill;
    writing.add(std::move(changed), {line.id});
  }
  put(std::move(writing), {"notice.entered", {say("cut.fill"), name}, true, false});
}

body::PlanLimits App::limits_now() const {
  body::PlanLimits limits;
  limits.step = kMainStep;
  const auto* now = latest<body::PlanLimits>(limits);
  return now == nullptr ? limits : *now;
}

void App::set_long_pieces(unsigned k) {
  if (!may_write() || k > 4) return;
  body::PlanLimits limits = limits_now();
  limits.k_only.reset();
  if (k > 0) limits.k_only = k;
  put_fact(std::move(limits), say("cut.long-pieces"),
           k == 0 ? say("cut.as-advised") : std::to_string(k));
}

// ---- cuts

void App::close_cut(const EntryId& cut) {
  if (!may_write()) return;
  Writing writing = this->writing();
  writing.add(body::CutClosed{cut});
  put(std::move(writing), {"notice.cut-closed", {}, true, false});
}

void App::reopen_cut(const EntryId& cut) {
  if (!may_write()) return;
  std::vector<EntryId> ends;
  const LiveView live(open_->set);
  for (const Entry* entry : live.entries()) {
    const auto* end = std::get_if<body::CutClosed>(&entry->body);
    if (end != nullptr && end->cut == cut) ends.push_back(entry->id);
  }
  if (!ends.empty()) void_all(ends, {"notice.cut-open", {}, true, false}, true);
}

// ---- long pieces

// Of the piece itself: it is sliced before it is split.
void App::cut_long_piece(const std::string& key) {
  draft_.long_piece = key;
  if (open_ && key.empty()) draft_.sliced = open_->id;
  draft_.field = {FieldKind::block, ""};
  draft_.digits.clear();
  forget_asked();
  field_problem_.reset();
  changed_draft();
}

void App::split_first() {
  draft_.sliced.clear();
  draft_.field = {};
  changed_draft();
}

// They lie in the piece, whichever other is opened meanwhile.
void App::score_marks(const std::string& of, std::string marks) {
  constexpr std::size_t most = 16;
  draft_.scored.erase(of);
  if (draft_.scored.size() >= most) draft_.scored.erase(draft_.scored.begin());
  if (!marks.empty()) draft_.scored[of] = std::move(marks);
  changed_draft();
}

void App::take_out_long_piece(const std::string& key) {
  if (!may_write()) return;
  body::LongPiece piece;
  piece.step = kMainStep;
  piece.key = key;
  const std::vector<EntryId> ids = all_of(piece);
  if (!ids.empty()) void_all(ids, {"notice.voided", {}, true, false}, true);
}

// Whatever stands for a fact, with what it took the place of: void, none of it comes back.
std::vector<EntryId> App::all_of(const Body& body) const {
  std::vector<EntryId> ids;
  for (const EntryId& live : live_of(body)) {
    for (const EntryId& each : with_what_it_replaced(live)) {
      if (std::ranges::find(ids, each) == ids.end()) ids.push_back(each);
    }
  }
  return ids;
}

// ---- digits

Result<TypedLength> App::typed_length() const {
  const std::string where = parts_of(draft_.field.subject).what;
  if (draft_.digits.empty()) return Problem{Code::typed_empty, where, {}};
  return parse_length(draft_.digits + ' ' + ruler(), where);
}

void App::ask_next(const std::string& subject) {
  draft_.field = {FieldKind::length, subject};
  draft_.digits.clear();
  field_problem_.reset();
}

bool App::commit_length() {
  const auto [what, place] = parts_of(draft_.field.subject);
  if (what == "piece") return commit_piece_length();
  if (what == "depth" || what == "face-depth") return commit_depth(place);
  const auto length = typed_length();
  if (what == "at") {
    if (!length) return refuse(length.problem());
    draft_.width.clear();
    ask_next("width:" + length->text);
  } else if (what == "width" || what == "face-width") {
    const std::vector<StationLine> known = stations();
    const StationLine* now = what == "width" ? station_at(known, place) : nullptr;
    if (draft_.digits.empty() && now != nullptr) {
      draft_.width = now->width.text;  // as it was
    } else if (!length) {
      return refuse(length.problem());
    } else {
      draft_.width = length->text;
    }
    ask_next((what == "width" ? "depth:" : "face-depth:") + place);
  } else {
    return commit_limit(what);
  }
  changed_draft();
  return true;
}

// With the far end measured that end moves; else the length waits for it.
bool App::commit_piece_length() {
  const auto length = typed_length();
  if (!length) return refuse(length.problem());
  const std::vector<StationLine> known = stations();
  const bool closed = known.size() > 1 && open_end().empty();
  const Length before = closed          ? known[known.size() - 2].place()
                        : known.empty() ? Length()
                                        : known.back().place();
  if (length->length <= before) {
    tell_error("notice.beyond-end", {as_shown(settings_, ruler_text(before, ruler_unit()))});
    return false;
  }
  body::Setting setting{kLength, length->text};
  std::vector<EntryId> replaces = live_of(setting);
  Writing writing = this->writing();
  writing.add(std::move(setting), std::move(replaces));
  if (closed) {
    body::Station end = body_of(known.back());
    end.at = *length;
    writing.add(std::move(end), {known.back().id});
  }
  return put(
      std::move(writing),
      {"notice.entered", {length_label("piece"), as_shown(settings_, length->text)}, true, false},
      [this, first = known.empty()] {
        after_field();
        if (first) ask_next("width:");
      });
}

bool App::commit_depth(const std::string& place) {
  const bool of_face = parts_of(draft_.field.subject).what == "face-depth";
  const std::vector<StationLine> known = stations();
  const StationLine* now = of_face ? nullptr : station_at(known, place);
  auto depth = typed_length();
  if (draft_.digits.empty() && now != nullptr) depth = now->depth;
  if (!depth) return refuse(depth.problem());
  auto width = parse_length(draft_.width, "width");
  if (draft_.width.empty() && now != nullptr) width = now->width;
  if (!width) return refuse(width.problem());
  Writing writing = this->writing();
  if (of_face) {
    writing.add(body::Face{kMainStep, place, *width, *depth});
  } else {
    body::Station station{kMainStep, {}, *width, *depth, {}};
    if (!known.empty()) station.fill = known.front().fill;
    if (!place.empty()) station.at = *parse_length(place, "at");
    std::vector<EntryId> replaces;
    if (now != nullptr) replaces.push_back(now->id);
    writing.add(std::move(station), std::move(replaces));
  }
  const std::string shown = place.empty() || of_face ? say("cut.face") : as_shown(settings_, place);
  return put(std::move(writing), {"notice.station", {shown}, true, false}, [this] {
    draft_.width.clear();
    after_field();
  });
}

// No digits: no such limit.
bool App::commit_limit(const std::string& limit) {
  const auto named =
      std::ranges::find_if(kLimits, [&](const LimitName& each) { return each.name == limit; });
  if (named == kLimits.end()) return false;
  body::PlanLimits limits = limits_now();
  std::string shown = say("cut.no-limit");
  (limits.*(named->limit)).reset();
  if (!draft_.digits.empty()) {
    const auto length = typed_length();
    if (!length) return refuse(length.problem());
    limits.*(named->limit) = *length;
    shown = as_shown(settings_, length->text);
  }
  return put_fact(std::move(limits), length_label(limit), shown);
}

// No digits: as many as possible.
bool App::commit_wanted() {
  body::Wanted wanted{draft_.field.subject, 1};
  const std::string label = say("field." + std::string(name_of(FieldKind::wanted)));
  if (draft_.digits.empty()) {
    const std::vector<EntryId> ids = all_of(wanted);
    if (!ids.empty())
      void_all(ids, {"notice.entered", {label, say("cut.as-many")}, true, false}, true);
    after_field();
    changed_draft();
    return true;
  }
  const auto count = parse_number(draft_.digits, "wanted", Sign::positive_only);
  if (!count) return refuse(count.problem());
  const double whole = std::floor(count->value);
  if (whole != count->value || whole > 999.0) {
    return refuse({Code::typed_not_whole, "wanted", {Arg::typed(draft_.digits)}});
  }
  wanted.count = static_cast<unsigned>(whole);
  return put_fact(std::move(wanted), label, draft_.digits);
}

// The subject is "<of>-<number>".
bool App::commit_long_piece() {
  const auto mass = typed_mass(Sign::positive_only);
  if (!mass) return false;
  const std::string& key = draft_.field.subject;
  body::LongPiece piece;
  piece.step = kMainStep;
  piece.key = key;
  piece.of = key.empty() || key[0] < '2' || key[0] > '4' ? 2 : key[0] - '0';
  piece.weight = *mass;
  piece.division = open_->figures.settings.division;
  return put_fact(std::move(piece), say("cut.long-piece", {key.substr(key.find('-') + 1)}),
                  as_shown(settings_, mass->text));
}

}  // namespace tallyblock
