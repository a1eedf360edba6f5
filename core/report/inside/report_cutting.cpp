#include "report_cutting.h"

namespace tallyblock {
namespace {

void mm(ReportWriter& w, std::string_view key, const std::optional<Length>& length) {
  w.number(key, length ? std::optional(length->in_millimetres()) : std::nullopt);
}

std::string_view name_of(Fate fate) {
  switch (fate) {
    case Fate::keep: return "keep";
    case Fate::other_spec: return "other-spec";
    case Fate::trim: return "trim";
    case Fate::lesser_pile: return "lesser-pile";
  }
  return "keep";
}

std::string_view pile_of(const std::vector<PortionSpec>& specs, std::size_t spec) {
  return spec < specs.size() ? std::string_view(specs[spec].name) : std::string_view{};
}

void write_plan(ReportWriter& w, const Plan& plan, const std::vector<PortionSpec>& specs) {
  w.open_object("plan");
  w.whole("portions", plan.demanded);
  w.money("value", plan.value);
  w.money("worth", plan.worth);
  w.open_array("expected");
  for (const double portions : plan.expected) w.number({}, portions);
  w.close_array();
  w.whole("changes_of_k", plan.changes_of_k);
  w.mass("deviation_g", plan.deviation);
  w.mass("remainder_g", plan.remainder);
  w.mass("trim_g", plan.trim);
  w.mass("saw_loss_g", plan.saw_loss);
  w.truth("exact", plan.exact);
  w.whole("gap_portions", plan.gap_portions);
  w.objects("sections", plan.sections, [&](const PlannedSection& section) {
    w.whole("k", section.k);
    mm(w, "from_mm", section.from);
    mm(w, "to_mm", section.to);
    w.open_array("split_at");
    for (const double share : section.split_at) w.number({}, share);
    w.close_array();
  });
  w.objects("blocks", plan.blocks, [&](const PlannedBlock& block) {
    w.text("pile", pile_of(specs, block.spec));
    w.whole("k", block.k);
    w.whole("counted", block.counted);
    w.text_or_null("other_pile",
                   block.other_counted > 0 ? pile_of(specs, block.other) : std::string_view{});
    w.whole("other_counted", block.other_counted);
    mm(w, "from_mm", block.from);
    mm(w, "to_mm", block.to);
    w.mass("each_g", block.each);
  });
  w.close_object();
}

void write_cut(ReportWriter& w, const CutLine& cut, const std::vector<PortionSpec>& specs) {
  w.text("id", to_text(cut.id));
  mm(w, "asked_mm", cut.asked);
  w.whole("k", cut.k);
  w.text_or_null("pile", pile_of(specs, cut.spec));
  w.truth("closed", cut.closed);
  w.open_array("portions_g");
  for (const Mass portion : cut.portions) w.mass({}, portion);
  w.close_array();
  w.objects("verdicts", cut.verdicts, [&](const Verdict& verdict) {
    w.text("do", name_of(verdict.fate));
    w.text_or_null("pile", pile_of(specs, verdict.spec));
    w.mass("off_g", verdict.off);
    w.mass("trim_g", verdict.trim);
  });
}

void write_advice(ReportWriter& w, const Guide::Advice& advice,
                  const std::vector<PortionSpec>& specs) {
  w.open_object("next");
  w.truth("done", advice.done);
  w.text_or_null("pile", advice.done ? std::string_view{} : pile_of(specs, advice.spec));
  w.whole("k", advice.k);
  mm(w, "thickness_mm", advice.done ? std::nullopt : std::optional(advice.next));
  mm(w, "stands_at_mm", advice.stands_at);
  w.mass("expected_g", advice.expected);
  w.mass("scatter_g", advice.scatter);
  w.whole("portions_left", advice.left);
  w.close_object();
}

void write_object(ReportWriter& w, const CuttingObject& object,
                  const std::vector<PortionSpec>& specs) {
  w.text_or_null("long_piece", object.long_piece);
  w.whole("of", object.of);
  mm(w, "from_mm", object.from);
  mm(w, "to_mm", object.to);
  w.mass("weight_g", object.weight);
  w.text_or_null("problem", object.problem ? key_of(object.problem->code) : std::string_view{});
  if (object.plan) {
    write_plan(w, *object.plan, specs);
  } else {
    w.null("plan");
  }
  w.objects("cuts", object.cuts, [&](const CutLine& cut) { write_cut(w, cut, specs); });
  if (object.advice) {
    write_advice(w, *object.advice, specs);
  } else {
    w.null("next");
  }
  w.mass("remaining_g", object.remaining);
  w.number("habit", object.cook.habit);
  w.number("habit_sd", object.cook.habit_sd);
  w.number("scatter", object.cook.scatter);
  w.whole("weighed_cuts", static_cast<long long>(object.cook.cuts));
}

void write_view(ReportWriter& w, const CuttingView& view) {
  w.text("step", view.step);
  w.objects("stations", view.stations, [&](const Station& station) {
    mm(w, "at_mm", station.at);
    mm(w, "width_mm", station.width);
    mm(w, "depth_mm", station.depth);
    w.number("fill", station.fill);
  });
  w.objects("specs", view.specs, [&](const PortionSpec& spec) {
    w.text("pile", spec.name);
    w.mass("target_g", spec.target);
    w.mass("tolerance_g", spec.tolerance);
    w.whole("wanted", spec.wanted);
    w.money("value", spec.value);
  });
  w.objects("splits", view.splits, [&](const SplitOption& option) {
    w.whole("k", option.k);
    w.whole("portions", option.portions);
    w.number("expected", option.expected);
    mm(w, "thickness_mm", option.thickness);
    w.money("worth", option.worth);
    w.truth("best", option.best);
  });
  w.objects("objects", view.objects,
            [&](const CuttingObject& object) { write_object(w, object, view.specs); });
}

}  // namespace

void write_cutting(ReportWriter& w, const std::vector<CuttingView>& cutting) {
  w.objects("cutting", cutting, [&](const CuttingView& view) { write_view(w, view); });
}

}  // namespace tallyblock
