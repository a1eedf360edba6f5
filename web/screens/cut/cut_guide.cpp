// The guide: the next mark, the block's weight, and what the blocks so far say.
#include <algorithm>
#include <optional>
#include <utility>

#include "core/cutting/ruler.h"
#include "cut_parts.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr double kMovedSeen = 1.0;  // mm: less is the ruler's own

bool serves_two(const PlannedBlock& block) { return block.other_counted > 0; }

// What the guide has left may lie on another pile by now: the board knows.
bool is_all_on_piles(const Ui& ui, const CuttingObject& object) {
  if (object.cuts.empty() || !all_is_weighed(ui.figures())) return false;
  if (is_said_all_weighed(ui.figures())) return true;
  // Little may be left by the board's limit and a portion to the guide.
  const Mass left = left_to_weigh(ui.figures()).value_or(Mass());
  return std::ranges::none_of(ui.figures().targets, [&](const TargetFigures& target) {
    return target.target - target.tolerance <= left;
  });
}

bool is_over(const Ui& ui, const CuttingObject& object, const Guide::Advice& advice) {
  return advice.done || is_all_on_piles(ui, object);
}

// ---- the next mark

std::string spec_name(const Ui& ui, const CuttingView& view, std::size_t spec) {
  return explain::pile_name(ui.figures(), view.specs[spec].name);
}

// With several kinds: which of them the next block is for.
void what_for(Ui& ui, const CuttingView& view, const PlannedBlock& block) {
  if (view.specs.size() < 2) return;
  const std::string one = spec_name(ui, view, block.spec);
  ui.kit.paragraph(serves_two(block) ? say("cut.for-two", {std::to_string(block.counted), one,
                                                           std::to_string(block.other_counted),
                                                           spec_name(ui, view, block.other)})
                                     : say("cut.for-one", {one}),
                   Tone::strong, "cut/what-for");
}

// What is cut and still to be weighed comes before the next mark.
void still_to_weigh(Ui& ui, const CuttingView& view, const CutLine& last) {
  const std::size_t seen = last.portions.size();
  if (seen > 0) {
    const std::string nth = std::to_string(seen + 1), of = std::to_string(last.k);
    ui.kit.paragraph(view.specs.size() > 1
                         ? say("cut.weigh-rest-for", {nth, of, spec_name(ui, view, last.next_spec)})
                         : say("cut.weigh-rest", {nth, of}),
                     Tone::strong, "cut/weigh-rest");
    if (ui.kit.button("cut/slice-done", say("cut.slice-done"))) ask::close_cut(ui.app, last.id);
    return;
  }
  ui.kit.paragraph(say("cut.weigh-again"), Tone::strong, "cut/weigh-again");
  if (ui.kit.button("cut/not-cut", say("cut.not-cut"))) ask::void_entry(ui.app, last.id);
}

// Where the next cut comes may still depend on the portion that is missing: not where so many are wanted.
bool mark_is_known(const CuttingView& view, const CutLine& open) {
  return !open.portions.empty() && std::ranges::none_of(view.specs, [](const PortionSpec& spec) {
    return spec.wanted.has_value();
  });
}

// Limits may refuse what shows at the face: it comes off before the next block. Before the first one it is
// entered, so that the marks start behind it; then there is no mark yet.
bool leave_first(Ui& ui, const CuttingObject& object, const Guide::Advice& advice) {
  const PlannedBlock& block = advice.rest.blocks.front();
  if (!(block.left_from < block.from)) return false;
  const Length off = block.from;
  const bool at_first = object.cuts.empty() && object.long_piece.empty();
  const Length seen =
      ruler_mark(at_first ? advice.stands_at + off : off, ui.app.desk().ruler_unit());
  ui.kit.paragraph(say(at_first ? "cut.leave-enter" : "cut.leave-first", {length_shown(ui, seen)}),
                   Tone::warn, "cut/leave-first");
  if (at_first) field(ui, {FieldKind::length, "trim-front"}, {});
  return at_first;
}

// More of the last slice may come after all.
void take_up_again(Ui& ui, const CuttingObject& object) {
  const CutLine* last = last_cut(object);
  if (last != nullptr && is_part_weighed(*last) &&
      ui.kit.button("cut/slice-on", say("cut.slice-on"))) {
    ask::reopen_cut(ui.app, last->id);
  }
}

// Where the plan had another mark for this cut, from the same face.
void planned(Ui& ui, const CuttingObject& object, Length now) {
  const std::size_t at = object.cuts.size();
  if (at == 0 || !object.plan || at >= object.plan->blocks.size()) return;
  const PlannedBlock& block = object.plan->blocks[at];
  const Length then = block.to - block.from;
  const Length off = then < now ? now - then : then - now;
  if (off < Length::millimetres(kMovedSeen)) return;
  ui.kit.paragraph(say("cut.planned", {length_shown(ui, then)}), Tone::normal, "cut/planned");
}

void next_mark(Ui& ui, const CuttingView& view, const PlanInput& input, const CuttingObject& object,
               const Guide::Advice& advice, const std::optional<NextCut>& next) {
  const CutLine* open = open_cut(object);
  if (open != nullptr) {
    still_to_weigh(ui, view, *open);
    if (advice.done || !mark_is_known(view, *open)) return;
  }
  if (!next) {
    const bool weighed = is_all_on_piles(ui, object);
    const Mass left = weighed ? left_to_weigh(ui.figures()).value_or(Mass()) : object.remaining;
    ui.kit.figure("cut/next", say(weighed ? "cut.all-weighed" : "cut.done"),
                  show::mass(left, ui.style), {.size = FigureSize::key});
    take_up_again(ui, object);
    return;
  }
  if (!next->scored && leave_first(ui, object, advice)) return;
  const std::string number = std::to_string(object.cuts.size() + 1);
  // An end that was cut off left a fresh face.
  const bool first = object.cuts.empty() && advice.stands_at < Length::millimetres(1.0);
  const char* label = next->scored      ? "cut.next-scored"
                      : first           ? "cut.next-first"
                      : open != nullptr ? "cut.next-then"
                                        : "cut.next-of";
  std::string words = say(label, {number});
  if (!object.long_piece.empty()) {
    words = say("cut.of-long", {number_of(object.long_piece), words});
  }
  ui.kit.figure("cut/next", words, length_shown(ui, next->mark), {.size = FigureSize::key});
  if (open != nullptr) return;
  if (!next->scored) planned(ui, object, next->mark);
  take_up_again(ui, object);
  what_for(ui, view, next->block);
  const std::string each = show::mass(next->expected, ui.style);
  const std::string give = show::mass(advice.scatter, ui.style);
  const int k = next->block.k;
  ui.kit.paragraph(k > 1 ? say("cut.expects-each", {each, give, std::to_string(k)})
                         : say("cut.expects", {each, give}),
                   Tone::normal, "cut/expects");
  const Mass over = advice.expected - advice.target, least = Mass::grams(0.5);
  if (!next->scored && view.specs.size() == 1 && (over >= least || -over >= least)) {
    ui.kit.paragraph(
        say(over > Mass() ? "cut.over" : "cut.lighter", {show::mass(advice.target, ui.style)}),
        Tone::quiet, "cut/lighter");
  }
  score_part(ui, view, input, object, advice, next->marks, first);
}

// ---- around it

void still_to_come(Ui& ui, const CuttingObject& object, const Guide::Advice& advice, bool alone) {
  const std::string left = show::mass(object.remaining, ui.style);
  if (is_over(ui, object, advice)) return;
  unsigned count = advice.left;
  if (const CutLine* open = open_cut(object)) {  // those of its slice that are not weighed yet
    count += static_cast<unsigned>(open->k) - static_cast<unsigned>(open->portions.size());
  }
  ui.kit.paragraph(say(form_of("cut.still", count), {std::to_string(count), left}), Tone::normal,
                   "cut/still");
  // The board's figure is larger by what was lost before the piece was weighed clean.
  const Mass more = left_to_weigh(ui.figures()).value_or(Mass()) - object.remaining;
  const std::string lost = show::mass(more, ui.style);
  if (alone && object.cuts.empty() && more > Mass() && lost != show::mass(Mass(), ui.style)) {
    ui.kit.paragraph(say("cut.lost-before", {lost}), Tone::quiet, "cut/lost-before");
  }
}

// Whatever the plan says, only the cook knows when no more portions come.
void no_more(Ui& ui, const CuttingObject& object) {
  if (object.cuts.empty()) return;
  if (ui.kit.button("cut/no-more", say("cut.no-more"), {.detail = say("cut.no-more-means")})) {
    ask::go(ui.app, Screen::weigh);
  }
}

void again(Ui& ui, const CuttingObject& object) {
  ui.kit.heading(say("cut.more"), 2);
  auto grid = ui.kit.grid(2, 144);
  if (object.long_piece.empty() && ui.kit.button("cut/reweigh", say("cut.reweigh"))) {
    ask::edit(ui.app, {FieldKind::remainder, "main"});
  }
  if (ui.kit.button("cut/reface", say("cut.reface"))) {
    ask::edit(ui.app, {FieldKind::length, "face-width:" + object.long_piece});
  }
  const bool sliced = ui.draft().sliced == ui.app.session()->id;
  if (sliced && object.cuts.empty() && ui.kit.button("cut/split", say("cut.split"))) {
    ask::split_first(ui.app);
  }
}

void objects_choice(Ui& ui, const CuttingView& view, const CuttingObject& now) {
  if (view.objects.size() < 2) return;
  std::vector<std::string> names;
  std::vector<std::string> keys;
  int chosen = -1;
  for (const CuttingObject& object : view.objects) {
    if (object.long_piece.empty()) continue;
    if (&object == &now) chosen = static_cast<int>(names.size());
    const std::string& key = object.long_piece;
    names.push_back(say("cut.long-piece", {number_of(key)}));
    keys.push_back(key);
  }
  const std::vector<std::string_view> options(names.begin(), names.end());
  const int picked = ui.kit.choice("cut/object", say("cut.long-pieces"), options, chosen);
  if (picked >= 0) ask::cut_long_piece(ui.app, keys[static_cast<std::size_t>(picked)]);
}

void guide_body(Ui& ui, const CuttingView& view, const PlanInput& input,
                const CuttingObject& object, const Guide::Advice& advice) {
  auto body = ui.kit.scroll("cut/body");
  auto measure = ui.kit.measure();
  const std::uint64_t now = ui.app.desk().revision();
  if (std::exchange(ui.cut.guide, now) != now) ui.kit.set_scroll("cut/body", 0.0F);
  std::optional<NextCut> next;
  const bool over = is_over(ui, object, advice);
  if (!over) next = next_cut(*ui.app.session(), ui.draft(), view, object, advice);
  next_mark(ui, view, input, object, advice, next);
  ask_for_measure(ui, object, advice);
  const Guide::Advice shown = next ? with_scored(*next, advice) : advice;
  if (!over || advice.done) guide_drawing(ui, view, input, object, shown);
  if (const CutLine* last = last_cut(object)) {
    what_to_do(ui, view, *last);
  } else {
    ui.kit.paragraph(say("cut.cleaned"), Tone::quiet, "cut/cleaned");
  }
  still_to_come(ui, object, shown, view.objects.size() == 1);
  habit_words(ui, view.cook);
  objects_choice(ui, view, object);
  if (!over) {
    no_more(ui, object);
    again(ui, object);
  }
  ui.kit.paragraph(say("cut.care"), Tone::quiet, "cut/care");
}

// A weight that is too far from what the cut should have given is asked about, in one tap.
bool asks_weight(Ui& ui) {
  const auto& asked = ui.app.keypad().asked.weight;
  if (!asked) return false;
  std::string unit = digits_unit(ui);  // none where it stands in the digits
  if (!unit.empty()) unit.insert(0, " ");
  const std::string typed = show::typed(asked->digits, ui.style) + unit;
  ui.kit.paragraph(say(asked->meant.empty() ? "cut.asked-alone" : "cut.asked",
                       {typed, show::mass(asked->expected, ui.style)}),
                   Tone::warn, "cut/asked");
  std::string answer;
  {
    auto grid = ui.kit.grid(static_cast<int>(asked->meant.size()) + 1, 96);
    for (const std::string& meant : asked->meant) {
      if (ui.kit.button("cut/meant/" + meant, show::typed(meant, ui.style) + unit)) {
        answer = meant;
      }
    }
    if (ui.kit.button("cut/sure", say("cut.sure", {typed}))) answer = asked->digits;
  }
  if (!answer.empty()) ask::answer_weight(ui.app, answer);
  return true;
}

// Above the keypad: what was just said, else the block before, else the digits.
void above_keys(Ui& ui, const CuttingView& view, const CuttingObject& object, const Followed& f) {
  if (asks_weight(ui)) {
    const auto& said = ui.app.notice();
    if (said && said->is_error) notice(ui);
    return;
  }
  const std::string unit = digits_unit(ui), problem = field_problem_words(ui);
  const bool idle = ui.draft().digits.empty() && problem.empty();
  const auto& said = ui.app.notice();
  if (idle && said && !is_about_weighing(said->key)) return notice(ui);
  if (idle && !object.cuts.empty() && !object.cuts.back().portions.empty()) {
    return last_block(ui, view, object);
  }
  if (said && said->is_error) notice(ui);
  const std::string pile = explain::pile_name(ui.figures(), f.pile);
  ui.kit.keypad_display("cut/display", say("cut.block-into", {pile}),
                        show::typed(ui.draft().digits, ui.style),
                        {.unit = unit, .problem = problem});
}

// The keypad is for the block unless something else was asked for.
void hand(Ui& ui, const CuttingView& view, const CuttingObject& object) {
  const Draft& draft = ui.draft();
  if (draft.field.kind != FieldKind::block) {
    notice(ui);
    keypad_sheet(ui);
    return;
  }
  const Followed f =
      followed(*ui.app.session(), draft, ui.app.desk().cutting()).value_or(Followed());
  above_keys(ui, view, object, f);
  const std::string enter = say("cut.weigh-block");
  const unsigned together = std::min(draft.count, f.missing);
  const unsigned at_once = std::max(together, 1U);
  const std::string side =
      f.missing < 2 ? std::string()
                    : say(form_of("cut.all-together", at_once), {std::to_string(at_once)});
  const std::string side_name = say("cut.how-many-name", {std::to_string(together)});
  if (keypad_here(ui, "cut/keypad", {.enter = enter, .side = side, .side_name = side_name})) {
    ask::set_count(ui.app, together > 1 ? 1 : f.missing);
  }
}

// Nothing is left to weigh: the last block may still be taken out.
void after_all(Ui& ui, const CuttingView& view, const CuttingObject& object) {
  if (ui.draft().field.kind != FieldKind::none && ui.draft().field.kind != FieldKind::block) {
    notice(ui);
    keypad_sheet(ui);
    return;
  }
  last_block(ui, view, object);
  notice(ui);
  if (ui.kit.button("cut/to-result", say("cut.to-result"), {.kind = ButtonKind::primary})) {
    ask::go(ui.app, Screen::result);
  }
}

void nothing_to_guide(Ui& ui, const CuttingObject* object) {
  auto body = ui.kit.scroll("cut/body");
  ui.kit.heading(say("cut.no-plan"), 1, "cut/title");
  if (object != nullptr && object->problem) {
    ui.kit.paragraph(plan_words(ui, *object->problem), Tone::warn, "cut/problem");
  } else {
    ui.kit.paragraph(say("cut.no-step"), Tone::normal, "cut/no-step");
  }
}

}  // namespace

void guide_screen(Ui& ui, const CuttingNow& cutting) {
  const CuttingView* view = cutting.main();
  const CuttingObject* object = view == nullptr ? nullptr : object_now(*view, ui.draft());
  if (object == nullptr || !object->advice || !view->input || view->specs.empty()) {
    return nothing_to_guide(ui, object);
  }
  const PlanInput& input = *view->input;
  const Guide::Advice& advice = *object->advice;
  if (splitting(ui, *view)) {
    {
      auto body = ui.kit.scroll("cut/body");
      auto measure = ui.kit.measure();
      split_panel(ui, *view, input.shape);
    }
    notice(ui);
    keypad_sheet(ui);
    return;
  }
  const bool done = is_over(ui, *object, advice) && open_cut(*object) == nullptr;
  if (!done && ui.draft().field.kind == FieldKind::none) ask::edit(ui.app, {FieldKind::block, ""});
  const auto below = [&] { done ? after_all(ui, *view, *object) : hand(ui, *view, *object); };
  if (ui.kit.wide() || ui.kit.broad()) {
    auto sides = ui.kit.row({1, 1}, {.hand_side_last = true});
    guide_body(ui, *view, input, *object, advice);
    auto side = ui.kit.scroll("cut/hand");
    below();
    return;
  }
  guide_body(ui, *view, input, *object, advice);
  below();
}

}  // namespace tallyblock
