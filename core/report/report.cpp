#include "report.h"

#include "core/base/finite.h"
#include "core/report/inside/report_cutting.h"
#include "core/report/inside/report_json.h"

namespace tallyblock {
namespace {

void write_session(ReportWriter& w, const Figures& f) {
  w.whole("report_version", 1);
  w.whole("entries", static_cast<long long>(f.entry_count));
  w.text_or_null("piece", f.piece);
  w.text_or_null("species", f.species);
  w.text_or_null("cut", f.cut);
  w.text_or_null("specification", f.specification);
  w.open_object("lot");
  for (const auto& [field, value] : f.lot) w.text(field.empty() ? "?" : field, value);
  w.close_object();
  w.open_object("quality_passed");
  for (const auto& [check, passed] : f.quality) w.truth(check.empty() ? "?" : check, passed);
  w.close_object();
  w.text("currency", f.settings.currency);
  w.text("unit", f.settings.unit);
  w.text("price_unit", f.settings.price_unit);
  w.mass("division_g", f.settings.division.mass);
  w.text("division_from", f.settings.all.contains("division") ? "setting" : "default");
  w.number("loss_limit", f.settings.loss_limit);
  w.money("wage_per_hour", f.settings.wage_per_hour);
  w.objects("people", f.people, [&](const PersonLine& person) {
    w.text("id", to_text(person.id));
    w.text("name", person.name);
  });
  w.objects("notes", f.notes, [&](const NoteLine& note) {
    w.text("id", to_text(note.id));
    w.text("text", note.text);
    w.text_or_null("about", note.about ? to_text(*note.about) : "");
  });
}

void write_incoming(ReportWriter& w, const IncomingFigures& in) {
  w.measured("invoice", in.invoice);
  w.measured("received", in.received);
  w.measured("drained", in.drained);
  w.measured("packaging", in.packaging);
  w.measured("purge", in.purge);
  w.measured("short_delivery", in.short_delivery);
  w.measured("received_short", in.received_short);
  w.measured("as_purchased", in.as_purchased);
  w.text_or_null("as_purchased_from", in.as_purchased_from);
  w.measured("on_the_board", in.on_the_board);
  w.whole("incoming_pieces", in.pieces);
}

// <name>_g, <name>_u_g, <name>_ratio, <name>_ratio_u; ratios are to the as-purchased weight.
void write_part(ReportWriter& w, const Figures& f, std::string_view name,
                const std::optional<Measured>& part) {
  const std::string key(name);
  w.measured(key, part);
  const auto& whole = f.incoming.as_purchased;
  const bool known = part && whole && whole->value() > Mass();
  w.number(key + "_ratio", known ? ratio_of(part->value() / whole->value(), 1.0) : std::nullopt);
  w.number(key + "_ratio_u",
           known ? std::optional(ratio_uncertainty(*part, *whole)) : std::nullopt);
}

void write_weights(ReportWriter& w, const Figures& f) {
  write_part(w, f, "primary", f.primary);
  write_part(w, f, "secondary", f.secondary);
  write_part(w, f, "usable_trim", f.usable_trim);
  write_part(w, f, "unusable_trim", f.unusable_trim);
  write_part(w, f, "primary_and_secondary", f.primary + f.secondary);
  write_part(w, f, "usable", f.primary + f.secondary + f.usable_trim);
  write_part(w, f, "loss", f.loss);
  write_part(w, f, "change_of_weight", f.change_of_weight);
}

void write_money(ReportWriter& w, const Figures& f) {
  const YieldTest y = f.yield.value_or(YieldTest{});
  w.money("cost", f.cost);
  w.price("price_per_g", y.price);
  w.money("by_product_value", y.by_product_value);
  w.money("net_cost", y.net_cost);
  w.price("cost_per_primary_g", y.cost_per_primary);
  w.price("cost_per_primary_g_no_credit", y.cost_per_primary_no_credit);
  w.price("cost_per_usable_g", y.cost_per_usable);
  w.number("factor_nothing_saved", y.factor_nothing_saved);
  w.number("factor_all_usable", y.factor_all_usable);
  w.number("cost_factor", y.cost_factor);
  w.objects("cost_lines", cost_lines(f), [&](const CostLine& line) {
    w.text_or_null("pile", line.pile);
    w.money("exact", line.exact);
    w.whole("shown_cents", line.shown);
  });
}

void write_piece_price(ReportWriter& w, const Figures& f) {
  const auto& price = f.piece_price;
  std::optional<Mass> each;
  std::string_view from;
  if (price && price->each) {
    each = price->each->mass;
    from = price->each_from_target ? "target" : "price";
  }
  w.money("ready_cut_amount", price ? std::optional(price->amount) : std::nullopt);
  w.whole("ready_cut_pieces", price ? std::optional(price->pieces) : std::nullopt);
  w.mass("ready_cut_piece_g", each);
  w.text_or_null("ready_cut_piece_from", from);
  w.text_or_null("ready_cut_need", f.ready_cut_need ? key_of(*f.ready_cut_need) : "");
}

void write_make_or_buy(ReportWriter& w, const Figures& f) {
  const bool known = f.make_or_buy.has_value();
  const MakeOrBuy m = f.make_or_buy.value_or(MakeOrBuy{});
  const auto if_known = [&](double minutes) {
    return f.minutes_known ? std::optional(minutes) : std::nullopt;
  };
  w.number("minutes", if_known(f.minutes));
  w.number("minutes_timed", if_known(f.minutes_timed));
  w.number("minutes_typed", if_known(f.minutes_typed));
  w.money("labour", f.labour);
  w.price("ready_cut_per_g", f.ready_cut);
  w.number("ready_cut_yield", f.ready_cut ? std::optional(f.ready_cut_yield) : std::nullopt);
  write_piece_price(w, f);
  w.price("ready_cut_same_trim_per_g", f.ready_cut_same_trim);
  w.price("break_even_ready_cut_per_g",
          known ? std::optional(m.break_even_ready_cut) : std::nullopt);
  w.price("break_even_ready_cut_as_quoted_per_g",
          known ? std::optional(m.break_even_ready_cut_as_quoted) : std::nullopt);
  w.money("saving", m.saving);
  w.text_or_null("miscut_pile", f.miscut_pile);
  w.price("miscut_value_per_g", f.miscut_value);
  w.mass("primary_at_break_even_g", m.primary_at_break_even);
  w.mass("may_be_spoiled_g", m.may_be_spoiled);
  w.number("spoiled_share_of_primary", m.spoiled_share_of_primary);
  w.mass("may_be_binned_g", m.may_be_binned);
  w.number("break_even_minutes", m.break_even_minutes);
  w.price("break_even_as_purchased_price_per_g", m.break_even_ap_price);
}

void write_step(ReportWriter& w, const StepFigures& step) {
  w.text("step", step.key);
  w.text_or_null("name", step.name);
  w.text("process", name_of(step.process));
  w.text_or_null("from_pile", step.from_pile);
  w.truth("reached", step.reached);
  w.truth("counted", step.counted);
  w.measured("taken", step.taken);
  w.measured("input", step.input);
  w.measured("outputs", step.outputs);
  w.measured("unweighed", step.unweighed);
  w.measured("loss", step.loss);
  w.number("loss_share", step.loss_share);
  w.measured("on_board", step.on_board);
  w.measured("missing_now", step.missing_now);
  w.open_object("checkpoints_g");
  for (const auto& [name, weight] : step.checkpoints) w.mass(name, weight.value());
  w.close_object();
}

void write_reading(ReportWriter& w, const ReadingLine& line) {
  w.text("id", to_text(line.id));
  w.text("habit", name_of(line.habit));
  w.text("typed", line.typed);
  w.whole("count", line.count);
  w.mass("net_g", line.net);
  w.truth("void", line.is_void);
  w.truth("covered", line.covered);
  w.truth("moved", line.moved);
  w.truth("outvoted", line.outvoted);
}

void write_pile(ReportWriter& w, const Figures& f, const PileFigures& pile) {
  w.text("pile", pile.key);
  w.text("name", pile.name);
  w.text("step", pile.step);
  w.text("role", name_of(pile.role));
  w.text_or_null("use", pile.use);
  const bool known = pile.weight_known;
  w.measured("weighed", known ? std::optional(pile.weighed) : std::nullopt);
  w.measured("taken_further", pile.taken_further);
  w.measured("carried", pile.carried);
  w.measured("kept", known ? std::optional(pile.kept) : std::nullopt);
  const bool share = known && f.incoming.as_purchased && f.incoming.as_purchased->value() > Mass();
  w.number("ratio", share ? std::optional(pile.share_of_ap) : std::nullopt);
  w.number("ratio_u", share ? std::optional(pile.share_uncertainty) : std::nullopt);
  w.whole("pieces", pile.pieces);
  w.truth("by_difference", pile.by_difference);
  w.truth("counted", pile.counted);
  w.price("value_per_g", pile.value);
  w.money("worth", pile.worth);
  w.objects("readings", pile.lines, [&](const ReadingLine& line) { write_reading(w, line); });
}

void write_portions(ReportWriter& w, const std::optional<PortionFigures>& given) {
  const PortionFigures p = given.value_or(PortionFigures{});
  const auto if_any = [&](double value) { return given ? std::optional(value) : std::nullopt; };
  w.whole("n", static_cast<long long>(p.grams.n));
  w.number("mean_g", if_any(p.grams.mean));
  w.number("median_g", if_any(p.grams.median));
  w.number("smallest_g", if_any(p.grams.smallest));
  w.number("largest_g", if_any(p.grams.largest));
  w.number("s_g", p.grams.s);
  w.number("bias_g", if_any(p.bias.in_grams()));
  w.whole("within", static_cast<long long>(p.within));
  w.whole("shorts", static_cast<long long>(p.shorts));
  w.whole("overs", static_cast<long long>(p.overs));
  w.number("share_within", if_any(p.share_within));
  w.number("over_target_g", if_any(p.over_target.in_grams()));
  w.number("cp", p.cp);
  w.number("cpk", p.cpk);
}

void write_target(ReportWriter& w, const TargetFigures& target) {
  w.text("pile", target.pile);
  w.mass("target_g", target.target);
  w.mass("tolerance_g", target.tolerance);
  w.truth("own_tolerance", target.own_tolerance);
  write_portions(w, target.portions);
  w.whole("not_single", target.not_single);
  w.money("over_target_cost", target.over_target_cost);
  w.money("portion_cost", target.cost);
  w.money("portion_cost_with_labour", target.cost_with_labour);
  w.money("portion_cost_no_credit", target.cost_no_credit);
  w.number("portion_factor", target.factor);
  w.whole("whole_portions", target.whole_portions);
}

void write_doubt(ReportWriter& w, const Doubt& doubt, const Settings& settings) {
  w.text("code", key_of(doubt.code));
  w.text("where", doubt.where);
  w.open_array("entries");
  for (const EntryId& id : doubt.entries) w.text({}, to_text(id));
  w.close_array();
  w.open_array("args");
  for (const Arg& arg : doubt.args) w.text({}, text_of(arg, settings));
  w.close_array();
  w.mass("amount_g", doubt.amount);
}

void write_lists(ReportWriter& w, const Figures& f) {
  w.objects("steps", f.steps, [&](const StepFigures& step) { write_step(w, step); });
  w.objects("piles", f.piles, [&](const PileFigures& pile) { write_pile(w, f, pile); });
  w.objects("tubs", f.tubs, [&](const TubFigures& tub) {
    w.text("tub", tub.key);
    w.text("name", tub.name);
    w.mass("tare_g", tub.tare.mass);
  });
  w.objects("targets", f.targets, [&](const TargetFigures& target) { write_target(w, target); });
  w.objects("eye_calls", f.eye_calls, [&](const EyeCallFigures& eye) {
    w.text("role", name_of(eye.role));
    w.number("called", eye.called);
    w.number("weighed", eye.weighed);
  });
  w.objects("doubts", f.doubts, [&](const Doubt& doubt) { write_doubt(w, doubt, f.settings); });
  w.open_array("needs");
  for (const Code code : f.needs) w.text({}, key_of(code));
  w.close_array();
}

}  // namespace

std::string report_json(const Figures& figures, const std::vector<CuttingView>& cutting) {
  ReportWriter writer;
  writer.open_object();
  write_session(writer, figures);
  write_incoming(writer, figures.incoming);
  write_weights(writer, figures);
  write_money(writer, figures);
  write_make_or_buy(writer, figures);
  write_lists(writer, figures);
  write_cutting(writer, cutting);
  writer.close_object();
  return writer.json();
}

}  // namespace tallyblock
