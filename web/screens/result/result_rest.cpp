// Doubts, loss and yields, quality, and the figures that belong nowhere else.
#include <algorithm>

#include "result_parts.h"
#include "web/screens/breakdown_drawn.h"
#include "web/screens/judging.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

std::string bought(const Ui& ui) {
  const Figures& f = ui.figures();
  if (!f.incoming.as_purchased) return say("result.bought-unknown");
  const std::string whole = show::mass(f.incoming.as_purchased->value(), ui.style);
  if (!f.yield || !f.yield->price) return say("result.bought-no-price", {whole});
  return say("result.bought", {whole, show::price(*f.yield->price, ui.style)});
}

void yields(Ui& ui) {
  ui.kit.heading(say("result.yield"), 2);
  known_figures(ui, explain::yields(ui.figures(), ui.style));
  for (const EyeCallFigures& call : ui.figures().eye_calls) {
    if (!call.weighed) continue;
    ui.kit.paragraph(say("result.eye-call", {show::percent(call.called, ui.style),
                                             show::percent(*call.weighed, ui.style)}));
  }
}

void factors(Ui& ui) {
  ui.kit.heading(say("result.factors"), 2);
  const bool pounds = ui.style.price_unit == MassUnit::pound;
  ui.kit.paragraph(say("result.factors-say", {say(pounds ? "result.pound" : "result.kilo")}),
                   Tone::quiet, "result/factors-say");
  known_figures(ui, explain::factors(ui.figures(), ui.style));
}

void new_price(Ui& ui, bool all_weighed) {
  ui.kit.heading(say("result.new-price"), 2);
  const std::string& typed = ui.draft().new_price;
  const auto number = parse_number(typed, "new-price");
  std::optional<PricePerMass> price;
  if (!typed.empty() && number)
    price = PricePerMass::of(Money::units(number->value), ui.style.price_unit);
  {
    auto inputs = ui.kit.panel(Ground::sunk);
    field(ui, {FieldKind::new_price, ""}, price ? show::price(*price, ui.style) : std::string());
  }
  if (!price) return ui.kit.paragraph(say("result.new-price-say"), Tone::quiet);
  if (all_weighed) figure_lines(ui, explain::price_update(ui.figures(), *price, ui.style));
}

void table(Ui& ui, Wanted what) {
  const Breakdown breakdown = breakdown_of(ui.figures(), ui.style);
  if (breakdown.rows.empty()) return;
  breakdown_table(ui, breakdown,
                  say(what == Wanted::left ? "weigh.not-weighed-yet" : "result.loss"));
}

// What lay there, what lies on the piles, what is gone.
void loss_sentence(Ui& ui) {
  const Figures& f = ui.figures();
  const auto steps = std::ranges::count_if(f.steps, [](const StepFigures& step) {
    return step.counted && step.process == Process::breakdown;
  });
  const StepFigures& first = f.steps.front();
  if (steps != 1 || !first.input || !first.loss) return;
  ui.kit.paragraph(say("result.loss-say", {show::mass(first.input->value(), ui.style),
                                           show::mass(first.outputs.value(), ui.style),
                                           show::mass(first.loss->value(), ui.style)}),
                   Tone::normal, "result/loss-say");
}

// What was thrown out is no loss in cutting, but who asks what was lost means both.
void lost_in_all(Ui& ui) {
  const Figures& f = ui.figures();
  const auto& whole = f.incoming.as_purchased;
  if (!f.loss || !whole || whole->value() <= Mass() || f.unusable_trim.value() <= Mass()) return;
  const Mass all = f.loss->value() + f.unusable_trim.value();
  ui.kit.paragraph(say("result.lost-in-all",
                       {show::mass(all, ui.style), show::percent(all / whole->value(), ui.style)}),
                   Tone::normal, "result/lost-in-all");
}

}  // namespace

bool has_loss(const Ui& ui, Wanted what) {
  const Figures& f = ui.figures();
  return f.loss && f.incoming.as_purchased && !f.steps.empty() && all_is_weighed(f) &&
         what != Wanted::too_much && what != Wanted::left;
}

bool is_slip(Code doubt) {
  return doubt == Code::doubt_explain_repeated || doubt == Code::doubt_explain_tare ||
         doubt == Code::doubt_explain_tare_twice || doubt == Code::doubt_explain_unit ||
         doubt == Code::doubt_explain_sign;
}

bool is_told_elsewhere(const Ui& ui, Code doubt) {
  const Wanted what = wanted(ui);
  if (doubt == Code::doubt_loss_high) return what == Wanted::left || has_loss(ui, what);
  return what == Wanted::too_much && (doubt == Code::doubt_loss_negative || is_slip(doubt));
}

void doubts_part(Ui& ui) {
  std::size_t at = 0;
  for (const Doubt& doubt : ui.figures().doubts) {
    ++at;
    if (is_told_elsewhere(ui, doubt.code)) continue;
    auto panel = ui.kit.panel(Ground::warn);
    ui.kit.paragraph(doubt_words(ui.figures(), ui.style, doubt), Tone::warn,
                     "result/doubt/" + std::to_string(at));
  }
}

void loss_part(Ui& ui) {
  const Figures& f = ui.figures();
  loss_sentence(ui);
  lost_in_all(ui);
  for (const Doubt& doubt : f.doubts) {
    if (doubt.code == Code::doubt_loss_high)
      ui.kit.paragraph(doubt_words(f, ui.style, doubt), Tone::warn, "result/loss-high");
  }
  if (is_said_all_weighed(f) &&
      ui.kit.button("result/more-to-weigh", say("result.more-to-weigh"))) {
    ask::set_session_setting(ui.app, std::string(kAllWeighed), "no");
  }
  yields(ui);
}

void quality_part(Ui& ui) { trim_and_quality(ui); }

void rest_part(Ui& ui) {
  const Wanted what = wanted(ui);
  const bool all_weighed = what != Wanted::left;
  ui.kit.paragraph(bought(ui), Tone::normal, "result/bought");
  table(ui, what);
  if (ui.figures().targets.empty()) target_fields_left(ui);
  if (all_weighed && what != Wanted::too_much && !has_loss(ui, what)) yields(ui);
  if (all_weighed) factors(ui);
  new_price(ui, all_weighed);
}

}  // namespace tallyblock
