#include "fields.h"

#include <iterator>

#include "app.h"

namespace tallyblock {

// In the order of the enum.
struct App::Fields {
  using F = FieldKind;
  using M = Measure;
  using S = Subject;
  using K = KeptIn;
  // clang-format off
  static constexpr FieldRow rows[] = {
    {F::none, "none", M::none, Sign::any, S::nothing, K::draft, nullptr},
    {F::reading, "reading", M::mass, Sign::positive_only, S::nothing, K::session, &App::commit_reading},
    {F::drained, "drained", M::mass, Sign::positive_only, S::nothing, K::session, &App::commit_incoming},
    {F::invoice, "invoice", M::mass, Sign::positive_only, S::nothing, K::session, &App::commit_incoming},
    {F::received, "received", M::mass, Sign::positive_only, S::nothing, K::session, &App::commit_incoming},
    {F::packaging, "packaging", M::mass, Sign::zero_or_more, S::nothing, K::session, &App::commit_incoming},
    {F::purge, "purge", M::mass, Sign::zero_or_more, S::nothing, K::session, &App::commit_incoming},
    {F::price_per_mass, "price-per-mass", M::per_mass, Sign::zero_or_more, S::nothing, K::session, &App::commit_price},
    {F::price_total, "price-total", M::total, Sign::zero_or_more, S::nothing, K::session, &App::commit_price},
    {F::ready_cut, "ready-cut", M::per_mass, Sign::zero_or_more, S::nothing, K::session, &App::commit_price},
    {F::ready_cut_yield, "ready-cut-yield", M::percent, Sign::zero_or_more, S::nothing, K::session, &App::commit_ready_cut_yield},
    {F::pile_value, "pile-value", M::per_mass, Sign::any, S::pile, K::session, &App::commit_price},
    {F::wage, "wage", M::per_hour, Sign::zero_or_more, S::nothing, K::session, &App::commit_wage},
    {F::minutes, "minutes", M::minutes, Sign::zero_or_more, S::nothing, K::session, &App::commit_minutes},
    {F::target, "target", M::mass, Sign::positive_only, S::pile, K::session, &App::commit_target},
    {F::tolerance, "tolerance", M::mass, Sign::zero_or_more, S::pile, K::session, &App::commit_tolerance},
    {F::eye_call, "eye-call", M::percent, Sign::zero_or_more, S::nothing, K::session, &App::commit_eye_call},
    {F::remainder, "remainder", M::mass, Sign::zero_or_more, S::step, K::session, &App::commit_remainder},
    {F::checkpoint, "checkpoint", M::mass, Sign::positive_only, S::step, K::session, &App::commit_checkpoint},
    {F::tub_tare, "tub-tare", M::mass, Sign::zero_or_more, S::tub, K::session, &App::commit_tub_tare},
    {F::step_weight, "step-weight", M::mass, Sign::positive_only, S::pile, K::session, &App::commit_step_weight},
    {F::transfer, "transfer", M::mass, Sign::positive_only, S::pile, K::session, &App::commit_transfer},
    {F::new_price, "new-price", M::per_mass, Sign::zero_or_more, S::nothing, K::draft, &App::commit_new_price},
    {F::receiving_temperature, "receiving-temperature", M::temperature, Sign::any, S::nothing, K::session, &App::commit_temperature},
    {F::loss_limit, "loss-limit", M::percent, Sign::zero_or_more, S::nothing, K::session, &App::commit_loss_limit},
    {F::division, "division", M::mass, Sign::positive_only, S::nothing, K::session, &App::commit_division},
    {F::default_wage, "default-wage", M::per_hour, Sign::zero_or_more, S::nothing, K::settings, &App::commit_default_wage},
    {F::default_loss_limit, "default-loss-limit", M::percent, Sign::zero_or_more, S::nothing, K::settings, &App::commit_default_loss_limit},
    {F::default_division, "default-division", M::mass, Sign::positive_only, S::nothing, K::settings, &App::commit_default_division},
    {F::length, "length", M::length, Sign::zero_or_more, S::place, K::session, &App::commit_length},
    {F::wanted, "wanted", M::count, Sign::zero_or_more, S::pile, K::session, &App::commit_wanted},
    {F::long_piece, "long-piece", M::mass, Sign::positive_only, S::long_piece, K::session, &App::commit_long_piece},
    {F::block, "block", M::mass, Sign::positive_only, S::nothing, K::session, &App::commit_block},
    {F::anew, "anew", M::mass, Sign::positive_only, S::reading, K::session, &App::commit_anew},
    {F::ready_cut_pieces, "ready-cut-pieces", M::count, Sign::zero_or_more, S::nothing, K::session, &App::commit_ready_cut_pieces},
    {F::ready_cut_piece, "ready-cut-piece", M::mass, Sign::positive_only, S::nothing, K::session, &App::commit_ready_cut_piece},
  };
  // clang-format on
  static constexpr bool in_order() {
    for (std::size_t i = 0; i < std::size(rows); ++i) {
      if (rows[i].kind != static_cast<FieldKind>(i)) return false;
    }
    return true;
  }
};

const FieldRow& row_of(FieldKind kind) {
  static_assert(App::Fields::in_order());
  static_assert(static_cast<std::size_t>(FieldKind::ready_cut_piece) + 1 ==
                std::size(App::Fields::rows));
  return App::Fields::rows[static_cast<std::size_t>(kind)];
}

FieldKind field_from(std::string_view name) {
  for (const FieldRow& row : App::Fields::rows) {
    if (row.name == name) return row.kind;
  }
  return FieldKind::none;
}

}  // namespace tallyblock
