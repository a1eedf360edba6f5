// What becomes of the digits: one function per kind of field.
#include <cmath>
#include <utility>

#include "app.h"
#include "digits.h"
#include "line_of.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr double kMostMoney = 1e7;
constexpr double kMostInAPack = 10'000;
constexpr std::string_view kCleaned = "cleaned";

std::string label_of(FieldKind kind) { return say("field." + std::string(name_of(kind))); }

std::string where_of(FieldKind kind) { return std::string(name_of(kind)); }

std::optional<Incoming> incoming_of(FieldKind kind) {
  switch (kind) {
    case FieldKind::drained: return Incoming::drained;
    case FieldKind::invoice: return Incoming::invoice;
    case FieldKind::received: return Incoming::received;
    case FieldKind::packaging: return Incoming::packaging;
    case FieldKind::purge: return Incoming::purge;
    default: return std::nullopt;
  }
}

}  // namespace

std::string App::pile_name(const std::string& key) const {
  const PileFigures* pile = pile_named(open_->figures, key);
  return pile == nullptr ? key : pile->name;
}

// ---- facts

std::vector<EntryId> App::live_of(const Body& body) const {
  std::vector<EntryId> ids;
  if (!open_) return ids;
  Entry like;
  like.body = body;
  const std::string key = fact_key(like);
  if (key.empty()) return ids;
  const LiveView live(open_->set);
  for (const Entry* entry : live.entries()) {
    if (fact_key(*entry) == key) ids.push_back(entry->id);
  }
  return ids;
}

// The body that decides the fact `like` belongs to, or null.
template <class B>
const B* App::latest(const Body& like) const {
  const std::vector<EntryId> ids = live_of(like);
  const Entry* entry = ids.empty() ? nullptr : open_->set.find(ids.back());
  return entry == nullptr ? nullptr : std::get_if<B>(&entry->body);
}
template const body::Price* App::latest<body::Price>(const Body& like) const;
template const body::Target* App::latest<body::Target>(const Body& like) const;
template const body::Tub* App::latest<body::Tub>(const Body& like) const;
template const body::Step* App::latest<body::Step>(const Body& like) const;
template const body::Pile* App::latest<body::Pile>(const Body& like) const;
template const body::Piece* App::latest<body::Piece>(const Body& like) const;
template const body::PlanLimits* App::latest<body::PlanLimits>(const Body& like) const;

// A fact out of the digits: takes the place of whatever stands for it, and the keypad moves on.
bool App::put_fact(Body body, const std::string& label, const std::string& value) {
  Writing writing = this->writing();
  std::vector<EntryId> replaces = live_of(body);
  writing.add(std::move(body), std::move(replaces));
  return put(std::move(writing), {"notice.entered", {label, value}, true, false},
             [this] { after_field(); });
}

// ---- dispatch

bool App::commit_field() {
  switch (draft_.field.kind) {
    case FieldKind::none: return false;
    case FieldKind::default_wage:
    case FieldKind::default_loss_limit:
    case FieldKind::default_division: return may_act() && commit_default();
    case FieldKind::new_price: {
      const auto price =
          parse_number(draft_.digits, where_of(draft_.field.kind), Sign::zero_or_more, kMostMoney);
      if (!price) return refuse(price.problem());
      draft_.new_price = price->text;
      after_field();
      changed_draft();
      return true;
    }
    default: break;
  }
  if (!may_write()) return false;
  if (const auto which = incoming_of(draft_.field.kind)) {
    const bool may_be_nothing = *which == Incoming::packaging || *which == Incoming::purge;
    return commit_incoming(*which, may_be_nothing ? Sign::zero_or_more : Sign::positive_only);
  }
  switch (draft_.field.kind) {
    case FieldKind::reading: return commit_reading();
    case FieldKind::anew: return commit_anew();
    case FieldKind::price_per_mass:
    case FieldKind::price_total:
    case FieldKind::ready_cut:
    case FieldKind::pile_value: return commit_price();
    case FieldKind::ready_cut_yield: return commit_ready_cut_yield();
    case FieldKind::ready_cut_pieces:
    case FieldKind::ready_cut_piece: return commit_ready_cut_pieces();
    case FieldKind::length: return commit_length();
    case FieldKind::wanted: return commit_wanted();
    case FieldKind::long_piece: return commit_long_piece();
    case FieldKind::block: return commit_block();
    default: break;
  }
  return field_is_weight() ? commit_weight() : commit_number();
}

std::optional<TypedMass> App::typed_mass(Sign sign) {
  std::string text = weight_text(draft_.digits, draft_.unit);
  if (sign == Sign::negative_only && !text.empty()) text.insert(0, "-");
  Result<TypedMass> mass = parse_mass(text, where_of(draft_.field.kind), sign);
  if (mass) {
    // Where every weight may be in pounds and ounces, ounces alone are those of the next bare number.
    const bool both = open_ && open_->figures.settings.unit == "lb-oz";
    if (both && text.ends_with("oz") && text.find("lb") == std::string::npos) draft_.unit = "oz";
    return std::move(mass.value());
  }
  refuse(mass.problem());
  return std::nullopt;
}

// ---- weights

bool App::commit_incoming(Incoming which, Sign sign) {
  const auto mass = typed_mass(sign);
  if (!mass) return false;
  body::IncomingWeight weight{which, *mass, open_->figures.settings.division, draft_.count};
  return put_fact(std::move(weight), label_of(draft_.field.kind), mass->text);
}

bool App::commit_weight() {
  const FieldKind kind = draft_.field.kind;
  const bool may_be_nothing =
      kind == FieldKind::remainder || kind == FieldKind::tub_tare || kind == FieldKind::tolerance;
  const auto mass = typed_mass(may_be_nothing ? Sign::zero_or_more : Sign::positive_only);
  if (!mass) return false;
  const TypedMass& division = open_->figures.settings.division;
  const std::string step = draft_.field.subject.empty() ? kMainStep : draft_.field.subject;
  switch (kind) {
    case FieldKind::remainder:
      return put_fact(body::Remainder{step, *mass, division}, label_of(kind), mass->text);
    case FieldKind::checkpoint:
      return put_fact(body::Checkpoint{step, std::string(kCleaned), *mass, division},
                      label_of(kind), mass->text);
    case FieldKind::target: return commit_target(*mass);
    case FieldKind::tolerance: return commit_tolerance(*mass);
    case FieldKind::tub_tare: return commit_tub_tare(*mass);
    case FieldKind::step_weight: return commit_step_weight(*mass);
    case FieldKind::transfer: return commit_transfer(*mass);
    case FieldKind::division:
      return put_fact(body::Setting{"division", mass->text}, label_of(kind), mass->text);
    default: return false;
  }
}

bool App::commit_target(const TypedMass& mass) {
  body::Target target{draft_.field.subject, mass, std::nullopt};
  if (const auto* now = latest<body::Target>(target)) target.tolerance = now->tolerance;
  return put_fact(std::move(target), label_of(FieldKind::target), mass.text);
}

bool App::commit_tolerance(const TypedMass& mass) {
  body::Target target{draft_.field.subject, {}, mass};
  const auto* now = latest<body::Target>(target);
  if (now == nullptr) return refuse({Code::need_target, where_of(FieldKind::target), {}});
  target.weight = now->weight;
  return put_fact(std::move(target), label_of(FieldKind::tolerance), mass.text);
}

bool App::commit_tub_tare(const TypedMass& mass) {
  body::Tub tub{draft_.field.subject, "", mass, open_->figures.settings.division};
  if (const auto* now = latest<body::Tub>(tub)) tub.name = now->name;
  return put_fact(std::move(tub), label_of(FieldKind::tub_tare), mass.text);
}

// No more than is left of the pile, as far as its readings tell; `but` is the step that asks.
bool App::takes_too_much(const std::string& key, const TypedMass& mass, Process process,
                         const std::string& but) {
  const PileFigures* pile = pile_named(open_->figures, key);
  if (pile == nullptr) return false;
  const auto left = left_of(open_->figures, *pile, process, but);
  if (!left || mass.mass <= left->value() + 2.0 * left->uncertainty() + Mass::grams(1e-6))
    return false;
  const Settings& settings = open_->figures.settings;
  if (!(left->value() > Mass())) {
    tell_error("notice.nothing-left", {pile->name});
  } else {
    tell_error("notice.more-than-left",
               {pile->name, shown_mass(left->value(), settings), mass.text});
  }
  return true;
}

bool App::commit_step_weight(const TypedMass& mass) {
  for (auto step = open_->figures.steps.rbegin(); step != open_->figures.steps.rend(); ++step) {
    if (step->from_pile != draft_.field.subject) continue;
    body::Step like;
    like.key = step->key;
    const auto* now = latest<body::Step>(like);
    if (now == nullptr) continue;
    if (takes_too_much(step->from_pile, mass, step->process, step->key)) return false;
    body::Step weighed = *now;
    weighed.weight = mass;
    weighed.division = open_->figures.settings.division;
    return put_fact(std::move(weighed), label_of(FieldKind::step_weight), mass.text);
  }
  tell_error("notice.no-step");
  return false;
}

bool App::commit_transfer(const TypedMass& mass) {
  const std::string from = draft_.field.subject;
  if (draft_.pile.empty() || draft_.pile == from) {
    tell("notice.choose-other-pile");
    return false;
  }
  if (takes_too_much(from, mass, Process::other, {})) return false;
  Writing writing = this->writing();
  writing.add(body::Transfer{from, draft_.pile, mass, open_->figures.settings.division});
  const std::string to = pile_name(draft_.pile);
  return put(std::move(writing), {"notice.carried", {mass.text, pile_name(from), to}, true, false},
             [this] { after_field(); });
}

// ---- money, percentages, minutes

bool App::commit_price() {
  const FieldKind kind = draft_.field.kind;
  const Settings& settings = open_->figures.settings;
  const Sign sign = kind == FieldKind::pile_value ? Sign::any : Sign::zero_or_more;
  auto amount = parse_number(draft_.digits, where_of(kind), sign, kMostMoney);
  if (!amount) return refuse(amount.problem());
  body::Price price;
  price.of = kind == FieldKind::ready_cut    ? "ready-cut"
             : kind == FieldKind::pile_value ? "pile:" + draft_.field.subject
                                             : "piece";
  price.basis = kind == FieldKind::price_total ? PriceBasis::total : PriceBasis::per_mass;
  price.amount = amount.value();
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
  return put_fact(std::move(price), label_of(kind), shown);
}

bool App::commit_ready_cut_yield() {
  auto share = parse_percent(draft_.digits + " %", where_of(draft_.field.kind));
  if (!draft_.digits.empty() && !share) return refuse(share.problem());
  if (draft_.digits.empty()) return refuse({Code::typed_empty, where_of(draft_.field.kind), {}});
  if (share->value <= 0.0) return refuse({Code::typed_zero, where_of(draft_.field.kind), {"0 %"}});
  body::Price like;
  like.of = "ready-cut";
  const auto* now = latest<body::Price>(like);
  if (now == nullptr) return refuse({Code::need_ready_cut_price, "ready-cut", {}});
  body::Price price = *now;
  price.quoted_yield = share.value();
  return put_fact(std::move(price), label_of(draft_.field.kind), share->text);
}

// For how many pieces the ready-cut price is, or what one of them weighs. No pieces: the amount is a
// price by weight.
bool App::commit_ready_cut_pieces() {
  const FieldKind kind = draft_.field.kind;
  body::Price price;
  price.of = "ready-cut";
  const auto* now = latest<body::Price>(price);
  if (now == nullptr) return refuse({Code::need_ready_cut_price, "ready-cut", {}});
  price = *now;
  if (kind == FieldKind::ready_cut_piece) {
    if (!price.pieces) return refuse({Code::need_ready_cut_pieces, where_of(kind), {}});
    const auto mass = typed_mass(Sign::positive_only);
    if (!mass) return false;
    price.piece_weight = *mass;
    return put_fact(std::move(price), label_of(kind), mass->text);
  }
  const auto count = parse_number(draft_.digits.empty() ? "0" : draft_.digits, where_of(kind),
                                  Sign::zero_or_more, kMostInAPack);
  if (!count) return refuse(count.problem());
  if (std::floor(count->value) != count->value)
    return refuse({Code::typed_not_whole, where_of(kind), {draft_.digits}});
  price.pieces.reset();
  if (count->value > 0.0) price.pieces = static_cast<unsigned>(count->value);
  price.basis = price.pieces ? PriceBasis::total : PriceBasis::per_mass;
  price.unit = price.pieces ? std::string() : open_->figures.settings.price_unit;
  if (!price.pieces) price.piece_weight.reset();
  return put_fact(std::move(price), label_of(kind), count->text);
}

// Nothing is added to what was timed or typed before without asking: "instead" takes the place of all of
// it, and of what the timer has measured since.
bool App::keep_minutes(bool instead) {
  if (draft_.field.kind != FieldKind::minutes || !may_write()) return false;
  const auto typed = parse_minutes(draft_.digits, where_of(FieldKind::minutes));
  if (!typed) return refuse(typed.problem());
  if (instead && timer_ms() > 0) timer_pause();
  const double before = open_->figures.minutes;
  std::vector<EntryId> replaces;
  const LiveView live(open_->set);
  for (const Entry* entry : live.entries()) {
    if (instead && std::holds_alternative<body::Labour>(entry->body)) replaces.push_back(entry->id);
  }
  Notice notice{"notice.entered", {label_of(FieldKind::minutes), typed->text + " min"}, true};
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

bool App::commit_number() {
  const FieldKind kind = draft_.field.kind;
  const std::string where = where_of(kind);
  if (draft_.digits.empty()) return refuse({Code::typed_empty, where, {}});
  if (kind == FieldKind::wage) {
    const auto wage = parse_number(draft_.digits, where, Sign::zero_or_more, kMostMoney);
    if (!wage) return refuse(wage.problem());
    return put_fact(body::Setting{"wage", wage->text}, label_of(kind),
                    wage->text + ' ' + field_unit());
  }
  if (kind == FieldKind::minutes) {
    const auto minutes = parse_minutes(draft_.digits, where);
    if (!minutes) return refuse(minutes.problem());
    if (!open_->figures.minutes_known && timer_ms() == 0) return keep_minutes(false);
    draft_.panel = "minutes";  // instead, or on top? The digits wait for it.
    changed_draft();
    return false;
  }
  if (kind == FieldKind::receiving_temperature) {
    const auto degrees = parse_temperature(draft_.digits + ' ' + field_unit(), where);
    if (!degrees) return refuse(degrees.problem());
    return put_fact(body::Lot{"receiving-temperature", degrees->text}, label_of(kind),
                    degrees->text);
  }
  const auto share = parse_percent(draft_.digits + " %", where);
  if (!share) return refuse(share.problem());
  if (kind == FieldKind::eye_call) {
    return put_fact(body::EyeCall{Role::primary, share.value()}, label_of(kind), share->text);
  }
  return put_fact(body::Setting{"loss-limit", share->text}, label_of(kind), share->text);
}

bool App::commit_default() {
  const FieldKind kind = draft_.field.kind;
  const std::string where = where_of(kind);
  AppSettings next = settings_;
  if (kind == FieldKind::default_division) {
    const auto mass = typed_mass(Sign::positive_only);
    if (!mass) return false;
    next.division = mass->text;
  } else if (kind == FieldKind::default_loss_limit) {
    const auto share = parse_percent(draft_.digits + " %", where);
    if (draft_.digits.empty()) return refuse({Code::typed_empty, where, {}});
    if (!share) return refuse(share.problem());
    next.loss_limit = share->text;
  } else if (!draft_.digits.empty()) {  // no digits: no wage
    const auto wage = parse_number(draft_.digits, where, Sign::zero_or_more, kMostMoney);
    if (!wage) return refuse(wage.problem());
    next.wage = wage->text;
  } else {
    next.wage.clear();
  }
  settings_ = std::move(next);
  after_field();
  Act act;
  act.ops.push_back(settings_op());
  tell("notice.setting-changed", {label_of(kind)});
  enqueue(std::move(act));
  return true;
}

}  // namespace tallyblock
