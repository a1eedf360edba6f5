#include "price_fields.h"

#include "parts.h"
#include "web/app/acts/acts_of_readings.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// In its own currency and unit.
std::string as_entered(const Ui& ui, const body::Price& price) {
  const std::string currency = price.currency.empty() ? ui.style.currency : price.currency;
  return say("show.per", {show::typed(price.amount.text, ui.style) + " " + currency, price.unit});
}

// The timer's part stands beside what was typed.
std::string minutes_words(const Figures& f, const show::Style& style) {
  if (!f.minutes_known) return {};
  std::string all = show::minutes(f.minutes, style);
  if (f.minutes_timed == 0.0) return all;
  if (f.minutes_typed == 0.0) return say("result.minutes-timed", {all});
  return say("result.minutes-both",
             {all, show::minutes(f.minutes_timed, style), show::minutes(f.minutes_typed, style)});
}

// By weight, or for so many pieces of such a weight.
void ready_cut_price(Ui& ui, const body::Price* entered) {
  const Figures& f = ui.figures();
  const auto& pieces = f.piece_price;
  std::string price = price_or_empty(f.ready_cut, ui.style), count;
  if (pieces) {
    count = std::to_string(pieces->pieces);
    price = say("result.for-pieces", {show::money(pieces->amount, ui.style), count});
  } else if (f.ready_cut_need && entered != nullptr) {
    price = show::money(Money::units(entered->amount.value), ui.style);
  }
  field(ui, {FieldKind::ready_cut, ""}, price);
  if (entered == nullptr) return;
  field(ui, {FieldKind::ready_cut_pieces, ""}, count);
  if (!pieces) return;
  std::string each;
  if (pieces->each) each = show::mass(pieces->each->mass, ui.style);
  if (pieces->each_from_target) each = say("result.piece-target", {each});
  field(ui, {FieldKind::ready_cut_piece, ""}, each);
}

}  // namespace

std::string price_or_empty(const std::optional<PricePerMass>& price, const show::Style& style) {
  return price ? show::price(*price, style) : std::string();
}

void price_fields(Ui& ui) {
  const Figures& f = ui.figures();
  // As entered, also before the piece is weighed in.
  const body::Price* entered = price_entered(ui, "piece");
  const bool by_total = entered != nullptr && entered->basis == PriceBasis::total;
  std::string price, total;
  if (f.yield && f.yield->price) price = show::price(*f.yield->price, ui.style);
  if (price.empty() && entered != nullptr && !by_total) price = as_entered(ui, *entered);
  if (f.cost) total = show::money(*f.cost, ui.style);
  auto grid = ui.kit.grid(2, 144);
  field(ui, {FieldKind::price_per_mass, ""}, price);
  field(ui, {FieldKind::price_total, ""}, total);
}

void ready_cut_fields(Ui& ui) {
  auto grid = ui.kit.grid(2, 144);
  std::string yield;
  const body::Price* entered = price_entered(ui, "ready-cut");
  ready_cut_price(ui, entered);
  if (entered != nullptr && entered->quoted_yield) {
    yield = show::percent(entered->quoted_yield->value, ui.style);
  }
  field(ui, {FieldKind::ready_cut_yield, ""}, yield);
}

void work_fields(Ui& ui) {
  const Figures& f = ui.figures();
  auto grid = ui.kit.grid(2, 144);
  field(ui, {FieldKind::minutes, ""}, minutes_words(f, ui.style));
  field(ui, {FieldKind::wage, ""},
        f.settings.wage_per_hour
            ? say("show.per", {show::money(*f.settings.wage_per_hour, ui.style), say("show.hour")})
            : std::string());
}

}  // namespace tallyblock
