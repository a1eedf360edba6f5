#include "log_piece.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/base/finite.h"
#include "core/session/facts.h"

namespace tallyblock {
namespace {

constexpr double kLimitGuard = 1e-6;  // grams, as where a high loss is told
constexpr std::array kCalledRoles = {Role::primary, Role::secondary, Role::usable_trim,
                                     Role::unusable_trim};

// A person by name, or by id where the name is not known.
std::string who(const EntryId& id, const Figures& figures) {
  for (const PersonLine& person : figures.people) {
    if (person.id == id && !person.name.empty()) return person.name;
  }
  return to_text(id);
}

bool is_of_cutting(const Entry& entry) {
  return std::holds_alternative<body::Reading>(entry.body) ||
         std::holds_alternative<body::Cut>(entry.body);
}

std::set<std::string> cooks_of(const Facts& facts, const Figures& figures) {
  std::set<std::string> cooks;
  for (const Entry* entry : facts.counted()) {
    if (is_of_cutting(*entry) && entry->by) cooks.insert(who(*entry->by, figures));
  }
  return cooks;
}

std::string one_cook(const Facts& facts, const Figures& figures) {
  std::optional<EntryId> one;
  for (const Entry* entry : facts.counted()) {
    if (!std::holds_alternative<body::Reading>(entry->body)) continue;
    if (!entry->by || (one && who(*one, figures) != who(*entry->by, figures))) return {};
    one = entry->by;
  }
  if (!one) return {};
  const std::string name = who(*one, figures);
  return name == to_text(*one) ? std::string() : name;
}

LogMark mark_of(const Facts& facts, const Figures& figures) {
  const std::set<std::string> cooks = cooks_of(facts, figures);
  const std::vector<const Entry*> checks = facts.winners("quality:");
  bool by_others = true;
  for (const Entry* entry : checks) {
    const auto* check = std::get_if<body::Quality>(&entry->body);
    if (check == nullptr || !check->pass) return LogMark::hollow;
    by_others &= entry->by && !cooks.contains(who(*entry->by, figures));
  }
  if (checks.empty()) return LogMark::hollow;
  return by_others ? LogMark::solid : LogMark::half;
}

Stamp first_time(const EntrySet& set) {
  Stamp first;
  for (const Entry* entry : set.in_order()) {
    const Stamp& time = entry->time;
    if (time.utc_ms == 0) continue;  // not known
    if (first.utc_ms == 0 || time.utc_ms < first.utc_ms) first = time;
  }
  return first;
}

bool is_open(const LogPiece& piece, const Figures& figures) {
  bool weighed = false;
  for (const PileFigures& pile : figures.piles) {
    if (!pile.counted) continue;
    if (!pile.weight_known) return true;
    weighed |= !pile.by_difference && pile.weighed.value() > Mass();
  }
  if (!piece.board || !weighed) return true;
  const auto below = std::ranges::find(figures.doubts, Code::doubt_loss_negative, &Doubt::code);
  if (below != figures.doubts.end()) return true;
  const Mass limit = figures.settings.loss_limit * *piece.board + Mass::grams(kLimitGuard);
  return piece.missing && *piece.missing > limit;
}

void put_weights(const Figures& figures, LogPiece& piece) {
  const Measured prime = figures.primary + figures.secondary;
  const Measured usable = prime + figures.usable_trim;
  piece.primary = figures.primary.value();
  piece.prime = prime.value();
  piece.usable = usable.value();
  piece.waste = figures.unusable_trim.value();
  const auto& board = figures.incoming.on_the_board;
  if (figures.loss) piece.missing = figures.loss->value();
  if (!board || !(board->value() > Mass())) return;
  piece.board = board->value();
  piece.usable_u = finite_or(ratio_uncertainty(usable, *board));
  piece.waste_u = finite_or(ratio_uncertainty(figures.unusable_trim, *board));
  piece.prime_u = finite_or(ratio_uncertainty(prime, *board));
  for (const PileFigures& pile : figures.piles) {
    if (!pile.counted) continue;
    piece.piles.push_back(
        {pile.key, pile.name, pile.role, finite_or(pile.kept.value() / *piece.board), pile.value});
  }
}

std::optional<LogPortions> portions_of(const Figures& figures) {
  for (const TargetFigures& target : figures.targets) {
    if (!target.portions || target.portions->grams.n == 0) continue;
    const Spread& grams = target.portions->grams;
    LogPortions out{grams.n, target.portions->within, target.target, Mass::grams(grams.mean), {}};
    if (grams.s) out.s = Mass::grams(*grams.s);
    return out;
  }
  return std::nullopt;
}

bool is_count_fixed(const Facts& facts, const Figures& figures) {
  return std::ranges::any_of(figures.piles, [&](const PileFigures& pile) {
    return pile.counted && pile.role == Role::primary &&
           facts.find<body::Wanted>("wanted:" + pile.key) != nullptr;
  });
}

std::optional<LogEyeCall> eye_call_of(const Figures& figures) {
  const auto& whole = figures.incoming.as_purchased;
  if (!whole || !(whole->value() > Mass())) return std::nullopt;
  const std::array<Mass, 4> weighed = {figures.primary.value(), figures.secondary.value(),
                                       figures.usable_trim.value(), figures.unusable_trim.value()};
  LogEyeCall out;
  std::size_t calls = 0;
  double left = 1.0;
  std::size_t last = 0;  // the one not called
  for (std::size_t i = 0; i < kCalledRoles.size(); ++i) {
    const auto call = std::ranges::find(figures.eye_calls, kCalledRoles[i], &EyeCallFigures::role);
    if (call == figures.eye_calls.end()) {
      last = i;
      continue;
    }
    ++calls;
    out.called[i] = call->called;
    left -= call->called;
  }
  if (calls + 1 < kCalledRoles.size() || left < -1e-9) return std::nullopt;
  if (calls < kCalledRoles.size()) out.called[last] = std::fmax(0.0, left);
  for (std::size_t i = 0; i < kCalledRoles.size(); ++i) {
    const double off = out.called[i] - weighed[i] / whole->value();
    out.error += std::fabs(off) / 2.0;
    if (i < 2) out.bias += off;
  }
  const bool finite = std::isfinite(out.error) && std::isfinite(out.bias);
  return finite ? std::optional(out) : std::nullopt;
}

void put_money(const Figures& figures, LogPiece& piece) {
  const auto& whole = figures.incoming.as_purchased;
  if (whole && whole->value() > Mass()) piece.bought = whole->value();
  piece.pieces = figures.incoming.pieces;
  piece.currency = figures.settings.currency;
  piece.cost = figures.cost;
  if (figures.yield) piece.cost_per_portions = figures.yield->cost_per_primary;
  if (figures.minutes_known) piece.minutes = figures.minutes;
  piece.labour = figures.labour;
}

}  // namespace

LogPiece log_piece_of(const std::string& session, const EntrySet& set, const Figures& figures) {
  const Facts facts(set);
  LogPiece piece;
  piece.session = session;
  piece.line = session;
  if (const auto* line = facts.find<body::Line>("line")) {
    piece.line = line->key;
    piece.start = line->start;
  }
  piece.first = first_time(set);
  piece.name = figures.piece;
  piece.specification = figures.specification;
  piece.cook = one_cook(facts, figures);
  for (const NoteLine& note : figures.notes) {
    if (note.next) piece.next = note.text;
  }
  piece.mark = mark_of(facts, figures);
  put_weights(figures, piece);
  piece.open = is_open(piece, figures);
  piece.portions = portions_of(figures);
  piece.count_fixed = is_count_fixed(facts, figures);
  piece.eye_call = eye_call_of(figures);
  put_money(figures, piece);
  return piece;
}

}  // namespace tallyblock
