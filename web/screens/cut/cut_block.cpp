// The block cut last: against its target, what to do with it, and its way back.
#include <algorithm>

#include "cut_parts.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

std::string judged(const Ui& ui, const CuttingView& view, const CutLine& cut) {
  std::string words;
  std::size_t same = 0;
  for (std::size_t i = 0; i < cut.portions.size(); i += same) {
    same = 1;
    while (i + same < cut.portions.size() && cut.portions[i + same] == cut.portions[i] &&
           cut.meant[i + same] == cut.meant[i]) {
      ++same;
    }
    if (!words.empty()) words += "; ";
    const std::string weight = show::mass(cut.portions[i], ui.style);
    words += same > 1 ? say("cut.portions-of", {std::to_string(same), weight}) : weight;
    if (i >= cut.verdicts.size()) continue;
    const Mass off = cut.portions[i] - view.specs[cut.meant[i]].target;
    words += ", ";
    words += cut.verdicts[i].fate == Fate::keep ? say("cut.within")
             : off > Mass()                     ? say("cut.off-over", {show::mass(off, ui.style)})
                            : say("cut.off-under", {show::mass(-off, ui.style)});
  }
  return words;
}

bool weighs(const Ui& ui, const ReadingLine& line, const EntryId& cut) {
  const Entry* entry = ui.app.session()->set.find(line.id);
  const auto* reading = entry == nullptr ? nullptr : std::get_if<body::Reading>(&entry->body);
  return !line.is_void && reading != nullptr && reading->cut == cut;
}

// The newest reading of a cut that counts, one of a portion before what was trimmed off; or null.
const ReadingLine* newest_of(const Ui& ui, const EntryId& cut) {
  for (const bool portion : {true, false}) {
    const ReadingLine* newest = nullptr;
    for (const PileFigures& pile : ui.figures().piles) {
      if (portion && target_of(ui.figures(), pile.key) == nullptr) continue;
      for (const ReadingLine& line : pile.lines) {
        if (weighs(ui, line, cut) && (newest == nullptr || newest->seq < line.seq)) newest = &line;
      }
    }
    if (newest != nullptr) return newest;
  }
  return nullptr;
}

// Some of the cut still lies in the pile it was cut for.
bool lies_in(const Ui& ui, const std::string& pile, const CutLine& cut) {
  const PileFigures* figures = pile_named(ui.figures(), pile);
  return figures != nullptr && std::ranges::any_of(figures->lines, [&](const ReadingLine& line) {
           return weighs(ui, line, cut.id);
         });
}

// The pile that what is trimmed off goes to: the first of usable trim, else of a lesser kind, else of waste;
// null: there is none that is weighed and has no target.
const PileFigures* trim_pile(const Ui& ui) {
  for (const Role role : {Role::usable_trim, Role::secondary, Role::unusable_trim}) {
    for (const PileFigures& pile : ui.figures().piles) {
      if (pile.role == role && pile.step == "main" && !pile.by_difference &&
          target_of(ui.figures(), pile.key) == nullptr)
        return &pile;
    }
  }
  return nullptr;
}

// In one tap: the block weighs its target now, and what came off is entered with its cut. False: it cannot be
// told which block it was, or there is no pile for it.
bool trim_act(Ui& ui, const CuttingView& view, const CutLine& cut, const Verdict& verdict) {
  const ReadingLine* reading = newest_of(ui, cut.id);
  const PileFigures* pile = trim_pile(ui);
  if (reading == nullptr || pile == nullptr || reading->count != 1 || cut.k != 1) return false;
  const std::string label = say("cut.trimmed", {show::mass(verdict.trim, ui.style),
                                                explain::pile_name(ui.figures(), pile->key)});
  if (ui.kit.button("cut/trimmed", label)) {
    ask::trim_block(ui.app, reading->id, view.specs[cut.meant.front()].target, pile->key);
  }
  return true;
}

}  // namespace

void what_to_do(Ui& ui, const CuttingView& view, const CutLine& cut) {
  const auto lies = [&](std::size_t spec) { return lies_in(ui, view.specs[spec].name, cut); };
  if (std::ranges::none_of(cut.meant, lies)) return;
  if (cut.doubtful) return ui.kit.paragraph(say("cut.doubtful"), Tone::warn, "cut/doubtful");
  for (std::size_t i = 0; i < cut.verdicts.size(); ++i) {
    const Verdict& verdict = cut.verdicts[i];
    if (!lies(cut.meant[i])) continue;
    std::string words;
    switch (verdict.fate) {
      case Fate::keep: continue;
      case Fate::other_spec:
        words = say("cut.fate-other",
                    {explain::pile_name(ui.figures(), view.specs[verdict.spec].name)});
        break;
      case Fate::trim:
        words = verdict.trim_thickness > Length()
                    ? say("cut.fate-trim-thick", {show::mass(verdict.trim, ui.style),
                                                  length_shown(ui, verdict.trim_thickness)})
                    : say("cut.fate-trim", {show::mass(verdict.trim, ui.style)});
        break;
      case Fate::lesser_pile: words = say("cut.fate-short"); break;
    }
    ui.kit.paragraph(words, Tone::warn, "cut/what-to-do");
    if (verdict.fate == Fate::trim && !trim_act(ui, view, cut, verdict)) {
      ui.kit.paragraph(say("cut.fate-trim-then"), Tone::warn, "cut/what-then");
    }
    return;
  }
}

void last_block(Ui& ui, const CuttingView& view, const CuttingObject& object) {
  const CutLine* last = last_cut(object);
  if (last == nullptr || last->portions.empty()) return;
  const std::string words = judged(ui, view, *last);
  const std::string out = say("weigh.take-out"), other = say("weigh.other-pile");
  const std::string title = say("cut.block", {std::to_string(object.cuts.size())});
  ListRowOptions options;
  options.detail = words;
  options.action = out;
  options.action2 = other;
  const std::string anew = say("weigh.anew");
  options.opens = true;
  options.act = anew;
  const ReadingLine* reading = newest_of(ui, last->id);
  const RowTap tap = ui.kit.list_row("cut/last", title, options);
  if (reading == nullptr) return;
  if (tap == RowTap::row) ask::edit(ui.app, {FieldKind::anew, to_text(reading->id)});
  if (tap == RowTap::action) ask::void_entry(ui.app, reading->id);
  if (tap == RowTap::action2) {
    ask::go(ui.app, Screen::weigh);
    ask::select(ui.app, to_text(reading->id));
    ask::open_panel(ui.app, std::string(kMoveFromCut));
  }
}

}  // namespace tallyblock
