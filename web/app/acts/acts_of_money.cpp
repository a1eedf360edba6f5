// What becomes of the digits: money, percentages, minutes, temperature, and the settings for new pieces.
#include "acts_of_money.h"

#include <cmath>
#include <utility>

#include "web/figures/show.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr double kMostInAPack = 10'000;

constexpr const char* kReadyCut = "ready-cut";

// The ready-cut price as it stands, to be changed.
std::optional<body::Price> ready_cut_now(const Work& w) {
  body::Price like;
  like.of = kReadyCut;
  const auto* now = latest(w.open(), like);
  return now == nullptr ? std::nullopt : std::optional(*now);
}

Problem no_ready_cut() { return {Code::need_ready_cut_price, kReadyCut, {}}; }

// "$2.15 per lb", "16.00 € per hour".
std::string said_money(const Work& w, const std::string& typed) {
  const Settings& settings = w.figures().settings;
  show::Style style;
  style.currency = settings.currency;
  std::string money = show::typed_money(typed, style);
  const FieldKind kind = w.field().kind;
  const bool of_pieces = kind == FieldKind::ready_cut && w.figures().piece_price;
  switch (row_of(kind).measure) {
    case Measure::per_mass:
      return of_pieces ? money : say("show.per", {money, settings.price_unit});
    case Measure::per_hour: return say("show.per", {money, say("show.hour")});
    default: return money;
  }
}

}  // namespace

Made commit_price(Work& w) {
  const FieldKind kind = w.field().kind;
  const Settings& settings = w.figures().settings;
  const auto amount = typed_amount(w);
  if (!amount) return amount.problem();
  body::Price price;
  price.of = kind == FieldKind::ready_cut    ? "ready-cut"
             : kind == FieldKind::pile_value ? "pile:" + w.field().subject
                                             : "piece";
  price.basis = kind == FieldKind::price_total ? PriceBasis::total : PriceBasis::per_mass;
  price.amount = *amount;
  if (price.basis == PriceBasis::per_mass) price.unit = settings.price_unit;
  price.currency = settings.currency;
  if (const auto* now = latest(w.open(), price)) {
    price.quoted_yield = now->quoted_yield;
    price.pieces = now->pieces;
    price.piece_weight = now->piece_weight;
  }
  if (price.pieces) {
    price.basis = PriceBasis::total;
    price.unit.clear();
  }
  std::string label = label_of(kind);
  if (kind == FieldKind::pile_value)
    label = say("field.of", {label, pile_name(w.open(), w.field().subject)});
  return fact(w, std::move(price), label, as_shown(w.settings, said_money(w, amount->text)));
}

Made commit_ready_cut_yield(Work& w) {
  const auto share = typed_share(w);
  if (!share) return share.problem();
  if (share->value <= 0.0) return Problem{Code::typed_zero, where_typed(w), {Arg::share(0.0, 0)}};
  auto price = ready_cut_now(w);
  if (!price) return no_ready_cut();
  price->quoted_yield = *share;
  return fact(w, *std::move(price), share->text);
}

// For how many pieces the ready-cut price is; none: the amount is a price by weight.
Made commit_ready_cut_pieces(Work& w) {
  auto price = ready_cut_now(w);
  if (!price) return no_ready_cut();
  const std::string& digits = w.draft().digits;
  const auto count =
      parse_number(digits.empty() ? "0" : digits, where_typed(w), Sign::zero_or_more, kMostInAPack);
  if (!count) return count.problem();
  if (std::floor(count->value) != count->value)
    return Problem{Code::typed_not_whole, where_typed(w), {Arg::typed(digits)}};
  price->pieces.reset();
  if (count->value > 0.0) price->pieces = static_cast<unsigned>(count->value);
  price->basis = price->pieces ? PriceBasis::total : PriceBasis::per_mass;
  price->unit = price->pieces ? std::string() : w.figures().settings.price_unit;
  if (!price->pieces) price->piece_weight.reset();
  return fact(w, *std::move(price), count->text);
}

// What one of them weighs.
Made commit_ready_cut_piece(Work& w) {
  auto price = ready_cut_now(w);
  if (!price) return no_ready_cut();
  if (!price->pieces) return Problem{Code::need_ready_cut_pieces, where_typed(w), {}};
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  price->piece_weight = *mass;
  return fact(w, *std::move(price), mass->text);
}

// ---- labour

// Nothing is added to what was timed or typed before without asking: "instead" takes the place of all of
// it, and of what the timer has measured since.
Made keep_minutes(Work& w, bool instead) {
  const auto typed = parse_minutes(w.draft().digits, where_typed(w));
  if (!typed) return typed.problem();
  const double before = w.figures().minutes;
  std::vector<EntryId> replaces;
  const LiveView live(w.open().set);
  for (const Entry* entry : live.entries()) {
    if (instead && std::holds_alternative<body::Labour>(entry->body)) replaces.push_back(entry->id);
  }
  Notice notice =
      done("notice.entered",
           {label_of(w.field().kind), say("show.minutes", {as_shown(w.settings, typed->text)})});
  if (before > 0.0) {
    notice.key = instead ? "notice.minutes-instead" : "notice.minutes-more";
    const double other = instead ? before : before + typed->value;
    notice.args = {std::to_string(std::lround(typed->value)), std::to_string(std::lround(other))};
  }
  w.to.add(body::Labour{typed.value(), std::nullopt}, std::move(replaces));
  return {std::move(w.to), std::move(notice)};
}

Made commit_minutes(Work& w) {
  const auto typed = parse_minutes(w.draft().digits, where_typed(w));
  if (!typed) return typed.problem();
  if (!w.figures().minutes_known && w.timer_ms == 0) return keep_minutes(w, false);
  w.draft().panel = "minutes";  // instead, or on top? The digits wait for it.
  return {};
}

Made timed(const OpenSession& open, Writing to, std::int64_t ms) {
  const double before = open.figures.minutes;
  const double all = before + static_cast<double>(ms) / 60'000;
  Notice notice = done("notice.timed", {std::to_string((ms + 30'000) / 60'000)});
  if (before > 0.0) {
    notice.key = "notice.timed-more";
    notice.args.push_back(std::to_string(std::lround(all)));
  }
  to.add(body::Labour{std::nullopt, ms});
  return {std::move(to), std::move(notice)};
}

Made commit_wage(Work& w) {
  const auto wage = typed_amount(w);
  if (!wage) return wage.problem();
  return fact(w, body::Setting{"wage", wage->text}, said_money(w, wage->text));
}

// ---- others

Made commit_temperature(Work& w) {
  if (w.draft().digits.empty()) return Problem{Code::typed_empty, where_typed(w), {}};
  const std::string unit = w.keypad.unit(w.desk, w.settings);
  const auto degrees = parse_temperature(w.draft().digits + ' ' + unit, where_typed(w));
  if (!degrees) return degrees.problem();
  return fact(w, body::Lot{"receiving-temperature", degrees->text}, degrees->text);
}

Made commit_eye_call(Work& w) {
  const auto share = typed_share(w);
  if (!share) return share.problem();
  return fact(w, body::EyeCall{Role::primary, *share}, share->text);
}

Made commit_loss_limit(Work& w) {
  const auto share = typed_share(w);
  if (!share) return share.problem();
  return fact(w, body::Setting{"loss-limit", share->text}, share->text);
}

// What-if on the result screen, not an entry.
Made commit_new_price(Work& w) {
  const auto price = typed_amount(w);
  if (!price) return price.problem();
  w.draft().new_price = price->text;
  w.keypad.after_field(w.desk.session());
  return {};
}

// ---- settings for new pieces

Made commit_default_division(Work& w) {
  const auto mass = typed_mass(w);
  if (!mass) return mass.problem();
  w.settings.division = mass->text;
  return {};
}

Made commit_default_loss_limit(Work& w) {
  const auto share = typed_share(w);
  if (!share) return share.problem();
  w.settings.loss_limit = share->text;
  return {};
}

// No digits: no wage.
Made commit_default_wage(Work& w) {
  if (w.draft().digits.empty()) {
    w.settings.wage.clear();
    return {};
  }
  const auto wage = typed_amount(w);
  if (!wage) return wage.problem();
  w.settings.wage = wage->text;
  return {};
}

}  // namespace tallyblock
