#include "acts_of_cutting.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "acts_of_piles.h"
#include "core/cutting/ruler.h"
#include "web/app/desk/line_of.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

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

body::PlanLimits limits_now(const OpenSession& open) {
  body::PlanLimits limits;
  limits.step = kMainStep;
  const auto* now = latest(open, limits);
  return now == nullptr ? limits : *now;
}

Result<TypedLength> typed_length(const Work& w) {
  const std::string where = parts_of(w.field().subject).what;
  if (w.draft().digits.empty()) return Problem{Code::typed_empty, where, {}};
  return parse_length(w.draft().digits + ' ' + w.desk.ruler(), where);
}

// With the far end measured that end moves; else the length waits for it.
Made commit_piece_length(Work& w) {
  const auto length = typed_length(w);
  if (!length) return length.problem();
  const std::vector<StationLine> known = stations_of(w.open());
  const bool closed = known.size() > 1 && open_end_of(w.open(), known).empty();
  const Length before = closed          ? known[known.size() - 2].place()
                        : known.empty() ? Length()
                                        : known.back().place();
  if (length->length <= before) {
    return refused("notice.beyond-end",
                   {as_shown(w.settings, ruler_text(before, ruler_unit_of(w.open())))});
  }
  w.to.add_fact(w.open(), body::Setting{kPieceLength, length->text});
  if (closed) {
    body::Station end = body_of(known.back());
    end.at = *length;
    w.to.add(std::move(end), {known.back().id});
  }
  return {std::move(w.to),
          done("notice.entered", {length_label("piece"), as_shown(w.settings, length->text)})};
}

Made commit_depth(Work& w, const std::string& place) {
  const bool of_face = parts_of(w.field().subject).what == "face-depth";
  const std::vector<StationLine> known = stations_of(w.open());
  const StationLine* now = of_face ? nullptr : station_at(known, place);
  auto depth = typed_length(w);
  if (w.draft().digits.empty() && now != nullptr) depth = now->depth;
  if (!depth) return depth.problem();
  auto width = parse_length(w.draft().width, "width");
  if (w.draft().width.empty() && now != nullptr) width = now->width;
  if (!width) return width.problem();
  if (of_face) {
    w.to.add(body::Face{kMainStep, place, *width, *depth});
  } else {
    body::Station station{kMainStep, {}, *width, *depth, {}};
    if (!known.empty()) station.fill = known.front().fill;
    if (!place.empty()) station.at = *parse_length(place, "at");
    std::vector<EntryId> replaces;
    if (now != nullptr) replaces.push_back(now->id);
    w.to.add(std::move(station), std::move(replaces));
  }
  const std::string shown =
      place.empty() || of_face ? say("cut.face") : as_shown(w.settings, place);
  return {std::move(w.to), done("notice.station", {shown})};
}

// Nothing is entered before its depth is known.
Made commit_width(Work& w, const std::string& what, const std::string& place) {
  const auto length = typed_length(w);
  const std::vector<StationLine> known = stations_of(w.open());
  const StationLine* now = what == "width" ? station_at(known, place) : nullptr;
  if (w.draft().digits.empty() && now != nullptr) {
    w.draft().width = now->width.text;  // as it was
  } else if (!length) {
    return length.problem();
  } else {
    w.draft().width = length->text;
  }
  ask_length(w.keypad, (what == "width" ? "depth:" : "face-depth:") + place);
  return {};
}

// Another place to be measured.
Made commit_place(Work& w) {
  const auto length = typed_length(w);
  if (!length) return length.problem();
  w.draft().width.clear();
  ask_length(w.keypad, "width:" + length->text);
  return {};
}

// No digits: no such limit.
Made commit_limit(Work& w, const std::string& limit) {
  const auto named = std::ranges::find(kLimits, limit, &LimitName::name);
  if (named == kLimits.end()) return {};
  body::PlanLimits limits = limits_now(w.open());
  std::string shown = say("cut.no-limit");
  (limits.*(named->limit)).reset();
  if (!w.draft().digits.empty()) {
    const auto length = typed_length(w);
    if (!length) return length.problem();
    limits.*(named->limit) = *length;
    shown = as_shown(w.settings, length->text);
  }
  return fact(w, std::move(limits), length_label(limit), shown);
}

}  // namespace

void ask_length(Keypad& keypad, const std::string& subject) {
  keypad.draft.field = {FieldKind::length, subject};
  keypad.take_off();
}

// ---- stations and limits

Made same_all_along(const OpenSession& open, Writing to, const AppSettings& settings) {
  const std::vector<StationLine> now = stations_of(open);
  const auto end = parse_length(open_end_of(open, now), "length");
  if (now.empty() || !end || now.back().place() >= end->length) return {};
  body::Station far = body_of(now.back());
  far.at = *end;
  to.add(std::move(far));
  return {std::move(to), done("notice.station", {as_shown(settings, end->text)})};
}

Made set_face_fill(const OpenSession& open, Writing to, const std::string& percent,
                   const std::string& name) {
  const auto fill = parse_percent(percent, "fill");
  if (!fill) return {};
  for (const StationLine& line : stations_of(open)) {
    body::Station changed = body_of(line);
    changed.fill = *fill;
    to.add(std::move(changed), {line.id});
  }
  return {std::move(to), done("notice.entered", {say("cut.fill"), name})};
}

Made set_long_pieces(const OpenSession& open, Writing to, unsigned k) {
  if (k > 4) return {};
  body::PlanLimits limits = limits_now(open);
  limits.k_only.reset();
  if (k > 0) limits.k_only = k;
  to.add_fact(open, std::move(limits));
  return {std::move(to),
          done("notice.entered",
               {say("cut.long-pieces"), k == 0 ? say("cut.as-advised") : std::to_string(k)})};
}

// ---- cuts and long pieces

Made close_cut(Writing to, const EntryId& cut) {
  to.add(body::CutClosed{cut});
  return {std::move(to), done("notice.cut-closed")};
}

Made reopen_cut(const OpenSession& open, Writing to, const EntryId& cut) {
  std::vector<EntryId> ends;
  const LiveView live(open.set);
  for (const Entry* entry : live.entries()) {
    const auto* end = std::get_if<body::CutClosed>(&entry->body);
    if (end != nullptr && end->cut == cut) ends.push_back(entry->id);
  }
  return void_all(std::move(to), ends, done("notice.cut-open"));
}

Made take_out_long_piece(const OpenSession& open, Writing to, const std::string& key) {
  body::LongPiece piece;
  piece.step = kMainStep;
  piece.key = key;
  return void_all(std::move(to), all_of(open, piece), done("notice.voided"));
}

Made begin_cutting(const OpenSession& open, Writing to, const CookOf* cook) {
  if (cook == nullptr || open.figures.settings.all.contains("cook")) return {};
  const LiveView live(open.set);
  for (const Entry* entry : live.entries()) {
    if (std::holds_alternative<body::Cut>(entry->body)) return {};  // begun without
  }
  to.add(body::Setting{"cook", cook_setting(carried_prior({cook->record}))});
  return {std::move(to), done("notice.cook-carried")};
}

// They lie in the piece, whichever other is opened meanwhile.
void score_marks(Draft& draft, const std::string& of, const std::string& marks) {
  constexpr std::size_t most = 16;
  draft.scored.erase(of);
  if (draft.scored.size() >= most) draft.scored.erase(draft.scored.begin());
  if (!marks.empty()) draft.scored[of] = marks;
}

// ---- digits

Made commit_length(Work& w) {
  const auto [what, place] = parts_of(w.field().subject);
  if (what == "piece") return commit_piece_length(w);
  if (what == "depth" || what == "face-depth") return commit_depth(w, place);
  if (what == "at") return commit_place(w);
  if (what == "width" || what == "face-width") return commit_width(w, what, place);
  return commit_limit(w, what);
}

// No digits: as many as possible.
Made commit_wanted(Work& w) {
  body::Wanted wanted{w.field().subject, 1};
  const std::string label = label_of(FieldKind::wanted);
  const std::string& digits = w.draft().digits;
  if (digits.empty()) {
    const std::vector<EntryId> ids = all_of(w.open(), wanted);
    if (ids.empty()) w.keypad.after_field(&w.open());
    return void_all(std::move(w.to), ids, done("notice.entered", {label, say("cut.as-many")}));
  }
  const auto count = parse_number(digits, "wanted", Sign::positive_only);
  if (!count) return count.problem();
  const double whole = std::floor(count->value);
  if (whole != count->value || whole > 999.0) {
    return Problem{Code::typed_not_whole, "wanted", {Arg::typed(digits)}};
  }
  wanted.count = static_cast<unsigned>(whole);
  return fact(w, std::move(wanted), label, as_shown(w.settings, digits));
}

// The subject is "<of>-<number>".
Made commit_long_piece(Work& w) {
  const auto mass = typed_mass(w, Sign::positive_only);
  if (!mass) return mass.problem();
  const std::string key = w.field().subject;
  body::LongPiece piece;
  piece.step = kMainStep;
  piece.key = key;
  piece.of = key.empty() || key[0] < '2' || key[0] > '4' ? 2 : key[0] - '0';
  piece.weight = *mass;
  piece.division = w.figures().settings.division;
  return fact(w, std::move(piece), say("cut.long-piece", {key.substr(key.find('-') + 1)}),
              as_shown(w.settings, mass->text));
}

}  // namespace tallyblock
