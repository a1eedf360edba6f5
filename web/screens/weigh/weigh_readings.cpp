// The readings made.
#include <algorithm>

#include "core/base/sorted.h"
#include "web/words/words.h"
#include "weigh_parts.h"

namespace tallyblock {
namespace {

bool is_newer(const ReadingLine* a, const ReadingLine* b) {
  return a->seq != b->seq ? a->seq > b->seq : b->id < a->id;
}

std::vector<const ReadingLine*> newest_first(const Figures& figures) {
  std::vector<const ReadingLine*> lines;
  for (const PileFigures& pile : figures.piles) {
    for (const ReadingLine& line : pile.lines) lines.push_back(&line);
  }
  heap_sort(lines, is_newer);
  return lines;
}

}  // namespace

const ReadingLine* newest_that_counts(const Figures& figures) {
  const ReadingLine* newest = nullptr;
  for (const PileFigures& pile : figures.piles) {
    for (const ReadingLine& line : pile.lines) {
      if (!line.is_void && (newest == nullptr || is_newer(&line, newest))) newest = &line;
    }
  }
  return newest;
}

std::string kept_words(const Ui& ui, const ReadingLine& line) {
  if (is_kept(ui.app, line.id)) return say("save.kept");
  return say(save_state(ui.app) == SaveState::failed ? "save.failed" : "save.saving");
}

// How far a portion is from its target, when that is outside its tolerance.
std::string off_target(const Ui& ui, const ReadingLine& line) {
  const bool single =
      line.count == 1 && (line.habit == Habit::piece || line.habit == Habit::taken_off);
  const TargetFigures* target = target_of(ui.figures(), line.pile);
  if (target == nullptr || !single || line.is_void) return {};
  const Mass over = line.net - target->target, most = target->tolerance + Mass::grams(1e-9);
  if (over > most) return say("cut.off-over", {show::mass(over, ui.style)});
  if (-over > most) return say("cut.off-under", {show::mass(-over, ui.style)});
  return {};
}

std::string tub_name(const Ui& ui, const std::string& key) {
  const TubFigures* tub = tub_named(ui.figures(), key);
  return tub == nullptr ? std::string() : tub->name;
}

// The pile, how many at once, and the tub whose empty weight was taken off.
std::string weighed_into(const Ui& ui, const ReadingLine& line) {
  std::string words = explain::pile_name(ui.figures(), line.pile);
  if (line.count > 1)
    words += ", " + say(form_of("weigh.at-once", line.count), {std::to_string(line.count)});
  const Entry* entry = ui.app.session()->set.find(line.id);
  const auto* reading = entry == nullptr ? nullptr : std::get_if<body::Reading>(&entry->body);
  const std::string tub = reading == nullptr ? std::string() : tub_name(ui, reading->tub);
  if (!tub.empty()) words += ", " + say("weigh.less-tub", {tub});
  return words;
}

namespace {

std::string detail_of(const Ui& ui, const ReadingLine& line) {
  std::string words = weighed_into(ui, line);
  if (line.habit != Habit::piece) {
    words += ", " + say("habit." + std::string(name_of(line.habit)));
  }
  if (const std::string off = off_target(ui, line); !off.empty()) words += ", " + off;
  const Entry* entry = ui.app.session()->set.find(line.id);
  if (entry != nullptr && entry->by) {
    const std::string who = person_name(ui.figures(), *entry->by);
    if (!who.empty()) words += ", " + who;
  }
  if (line.is_void) return words + ", " + say("weigh.taken-out");
  if (line.covered) words += ", " + say("weigh.in-tub");
  return words + ", " + kept_words(ui, line);
}

}  // namespace

void start_move(Ui& ui, const ReadingLine& line) {
  ask::select(ui.app, to_text(line.id));
  ask::open_panel(ui.app, std::string(kMove));
}

void readings_panel(Ui& ui) {
  ui.kit.heading(say("weigh.readings"), 2);
  if (ui.kit.button("weigh/readings/close", say("weigh.readings-close")))
    ask::open_panel(ui.app, "");
  reading_list(ui);
}

void reading_list(Ui& ui) {
  const Figures& f = ui.figures();
  const auto lines = newest_first(f);
  ui.kit.paragraph(say(has_reading(ui) ? "weigh.readings-what" : "weigh.readings-none"),
                   Tone::quiet);
  const std::string out = say("weigh.take-out"), back = say("weigh.put-back");
  const std::string other = say("weigh.other-pile"), anew = say("weigh.anew");
  for (auto rows = ui.kit.rows("weigh/reading-rows", lines.size()); rows.next();) {
    const ReadingLine* line = lines[rows.at()];
    const std::string detail = detail_of(ui, *line);
    ListRowOptions options;
    options.detail = detail;
    options.struck = line->is_void;
    options.opens = !line->is_void;
    options.act = anew;
    options.action = line->is_void ? back : out;
    if (!line->is_void) options.action2 = other;
    const PileFigures* pile = pile_named(f, line->pile);
    if (pile != nullptr) {
      options.look = look_of(pile->role);
      options.variant = place_in_role(f, *pile);
    }
    switch (ui.kit.list_row("weigh/reading/" + to_text(line->id), show::mass(line->net, ui.style),
                            options)) {
      case RowTap::action:
        if (line->is_void) {
          ask::restore_entry(ui.app, line->id);
        } else {
          ask::void_entry(ui.app, line->id);
        }
        break;
      case RowTap::action2: start_move(ui, *line); break;
      case RowTap::row:
        ask::open_panel(ui.app, "");
        ask::edit(ui.app, {FieldKind::anew, to_text(line->id)});
        break;
      case RowTap::none: break;
    }
  }
}

}  // namespace tallyblock
