// What becomes of the digits: money, percentages, minutes, temperature, and the settings for new pieces.
#include <cmath>
#include <utility>

#include "app.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr double kMostMoney = 1e7;
constexpr double kMostInAPack = 10'000;

}  // namespace

std::optional<TypedNumber> App::typed_amount() {
  const FieldRow& row = row_of(draft_.field.kind);
  return accepted(parse_number(draft_.digits, row.name, row.sign, kMostMoney));
}

// Without digits nothing was said; " %" alone would be another problem.
std::optional<TypedNumber> App::typed_share() {
  if (draft_.digits.empty())
    return accepted(Result<TypedNumber>({Code::typed_empty, where_typed(), {}}));
  return accepted(parse_percent(draft_.digits + " %", where_typed()));
}

std::optional<body::Price> App::ready_cut_now() {
  body::Price like;
  like.of = "ready-cut";
  if (const auto* now = latest<body::Price>(like)) return *now;
  refuse({Code::need_ready_cut_price, like.of, {}});
  return std::nullopt;
}

bool App::commit_price() {
  const FieldKind kind = draft_.field.kind;
  const Settings& settings = open_->figures.settings;
  const auto amount = typed_amount();
  if (!amount) return false;
  body::Price price;
  price.of = kind == FieldKind::ready_cut    ? "ready-cut"
             : kind == FieldKind::pile_value ? "pile:" + draft_.field.subject
                                             : "piece";
  price.basis = kind == FieldKind::price_total ? PriceBasis::total : PriceBasis::per_mass;
  price.amount = *amount;
  if (price.basis == PriceBasis::per_mass) price.unit = settings.price_unit;
  price.currency = settings.currency;
  if (const auto* now = latest<body::Price>(price)) {
    price.quoted_yield = now->quoted_yield;
    price.pieces = now->pieces;
    price.piece_weight = now->piece_weight;
  }
  if (price.pieces) {
    price.basis = PriceBasis::total;
    price.unit.clear();
  }
  const std::string shown = amount->text + ' ' + field_unit();
  return put_fact(std::move(price), shown);
}

bool App::commit_ready_cut_yield() {
  const auto share = typed_share();
  if (!share) return false;
  if (share->value <= 0.0) return refuse({Code::typed_zero, where_typed(), {Arg::share(0.0, 0)}});
  auto price = ready_cut_now();
  if (!price) return false;
  price->quoted_yield = *share;
  return put_fact(*std::move(price), share->text);
}

// For how many pieces the ready-cut price is; none: the amount is a price by weight.
bool App::commit_ready_cut_pieces() {
  auto price = ready_cut_now();
  if (!price) return false;
  const auto count = parse_number(draft_.digits.empty() ? "0" : draft_.digits, where_typed(),
                                  Sign::zero_or_more, kMostInAPack);
  if (!count) return refuse(count.problem());
  if (std::floor(count->value) != count->value)
    return refuse({Code::typed_not_whole, where_typed(), {Arg::typed(draft_.digits)}});
  price->pieces.reset();
  if (count->value > 0.0) price->pieces = static_cast<unsigned>(count->value);
  price->basis = price->pieces ? PriceBasis::total : PriceBasis::per_mass;
  price->unit = price->pieces ? std::string() : open_->figures.settings.price_unit;
  if (!price->pieces) price->piece_weight.reset();
  return put_fact(*std::move(price), count->text);
}

// What one of them weighs.
bool App::commit_ready_cut_piece() {
  auto price = ready_cut_now();
  if (!price) return false;
  if (!price->pieces) return refuse({Code::need_ready_cut_pieces, where_typed(), {}});
  const auto mass = typed_mass();
  if (!mass) return false;
  price->piece_weight = *mass;
  return put_fact(*std::move(price), mass->text);
}

// Nothing is added to what was timed or typed before without asking: "instead" takes the place of all of
// it, and of what the timer has measured since.
bool App::keep_minutes(bool instead) {
  if (draft_.field.kind != FieldKind::minutes || !may_write()) return false;
  const auto typed = parse_minutes(draft_.digits, where_typed());
  if (!typed) return refuse(typed.problem());
  if (instead && timer_ms() > 0) timer_pause();
  const double before = open_->figures.minutes;
  std::vector<EntryId> replaces;
  const LiveView live(open_->set);
  for (const Entry* entry : live.entries()) {
    if (instead && std::holds_alternative<body::Labour>(entry->body)) replaces.push_back(entry->id);
  }
  Notice notice{
      "notice.entered", {label(), say("show.minutes", {as_shown(settings_, typed->text)})}, true};
  if (before > 0.0) {
    notice.key = instead ? "notice.minutes-instead" : "notice.minutes-more";
    const double other = instead ? before : before + typed->value;
    notice.args = {std::to_string(std::lround(typed->value)), std::to_string(std::lround(other))};
  }
  Writing writing = this->writing();
  writing.add(body::Labour{typed.value(), std::nullopt}, std::move(replaces));
  return put(std::move(writing), std::move(notice), [this] {
    if (draft_.panel == "minutes") draft_.panel.clear();
    after_field();
  });
}

bool App::commit_new_price() {
  const auto price = typed_amount();
  if (!price) return false;
  draft_.new_price = price->text;
  after_field();
  changed_draft();
  return true;
}

bool App::commit_wage() {
  const auto wage = typed_amount();
  return wage && put_fact(body::Setting{"wage", wage->text}, wage->text + ' ' + field_unit());
}

bool App::commit_minutes() {
  if (!accepted(parse_minutes(draft_.digits, where_typed()))) return false;
  if (!open_->figures.minutes_known && timer_ms() == 0) return keep_minutes(false);
  draft_.panel = "minutes";  // instead, or on top? The digits wait for it.
  changed_draft();
  return false;
}

bool App::commit_temperature() {
  if (draft_.digits.empty()) return refuse({Code::typed_empty, where_typed(), {}});
  const auto degrees =
      accepted(parse_temperature(draft_.digits + ' ' + field_unit(), where_typed()));
  return degrees && put_fact(body::Lot{"receiving-temperature", degrees->text}, degrees->text);
}

bool App::commit_eye_call() {
  const auto share = typed_share();
  return share && put_fact(body::EyeCall{Role::primary, *share}, share->text);
}

bool App::commit_loss_limit() {
  const auto share = typed_share();
  return share && put_fact(body::Setting{"loss-limit", share->text}, share->text);
}

// ---- settings for new pieces

bool App::commit_default_division() {
  const auto mass = typed_mass();
  if (!mass) return false;
  AppSettings next = settings_;
  next.division = mass->text;
  return keep_default(std::move(next));
}

bool App::commit_default_loss_limit() {
  const auto share = typed_share();
  if (!share) return false;
  AppSettings next = settings_;
  next.loss_limit = share->text;
  return keep_default(std::move(next));
}

// No digits: no wage.
bool App::commit_default_wage() {
  AppSettings next = settings_;
  next.wage.clear();
  if (!draft_.digits.empty()) {
    const auto wage = typed_amount();
    if (!wage) return false;
    next.wage = wage->text;
  }
  return keep_default(std::move(next));
}

bool App::keep_default(AppSettings next) {
  const std::string changed = label();
  settings_ = std::move(next);
  after_field();
  Act act;
  act.ops.push_back(settings_op());
  tell("notice.setting-changed", {changed});
  enqueue(std::move(act));
  return true;
}

}  // namespace tallyblock
