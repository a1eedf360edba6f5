#include "explain.h"

#include "explain_writer.h"

namespace tallyblock::explain {
namespace {

std::string joined(const std::vector<std::string>& parts, std::string_view by) {
  std::string text;
  for (const std::string& part : parts) {
    if (!text.empty()) text += by;
    text += part;
  }
  return text.empty() ? "0" : text;
}

// Sum of weight x value over what is credited.
std::string credits(const Writer& w) {
  std::vector<std::string> parts;
  for (const PileFigures& pile : w.f.piles) {
    if (pile.role == Role::primary || !pile.counted || !pile.value || pile.kept.value() == Mass())
      continue;
    parts.push_back(w.k(pile.kept.value()) + " × " + w.p(*pile.value));
  }
  return joined(parts, " + ");
}

// The whole piece, once it was weighed in.
std::optional<Mass> whole_of(const Figures& f) {
  const auto& whole = f.incoming.as_purchased;
  return whole && whole->value() > Mass() ? std::optional(whole->value()) : std::nullopt;
}

std::string masses(const Writer& w, std::initializer_list<Measured> parts) {
  std::vector<std::string> texts;
  for (const Measured& part : parts) {
    if (part.value() != Mass()) texts.push_back(w.w(part.value()));
  }
  return joined(texts, " + ");
}

std::string over_whole(const std::string& sum, const std::string& whole) {
  const bool several = sum.find('+') != std::string::npos;
  return (several ? "(" + sum + ")" : sum) + " ÷ " + whole + " × 100";
}

// Cents that add up to what was paid may lie beside the amount rounded by itself.
void as_in_the_table(const Writer& w, double amount, Line& line) {
  std::string shown = show::money_figures(amount, w.s);
  if (shown == line.value) return;
  line.sentence += ' ' + say("explain.cents", {shown});
  line.value = std::move(shown);
}

void add_loss(const Writer& w, Lines& lines) {
  const Figures& f = w.f;
  if (!f.loss || !f.incoming.as_purchased) return;
  std::string sum;
  for (const StepFigures& step : f.steps) {
    if (!step.counted || !step.loss || !step.input || step.process != Process::breakdown) continue;
    if (!sum.empty()) sum += " + ";
    sum += w.w(step.input->value());
    for (const PileFigures& pile : f.piles) {
      if (pile.step == step.key && pile.weighed.value() != Mass()) {
        sum += " − " + w.w(pile.weighed.value());
      }
    }
  }
  if (sum.empty()) return;
  const Mass loss = f.loss->value();
  lines.push_back(w.mass("loss", loss, sum));
  lines.push_back(w.share("loss-share", loss / f.incoming.as_purchased->value(),
                          over_whole(w.w(loss), w.w(f.incoming.as_purchased->value()))));
}

Line paid_for_it(const Writer& w, const YieldTest& y) {
  if (!y.cost) return w.blank("cost", missing_costs(w.f));
  if (const auto whole = whole_of(w.f); whole && y.price) {
    return w.money("cost", *y.cost, w.k(*whole) + " × " + w.p(*y.price));
  }
  Line line = w.money("cost-total", *y.cost, w.c(*y.cost));
  line.id = "cost";
  return line;
}

}  // namespace

std::optional<Costs> costs_of(const Figures& f) {
  const auto& y = f.yield;
  if (!y || !y->cost || !y->by_product_value || !y->net_cost) return {};
  if (f.primary.value() <= Mass()) return {};
  Costs costs{*y->cost, *y->by_product_value, y->price, {}};
  costs.whole = whole_of(f);
  return costs;
}

std::vector<Code> missing_costs(const Figures& f) {
  return f.needs.empty() ? std::vector{Code::need_whole_weight} : f.needs;
}

bool is_work_known(const Figures& figures) {
  return figures.labour.has_value() || (figures.minutes_known && figures.minutes == 0.0);
}

std::string pile_name(const PileFigures& pile) {
  return pile.name.empty() ? say("role." + std::string(name_of(pile.role))) : pile.name;
}

std::string pile_name(const Figures& figures, const std::string& key) {
  const PileFigures* pile = pile_named(figures, key);
  return pile == nullptr ? key : pile_name(*pile);
}

Lines headline(const Figures& f, const show::Style& style) {
  const Writer w(f, style);
  Lines lines;
  const auto costs = costs_of(f);
  for (const TargetFigures& target : f.targets) {
    const std::string name =
        say("figure.portion-of", {pile_name(f, target.pile), show::mass(target.target, w.s)});
    if (costs && target.cost) {
      const std::string sum = w.k(target.target) + " × (" + w.c(costs->paid) + " − " +
                              w.c(costs->credit) + ") ÷ " + w.k(f.primary.value());
      lines.push_back(w.money("portion-cost", *target.cost, sum, target.pile, name));
      if (target.cost_with_labour && f.labour) {
        lines.push_back(w.money("portion-with-labour", *target.cost_with_labour,
                                w.k(target.target) + " × (" + w.c(costs->paid) + " − " +
                                    w.c(costs->credit) + " + " + w.c(*f.labour) + ") ÷ " +
                                    w.k(f.primary.value()),
                                target.pile, name));
      }
    } else {
      lines.push_back(w.blank("portion-cost", missing_costs(f), target.pile, name));
    }
  }
  if (f.targets.empty()) {
    Line line = w.blank("portion-cost", {Code::need_target}, "none", say("role.primary"));
    for (const Code code : missing_costs(f)) line.needs.push_back(code);
    lines.push_back(std::move(line));
  }
  if (costs && f.yield && f.yield->cost_per_primary) {
    lines.push_back(w.per_weight(
        "cost-per-primary", *f.yield->cost_per_primary,
        "(" + w.c(costs->paid) + " − " + w.c(costs->credit) + ") ÷ " + w.k(f.primary.value())));
  } else {
    lines.push_back(w.blank("cost-per-primary", missing_costs(f), {}, show::price_unit_name(w.s)));
  }
  return lines;
}

Lines yields(const Figures& f, const show::Style& style) {
  const Writer w(f, style);
  Lines lines;
  const auto weighed = whole_of(f);
  if (!f.yield || !weighed) {
    lines.push_back(w.blank("primary-share", {Code::need_whole_weight}));
    return lines;
  }
  const Mass whole = *weighed;
  const Mass usable = f.primary.value() + f.secondary.value() + f.usable_trim.value();
  if (usable > whole + Mass::grams(1e-6)) return lines;
  const auto share = [&](std::string_view key, std::initializer_list<Measured> parts) {
    Mass sum;
    for (const Measured& part : parts) sum += part.value();
    lines.push_back(w.share(key, sum / whole, over_whole(masses(w, parts), w.w(whole))));
  };
  share("primary-share", {f.primary});
  share("saleable-share", {f.primary, f.secondary});
  share("usable-share", {f.primary, f.secondary, f.usable_trim});
  add_loss(w, lines);
  return lines;
}

Lines costs(const Figures& f, const show::Style& style) {
  const Writer w(f, style);
  if (!f.yield) return {w.blank("cost", missing_costs(f))};
  Lines lines;
  const YieldTest& y = *f.yield;
  const std::string paid = y.cost ? w.c(*y.cost) : std::string();
  const auto shown = show::cost_shown(f, w.s);
  lines.push_back(paid_for_it(w, y));
  if (y.by_product_value && (y.cost || *y.by_product_value != Money())) {
    lines.push_back(w.money("by-product-value", *y.by_product_value, credits(w)));
    if (shown) as_in_the_table(w, shown->credit, lines.back());
  }
  if (y.net_cost && y.by_product_value) {
    lines.push_back(w.money("net-cost", *y.net_cost, paid + " − " + w.c(*y.by_product_value)));
    if (shown) as_in_the_table(w, shown->net, lines.back());
  }
  if (y.cost_per_primary_no_credit) {
    lines.push_back(w.price("cost-per-primary-no-credit", *y.cost_per_primary_no_credit,
                            paid + " ÷ " + w.k(f.primary.value())));
  }
  if (y.cost_per_usable) {
    lines.push_back(
        w.per_weight("cost-per-usable", *y.cost_per_usable, paid + " ÷ " + w.k(y.usable)));
  }
  if (f.labour && f.settings.wage_per_hour) {
    lines.push_back(w.money("labour", *f.labour,
                            w.n(f.minutes) + " × " + w.c(*f.settings.wage_per_hour) + " ÷ 60"));
  }
  const auto costs = costs_of(f);
  if (f.labour && costs) {
    lines.push_back(w.price("cost-with-labour",
                            (costs->paid - costs->credit + *f.labour) / f.primary.value(),
                            "(" + paid + " − " + w.c(costs->credit) + " + " + w.c(*f.labour) +
                                ") ÷ " + w.k(f.primary.value())));
  }
  return lines;
}

Lines factors(const Figures& f, const show::Style& style) {
  const Writer w(f, style);
  const auto weighed = whole_of(f);
  if (!f.yield || !weighed) {
    return {w.blank("factor-nothing-saved", {Code::need_whole_weight})};
  }
  Lines lines;
  const YieldTest& y = *f.yield;
  const Mass whole = *weighed;
  if (y.factor_nothing_saved) {
    lines.push_back(w.line("factor-nothing-saved", show::factor(*y.factor_nothing_saved, w.s), {},
                           w.w(whole) + " ÷ " + w.w(f.primary.value())));
  } else {
    lines.push_back(w.blank("factor-nothing-saved", {Code::need_primary}));
  }
  if (y.factor_all_usable && y.usable <= whole + Mass::grams(1e-6)) {
    lines.push_back(w.line("factor-all-usable", show::factor(*y.factor_all_usable, w.s), {},
                           w.w(whole) + " ÷ " + w.w(y.usable)));
  }
  if (y.cost_factor && y.cost && y.by_product_value) {
    lines.push_back(w.line("cost-factor", show::factor(*y.cost_factor, w.s), {},
                           "(" + w.c(*y.cost) + " − " + w.c(*y.by_product_value) + ") ÷ " +
                               w.k(f.primary.value()) + " ÷ (" + w.c(*y.cost) + " ÷ " + w.k(whole) +
                               ")"));
  } else {
    lines.push_back(w.blank("cost-factor", y.needs));
  }
  return lines;
}

}  // namespace tallyblock::explain
