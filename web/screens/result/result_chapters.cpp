// The lines of the result: a name, a figure, and in its place below what is behind it.
#include <algorithm>

#include "result_parts.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

struct Chapter {
  std::string key, title, value;
  Tone tone = Tone::normal;
  void (*body)(Ui&) = nullptr;
};

// So far down a chapter is brought into view when it is opened: its sentence and the first of the rest.
constexpr std::pair<std::string_view, std::string_view> kFirstSeen[] = {
    {"doubts", "result/doubt/1"},
    {"costs", "field/price-total"},
    {"buy", "field/ready-cut-yield"},
    {"work", "field/wage"},
    {"loss", "figure/saleable-share"},
    {"quality", "judging/lean-on-waste/label"},
    {"all", "result/table"}};

void bring_into_view(Ui& ui, const Chapter& line) {
  if (line.key == "costs" && wanted(ui) == Wanted::price) {  // its fields stand on the card
    return ui.kit.scroll_to("result/chapter/costs");
  }
  if (line.key == "portions") {
    return ui.kit.scroll_to("field/target/" + ui.figures().targets.front().pile);
  }
  for (const auto& [key, path] : kFirstSeen) {
    if (key == line.key) ui.kit.scroll_to(path);
  }
}

Chapter not_yet(std::string key, std::string title, void (*body)(Ui&)) {
  return {std::move(key), std::move(title), say("show.not-yet"), Tone::quiet, body};
}

Chapter of_costs(const Ui& ui, Wanted what) {
  const Figures& f = ui.figures();
  const show::Style& s = ui.style;
  // What is not weighed yet would be carried by what is; and of too much no cost is right.
  if (what == Wanted::left || what == Wanted::too_much) {
    if (!f.cost) return not_yet("costs", say("result.paid"), costs_part);
    return {"costs", say("result.paid"), show::money(*f.cost, s), Tone::normal, costs_part};
  }
  const std::string unit = show::price_unit_name(s);
  const bool known = f.yield && f.yield->cost_per_primary;
  // Said already where a portion has no size: then what all that is usable costs.
  const bool all = known && answered_target(f) == nullptr && what == Wanted::target;
  const std::string title = all ? say("figure.cost-per-usable", {unit})
                                : say("result.per-weight", {portions_name(f), unit});
  const auto price = !known ? std::nullopt
                     : all  ? f.yield->cost_per_usable
                            : f.yield->cost_per_primary;
  if (!price) return not_yet("costs", title, costs_part);
  // As the one answer has it: with the work, where that is known.
  const auto worked = all ? std::nullopt : with_work(f);
  if (worked) {
    return {"costs", say("result.per-weight-work", {portions_name(f), unit}),
            show::money_figures(worked->per(s.price_unit), s), Tone::normal, costs_part};
  }
  return {"costs", title, show::money_figures(price->per(s.price_unit), s), Tone::normal,
          costs_part};
}

Chapter of_work(const Ui& ui) {
  const Figures& f = ui.figures();
  if (!explain::is_work_known(f)) return not_yet("work", say("figure.labour"), work_part);
  return {"work", say("figure.labour"), show::money(f.labour.value_or(Money()), ui.style),
          Tone::normal, work_part};
}

Chapter of_buying(const Ui& ui, Wanted what) {
  const Figures& f = ui.figures();
  const auto told = f.make_or_buy ? f.make_or_buy->saving : std::nullopt;
  const bool too_early =
      !explain::is_work_known(f) || what == Wanted::left || what == Wanted::too_much;
  if (!told || too_early) return not_yet("buy", say("result.make-or-buy"), make_or_buy_part);
  const Money saving = *told;
  const bool ahead = saving >= Money();
  return {"buy", say(ahead ? "result.saved" : "result.cost-extra"),
          show::money(ahead ? saving : -saving, ui.style), ahead ? Tone::good : Tone::warn,
          make_or_buy_part};
}

Chapter of_portions(const Ui& ui) {
  const Figures& f = ui.figures();
  std::size_t within = 0, all = 0, together = 0;
  for (const TargetFigures& target : f.targets) {
    if (!target.portions) continue;
    within += target.portions->within;
    all += target.portions->grams.n;
    const PileFigures* pile = pile_named(f, target.pile);
    together += pile != nullptr && pile->pieces > target.portions->grams.n ? 1U : 0U;
  }
  if (all > 0) {
    return {"portions", say(together > 0 ? "result.on-target-singly" : "result.on-target"),
            say("result.of", {std::to_string(within), std::to_string(all)}),
            within == all ? Tone::good : Tone::warn, portions_part};
  }
  return {"portions", say("result.portion-target"), show::mass(f.targets.front().target, ui.style),
          Tone::normal, portions_part};
}

std::vector<Chapter> lines_of(const Ui& ui, Wanted what) {
  const Figures& f = ui.figures();
  std::vector<Chapter> lines;
  const auto doubts = std::ranges::count_if(
      f.doubts, [&](const Doubt& doubt) { return !is_told_elsewhere(ui, doubt.code); });
  if (doubts > 0) {
    lines.push_back(
        {"doubts", say("result.doubts"), std::to_string(doubts), Tone::warn, doubts_part});
  }
  const auto failed =
      std::ranges::count_if(f.quality, [](const auto& check) { return !check.second; });
  const Chapter quality = {"quality", say("result.quality"),
                           say(failed > 0          ? "result.not-passed"
                               : f.quality.empty() ? "result.not-judged"
                                                   : "result.passed"),
                           failed > 0          ? Tone::bad
                           : f.quality.empty() ? Tone::normal
                                               : Tone::good,
                           quality_part};
  const bool much =
      std::ranges::find(f.doubts, Code::doubt_loss_high, &Doubt::code) != f.doubts.end();
  const bool lost = has_loss(ui, what);
  Chapter loss = {"loss", say("result.lost"), {}, much ? Tone::warn : Tone::normal, loss_part};
  if (lost && f.loss) loss.value = show::mass(f.loss->value(), ui.style);
  if (failed > 0) lines.push_back(quality);
  if (lost && much) lines.push_back(loss);
  lines.push_back(of_costs(ui, what));
  lines.push_back(of_work(ui));
  lines.push_back(of_buying(ui, what));
  if (!f.targets.empty()) lines.push_back(of_portions(ui));
  if (lost && !much) lines.push_back(loss);
  const bool all_weighed = what != Wanted::left && what != Wanted::too_much;
  if (failed == 0 && (all_weighed || !f.quality.empty())) lines.push_back(quality);
  lines.push_back({"all", say("result.all"), {}, Tone::normal, rest_part});
  return lines;
}

// Minutes that are asked about belong to the work.
bool is_open(const Ui& ui, const std::string& key) {
  return ui.panel() == "chapter:" + key || (key == "work" && ui.panel() == "minutes");
}

}  // namespace

void lines_alone(Ui& ui, Wanted what) {
  for (const Chapter& line : lines_of(ui, what)) {
    if (line.key == "doubts" || line.value.empty() || line.tone == Tone::quiet) continue;
    ui.kit.chapter("picture/" + line.key, line.title, {.value = line.value, .tone = line.tone});
  }
}

void chapters(Ui& ui, Wanted what) {
  for (const Chapter& line : lines_of(ui, what)) {
    const bool open = is_open(ui, line.key);
    const std::string path = "result/chapter/" + line.key;
    if (ui.kit.chapter(path, line.title, {.value = line.value, .tone = line.tone, .open = open})) {
      ask::edit(ui.app, {});
      ask::open_panel(ui.app, open ? "" : "chapter:" + line.key);
      if (!open) bring_into_view(ui, line);
    }
    if (!open) continue;
    auto column = ui.kit.column();
    line.body(ui);
    ui.kit.space();
  }
}

}  // namespace tallyblock
