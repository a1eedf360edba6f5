// Acts on sessions: new, same again, open, bin, erase, the sample; and the app's settings.
#include <algorithm>
#include <utility>

#include "app.h"
#include "core/entries/entry_fields.h"
#include "defaults.h"
#include "line_of.h"
#include "sample.h"
#include "web/figures/names.h"
#include "web/figures/sentence.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::size_t kMostErased = 1000;

Op put_op(Area area, std::string key, std::string bytes) {
  return {Op::What::put, area, std::move(key), std::move(bytes)};
}

std::optional<SessionCard> taken(std::vector<SessionCard>& cards, const std::string& id) {
  const auto found = std::find_if(cards.begin(), cards.end(),
                                  [&](const SessionCard& card) { return card.id == id; });
  if (found == cards.end()) return std::nullopt;
  SessionCard card = std::move(*found);
  cards.erase(found);
  return card;
}

const SessionCard* card_in(const std::vector<SessionCard>& cards, const std::string& id) {
  const auto found = std::find_if(cards.begin(), cards.end(),
                                  [&](const SessionCard& card) { return card.id == id; });
  return found == cards.end() ? nullptr : &*found;
}

std::string title_of(const SessionCard* card) {
  return card == nullptr || card->title.empty() ? say("session.unnamed") : card->title;
}

// Of an invented sample nothing is copied but what it was and how it was sorted.
bool is_name(const Entry& entry) {
  const auto* pile = std::get_if<body::Pile>(&entry.body);
  return std::holds_alternative<body::Piece>(entry.body) ||
         (pile != nullptr && pile->step == kMainStep);
}

// What "same again" takes from a live entry of the session before; nothing for the rest.
std::optional<Body> copied(const Entry& entry) {
  if (std::holds_alternative<body::Piece>(entry.body) ||
      std::holds_alternative<body::Specification>(entry.body) ||
      std::holds_alternative<body::Target>(entry.body) ||
      std::holds_alternative<body::PlanLimits>(entry.body) ||
      std::holds_alternative<body::Tub>(entry.body)) {
    return entry.body;
  }
  if (const auto* setting = std::get_if<body::Setting>(&entry.body)) {
    // What is known of the cook is taken along anew, from all sessions; another piece tapers as it does.
    if (setting->key != kSampleSetting && setting->key != "cook" && setting->key != "taper") {
      return entry.body;
    }
  }
  if (const auto* pile = std::get_if<body::Pile>(&entry.body)) {
    if (pile->step == kMainStep) return entry.body;
  }
  // An invoice total belongs to one piece; a price per weight may hold for the next.
  if (const auto* price = std::get_if<body::Price>(&entry.body)) {
    if (price->basis == PriceBasis::per_mass || price->of == "ready-cut") return entry.body;
  }
  return std::nullopt;
}

}  // namespace

// ---- new sessions

void App::name_person(Writing& writing) {
  if (settings_.person.empty() || settings_.person.size() > kMaxNameBytes) return;
  const EntryId id = writing.add(body::Person{settings_.person});
  if (!id.writer.empty()) writing.by = id;
}

// True if the setting could not be used and the usual one stands instead.
bool App::set_or_usual(Writing& writing, const std::string& key, const std::string& value,
                       const std::string& usual) {
  const bool fits = value == usual || valid_setting(key, value);
  const std::string& used = fits ? value : usual;
  if (!used.empty()) writing.add(body::Setting{key, used});
  return !fits;
}

// What of the settings for new pieces cannot be used never keeps anybody from weighing.
std::string App::begin_settings(Writing& writing) {
  const AppSettings usual;
  std::string unfit;
  const auto put_in = [&](std::string_view key, const std::string& value,
                          const std::string& or_else) {
    if (!set_or_usual(writing, std::string(key), value, or_else)) return;
    if (!unfit.empty()) unfit += ", ";
    unfit += say("setting." + std::string(key));
  };
  put_in("currency", settings_.currency, usual.currency);
  put_in("unit", settings_.unit, usual.unit);
  put_in("price-unit", settings_.price_unit, usual.price_unit);
  put_in("division", settings_.division, usual.division);
  put_in("loss-limit", settings_.loss_limit, usual.loss_limit);
  if (settings_.decimal_mark != ".") put_in("decimal-mark", settings_.decimal_mark, "");
  put_in("wage", settings_.wage, usual.wage);
  return unfit;
}

void App::new_session_now() {
  if (!may_act()) return;
  OpenSession session;
  session.id = host_.random_id(20);
  Writing writing = writing_into(session);
  name_person(writing);
  const std::string unfit = begin_settings(writing);
  for (const DefaultPile& pile : kDefaultPiles) {
    if (pile.at_start) writing.add(made_of(pile, std::string(pile.key), kMainStep));
  }
  begin_session(std::move(session), writing, "notice.new-session");
  if (!unfit.empty()) tell_error("notice.unfit-settings", {unfit});
}

void App::begin_session(OpenSession session, const Writing& writing, const std::string& notice) {
  if (writing.problem) return tell_error("notice.refused", {show::problem(*writing.problem, {})});
  holding_ = true;
  pause_before_leaving();
  Act act;
  put_into(session, writing.made, act);
  show_session(std::move(session));
  draft_.person = writing.by ? to_text(*writing.by) : "";
  tell(notice);
  holding_ = false;
  enqueue(std::move(act));
}

void App::same_again_now(const std::string& session) {
  if (!may_act()) return;
  const auto begin = [this](StoreStatus status, const OpenSession& from) {
    if (status != StoreStatus::ok)
      return tell_error("notice.not-opened", {say(trouble_key(status))});
    if (from.set.empty() || !may_act()) return;
    OpenSession next;
    next.id = host_.random_id(20);
    Writing writing = writing_into(next);
    name_person(writing);
    if (from.sample) begin_settings(writing);
    copy_into(from, writing);
    begin_session(std::move(next), writing,
                  from.sample ? "notice.same-again-sample" : "notice.same-again");
  };
  if (open_ && open_->id == session) return begin(StoreStatus::ok, OpenSession(*open_));
  fetch(session, begin);
}

void App::copy_into(const OpenSession& from, Writing& to) const {
  const LiveView live(from.set);
  std::map<std::string, const Entry*> winners;  // the last live entry of each fact
  for (const Entry* entry : live.entries()) {
    const std::string key = fact_key(*entry);
    if (!key.empty()) winners[key] = entry;
  }
  std::set<std::string> piles;
  for (const auto& [key, entry] : winners) {
    if (const auto* pile = std::get_if<body::Pile>(&entry->body)) {
      if (pile->step == kMainStep) piles.insert(pile->key);
    }
  }
  // Each fact in the place where it was first said: piles keep their order however often renamed.
  for (const Entry* said : from.set.in_order()) {
    const auto winner = winners.find(fact_key(*said));
    if (winner == winners.end()) continue;
    const Entry* entry = winner->second;
    winners.erase(winner);
    std::optional<Body> body = copied(*entry);
    if (!body || (from.sample && !is_name(*entry))) continue;
    const auto* target = std::get_if<body::Target>(&*body);
    if (target != nullptr && !piles.contains(target->pile)) continue;
    const auto* price = std::get_if<body::Price>(&*body);
    if (price != nullptr && price->of.starts_with("pile:") &&
        !piles.contains(price->of.substr(5))) {
      continue;
    }
    to.add(*std::move(body));
  }
}

// ---- open, bin, erase

void App::open(const std::string& session) {
  if (phase_ != Phase::ready) return;
  if (open_ && open_->id == session) return go(Screen::weigh);
  opening_ = session;
  changed();
  fetch(session, [this, session](StoreStatus status, const OpenSession& found) {
    if (opening_ != session) return;  // another was asked for meanwhile
    opening_.clear();
    if (status != StoreStatus::ok) {
      return tell_error("notice.not-opened", {say(trouble_key(status))});
    }
    if (found.set.empty()) return tell_error("notice.not-there");
    going_on();
    show_session(found);
    if (found.unreadable > 0) {
      tell_error("notice.unreadable-entries", {std::to_string(found.unreadable)});
    }
  });
}

void App::set_bin(const std::string& session, bool binned, Act& act) {
  if (binned) {
    const std::int64_t now = host_.utc_ms();
    bin_[session] = now;
    act.ops.push_back(put_op(Area::bin, session, std::to_string(now)));
  } else {
    bin_.erase(session);
    act.ops.push_back({Op::What::erase, Area::bin, session, ""});
  }
  if (auto card = taken(binned ? cards_ : binned_, session)) put_card(*card, act);
}

void App::put_in_bin(const std::string& session) {
  if (!may_act() || card_in(cards_, session) == nullptr) return;
  const std::string title = title_of(card_in(cards_, session));
  holding_ = true;
  if (open_ && open_->id == session) leave_session();
  holding_ = false;
  Act act;
  set_bin(session, true, act);
  tell("notice.binned", {title}, true);
  if (notice_ && notice_->can_undo) notice_->binned = session;
  enqueue(std::move(act));
}

void App::take_from_bin(const std::string& session) {
  if (!may_act() || !bin_.contains(session)) return;
  const std::string title = title_of(card_in(binned_, session));
  Act act;
  set_bin(session, false, act);
  tell("notice.unbinned", {title});
  enqueue(std::move(act));
}

// Everything kept of a session goes.
void App::drop(const std::string& session, Act& act) {
  act.ops.push_back({Op::What::erase_prefix, Area::entries, session + '/', ""});
  act.ops.push_back({Op::What::erase, Area::index, session, ""});
  act.ops.push_back({Op::What::erase, Area::bin, session, ""});
  bin_.erase(session);
  taken(cards_, session);
  taken(binned_, session);
}

void App::erase(const std::string& session) {
  if (!may_act() || !bin_.contains(session)) return;
  const std::string title = title_of(card_in(binned_, session));
  Act act;
  drop(session, act);
  if (std::erase_if(settings_.cooks, [&](const CookOf& c) { return c.session == session; }) > 0) {
    act.ops.push_back(settings_op());
  }
  erased_.push_back(session);
  if (erased_.size() > kMostErased) erased_.erase(erased_.begin());
  act.ops.push_back(put_op(Area::app, "erased", ids_to_json(erased_)));
  act.when_kept = Notice{"notice.erased", {title}, false, false};
  enqueue(std::move(act));
}

// ---- the sample

void App::load_sample_now() {
  if (!may_act()) return;
  Act act;
  for (const SessionFile& file : sample_sessions(settings_.decimal_mark)) {
    OpenSession session;
    session.id = file.session;
    if (bin_.contains(session.id)) set_bin(session.id, false, act);
    if (card_in(cards_, session.id) != nullptr) continue;  // it may have grown since
    put_into(session, file.entries, act);
  }
  act.unsaved.clear();
  if (act.ops.empty()) return tell("notice.sample-there");
  act.when_kept = Notice{"notice.sample-loaded", {}, false, false};
  enqueue(std::move(act));
}

// Sample sessions that were worked on go to the bin, the others go for good: loading brings them back.
void App::remove_sample() {
  if (!may_act()) return;
  Act act;
  holding_ = true;
  for (const SampleSize& size : kSampleSizes) {
    const std::string session(size.session);
    const SessionCard* card = card_in(cards_, session);
    if (card == nullptr) card = card_in(binned_, session);
    if (card == nullptr) continue;
    const std::size_t loaded = size.entries + (card->decimal_mark == "." ? 0 : 1);
    const bool grown = card->entries != loaded;
    if (open_ && open_->id == session) leave_session();
    if (!grown) {
      drop(session, act);
    } else if (!bin_.contains(session)) {
      set_bin(session, true, act);
    }
  }
  holding_ = false;
  if (act.ops.empty()) return;
  act.when_kept = Notice{"notice.sample-removed", {}, false, false};
  enqueue(std::move(act));
}

// ---- the app's settings

Op App::settings_op() const { return put_op(Area::app, "settings", settings_to_json(settings_)); }

void App::caution_read() {
  if (!may_act()) return;
  settings_.caution_seen = true;
  Act act;
  act.ops.push_back(settings_op());
  enqueue(std::move(act));
}

void App::set_setting(const std::string& key, const std::string& value) {
  const auto one_of = [&](std::initializer_list<std::string_view> values) {
    return std::find(values.begin(), values.end(), value) != values.end();
  };
  if (!may_act()) return;
  AppSettings next = settings_;
  bool fits = true;
  if (key == "unit") {
    fits = one_of({"g", "kg", "oz", "lb", "lb-oz"});
    next.unit = value;
  } else if (key == "price-unit") {
    fits = one_of({"kg", "lb"});
    next.price_unit = value;
  } else if (key == "decimal-mark") {
    fits = one_of({".", ","});
    next.decimal_mark = value;
  } else if (key == "clock") {
    fits = one_of({"24", "12"});
    next.clock = value;
  } else if (key == "date") {
    fits = one_of({"day-first", "month-first"});
    next.date = value;
  } else if (key == "theme") {
    fits = one_of({"system", "light", "dark"});
    next.theme = value;
  } else if (key == "hand") {
    fits = one_of({"right", "left"});
    next.hand = value;
  } else if (key == "currency") {
    fits = whole_ && valid_setting(key, value);
    next.currency = value;
  } else if (key == "division" || key == "loss-limit") {
    fits = whole_ && valid_setting(key, value);
    (key == "division" ? next.division : next.loss_limit) = value;
  } else if (key == "wage") {
    fits = value.empty() || (whole_ && valid_setting(key, value));
    next.wage = value;
  } else if (key == "person") {
    next.person = value;
  } else {
    return;
  }
  if (!fits) return tell_error("notice.setting-refused", {value});
  settings_ = std::move(next);
  if (draft_.text_field == "default:" + key) clear_text();
  Act act;
  act.ops.push_back(settings_op());
  enqueue(std::move(act));
}

// As the stored form of a session setting demands.
bool App::valid_setting(const std::string& key, const std::string& value) {
  Entry probe;
  probe.id = {writer_id_, 1};
  probe.seq = 1;
  probe.body = body::Setting{key, value};
  return checked(std::move(probe)).ok();
}

}  // namespace tallyblock
