#include "piles.h"

#include <algorithm>

#include "core/base/sorted.h"

namespace tallyblock {
namespace {

void list_piles(const Facts& facts, PileTable& table) {
  for (const Entry* entry : facts.in_order()) {
    const auto* defined = std::get_if<body::Pile>(&entry->body);
    if (defined == nullptr || table.find(defined->key) != kNoPlace) continue;
    const Entry* winner = facts.winner("pile:" + defined->key);
    if (winner == nullptr || facts.live().is_void(entry->id)) continue;
    const auto& pile = std::get<body::Pile>(winner->body);
    PileFigures figures;
    figures.key = pile.key;
    figures.name = pile.name;
    figures.step = pile.step;
    figures.use = pile.use;
    figures.role = pile.role;
    figures.defined_by = winner->id;
    const auto* difference = facts.find<body::ByDifference>("by-difference:" + pile.key);
    figures.by_difference = difference != nullptr && difference->on;
    table.place.emplace(pile.key, table.piles.size());
    table.piles.push_back(std::move(figures));
  }
}

// The tare of a reading: its own, else its tub's. One measured tare has one source, so that a tub
// used n times is shared; a tare written into the reading that equals its tub's is that tub's.
std::optional<Measured> tare_of(const Facts& facts, const Entry& entry,
                                const body::Reading& reading) {
  const Entry* tub_entry = reading.tub.empty() ? nullptr : facts.winner("tub:" + reading.tub);
  const auto* tub = tub_entry == nullptr ? nullptr : std::get_if<body::Tub>(&tub_entry->body);
  if (tub != nullptr && (!reading.tare || reading.tare->mass == tub->tare.mass))
    return Measured::reading(to_text(tub_entry->id), tub->tare.mass,
                             facts.division_of(tub->division));
  if (reading.tare)
    return Measured::reading(to_text(entry.id) + "t", reading.tare->mass,
                             facts.division_of(reading.division));
  return std::nullopt;
}

// Moves that are not void, by place of what they move; the one that decides comes last. Those before it
// say where a reading lay until then.
using Moves = std::map<std::size_t, std::vector<const Entry*>>;

Moves moves_by_place(const Facts& facts) {
  Moves moves;
  for (const Entry* entry : facts.in_order()) {
    const auto* move = std::get_if<body::Move>(&entry->body);
    if (move == nullptr || facts.live().is_void(entry->id)) continue;
    const std::size_t place = facts.place_of(move->reading);
    if (place != kNoPlace) moves[place].push_back(entry);
  }
  for (auto& [place, list] : moves) {
    const Entry* decides = facts.winner(fact_key(*list.front()));
    std::erase_if(
        list, [&](const Entry* entry) { return decides == nullptr || before(*decides, *entry); });
  }
  return moves;
}

// A correction that names another pile than what it corrects says where the reading belongs; one that
// names the same pile says nothing of it, so that correcting and moving may come in either order.
bool says_pile(const Facts& facts, const Entry& entry) {
  const std::string& pile = std::get<body::Reading>(entry.body).pile;
  bool first = true;
  for (const EntryId& id : entry.replaces) {
    const Entry* old = facts.find(id);
    const auto* was = old == nullptr ? nullptr : std::get_if<body::Reading>(&old->body);
    if (was == nullptr || !before(*old, entry)) continue;
    first = false;
    if (was->pile != pile) return true;
  }
  return first;
}

// Where a reading lay, in order: as weighed, as moved, as corrected to another pile; the last decides.
// One that does not count has only its own moves.
std::vector<Placing> placings_of(const Facts& facts, const Moves& moves, const PileTable& table,
                                 std::size_t place) {
  const Entry& entry = *facts.in_order()[place];
  std::vector<std::size_t> same{place};
  if (facts.counts(place) && !entry.replaces.empty())
    for (const EntryId& id : facts.replaced_by(entry))
      if (facts.place_of(id) != kNoPlace) same.push_back(facts.place_of(id));
  std::vector<Placing> placings;
  for (const std::size_t at : same) {
    const Entry& stood = *facts.in_order()[at];
    const auto* reading = std::get_if<body::Reading>(&stood.body);
    if (reading == nullptr) continue;
    if (same.size() == 1 || says_pile(facts, stood))
      placings.push_back({at, table.find(reading->pile)});
    const auto moved = moves.find(at);
    if (moved == moves.end()) continue;
    for (const Entry* move : moved->second)
      if (const std::size_t to = table.find(std::get<body::Move>(move->body).to_pile);
          to != kNoPlace)
        placings.push_back({facts.place_of(move->id), to});
  }
  heap_sort(placings, [](const Placing& a, const Placing& b) { return a.at < b.at; });
  return placings;
}

// Of what counts; the place in time of the rest is never asked for.
std::size_t earliest_of(const Facts& facts, std::size_t place) {
  const Entry& entry = *facts.in_order()[place];
  std::size_t earliest = place;
  if (entry.replaces.empty() || !facts.counts(place)) return earliest;
  for (const EntryId& id : facts.replaced_by(entry))
    earliest = std::min(earliest, facts.place_of(id));  // kNoPlace is the largest
  return earliest;
}

void add_reading(const Facts& facts, const Moves& moves, std::size_t place, PileTable& table,
                 Figures& figures) {
  const Entry& entry = *facts.in_order()[place];
  const auto& reading = std::get<body::Reading>(entry.body);
  Contribution c;
  c.entry = &entry;
  c.placed_at = earliest_of(facts, place);
  c.placed = facts.in_order()[c.placed_at];
  c.reading = &reading;
  c.pile = table.find(reading.pile);
  const bool may_move = !entry.replaces.empty() || moves.contains(place);
  if (may_move) c.was_on = placings_of(facts, moves, table, place);
  if (!c.was_on.empty()) {
    const std::size_t to = c.was_on.back().pile;
    c.moved = to != kNoPlace && to != c.pile;
    c.pile = to;
  }
  c.counts = facts.counts(place);
  c.net = Measured::reading(to_text(entry.id), reading.weight.mass,
                            facts.division_of(reading.division));
  if (reading.habit == Habit::taken_off) c.net = c.net.scaled(-1.0);
  if (const auto tare = tare_of(facts, entry, reading)) {
    const Mass gross = c.net.value();
    c.tared = true;
    c.net -= *tare;
    if (c.counts && c.pile != kNoPlace && tare->value() > gross) {
      const PileFigures& pile = table.piles[c.pile];
      figures.doubts.push_back(
          {Code::doubt_tare_over_reading,
           "pile " + pile.key,
           {entry.id},
           {Arg::name(pile.name), Arg::typed(reading.weight.text), tare->value()},
           tare->value() - gross});
    }
  }
  table.contributions.push_back(std::move(c));
}

void add_transfer(const Facts& facts, std::size_t place, PileTable& table) {
  const Entry& entry = *facts.in_order()[place];
  const auto& transfer = std::get<body::Transfer>(entry.body);
  const std::size_t from = table.find(transfer.from_pile), to = table.find(transfer.to_pile);
  for (const bool outgoing : {true, false}) {
    Contribution c;
    c.entry = &entry;
    c.placed_at = earliest_of(facts, place);
    c.placed = facts.in_order()[c.placed_at];
    c.transfer = &transfer;
    c.pile = outgoing ? from : to;
    c.outgoing = outgoing;
    // Both ends must be known, or weight would appear from nowhere.
    c.counts = facts.counts(place) && from != kNoPlace && to != kNoPlace && from != to;
    c.across = c.counts && table.piles[from].step != table.piles[to].step;
    c.net = Measured::reading(to_text(entry.id), transfer.weight.mass,
                              facts.division_of(transfer.division));
    if (outgoing) c.net = c.net.scaled(-1.0);
    table.contributions.push_back(std::move(c));
  }
}

void collect(const Facts& facts, PileTable& table, Figures& figures) {
  const auto moves = moves_by_place(facts);
  table.of_entry.assign(facts.in_order().size(), kNoPlace);
  for (std::size_t place = 0; place < facts.in_order().size(); ++place) {
    const Body& body = facts.in_order()[place]->body;
    const bool reading = std::holds_alternative<body::Reading>(body);
    if (!reading && !std::holds_alternative<body::Transfer>(body)) continue;
    table.of_entry[place] = table.contributions.size();
    if (reading) add_reading(facts, moves, place, table, figures);
    if (!reading) add_transfer(facts, place, table);
  }
  table.of_pile.resize(table.piles.size());
  table.carried_out.resize(table.piles.size());
  for (std::size_t i = 0; i < table.contributions.size(); ++i)
    if (table.contributions[i].pile != kNoPlace)
      table.of_pile[table.contributions[i].pile].push_back(i);
}

void add_line(const Facts& facts, const Contribution& c, PileFigures& pile) {
  ReadingLine line;
  if (!c.counts) {
    line.is_void = facts.live().is_void(c.entry->id);
    line.outvoted = facts.is_outvoted(c.entry->id);
  }
  if (!c.counts && !line.is_void && !line.outvoted) return;  // replaced: a part of its correction
  line.id = c.entry->id;
  line.pile = pile.key;
  line.habit = c.reading->habit;
  line.typed = c.reading->weight.text;
  line.style = c.reading->weight.style;
  line.count = c.reading->count;
  line.net = c.net.value() - c.inside;
  line.covered = c.parent != kNoPlace;
  line.moved = c.moved;
  line.seq = c.entry->seq;
  pile.lines.push_back(std::move(line));
}

// Weight carried to a pile of another step left this step as its output: it stays in `weighed` and
// is counted as carried out. If a tub total read afterwards includes the giving, it is added back.
void sum_pile(const Facts& facts, PileTable& table, std::size_t place, Figures& figures) {
  PileFigures& pile = table.piles[place];
  std::vector<Measured> weights, carried;
  std::vector<EntryId> readings;
  for (const std::size_t i : table.of_pile[place]) {
    const Contribution& c = table.contributions[i];
    if (c.reading != nullptr) add_line(facts, c, pile);
    if (!c.counts) continue;
    if (c.reading != nullptr) readings.push_back(c.entry->id);
    const bool inside = c.parent != kNoPlace;
    if (c.across && c.outgoing) {
      carried.push_back(c.net.scaled(-1.0));
      if (inside) weights.push_back(carried.back());
    } else if (!inside) {
      weights.push_back(c.keeps);
    }
    if (c.reading != nullptr &&
        (c.reading->habit == Habit::piece || c.reading->habit == Habit::taken_off))
      pile.pieces += c.reading->count;
  }
  table.carried_out[place] = sum_of(std::move(carried));
  const Measured weighed = sum_of(std::move(weights));
  if (!pile.by_difference) {
    pile.weighed = weighed;
  } else if (!readings.empty()) {
    const Arg count = Arg::count(readings.size());
    figures.doubts.push_back({Code::doubt_difference_readings,
                              "pile " + pile.key,
                              std::move(readings),
                              {Arg::name(pile.name), count},
                              weighed.value()});
  }
}

}  // namespace

std::size_t pile_before(const Contribution& c, std::size_t place) {
  if (c.was_on.empty()) return c.pile;
  std::size_t pile = c.was_on.front().pile;
  for (const Placing& placing : c.was_on)
    if (placing.at < place) pile = placing.pile;
  return pile;
}

Measured sum_of(std::vector<Measured> parts) {
  if (parts.empty()) return {};
  for (std::size_t width = 1; width < parts.size(); width *= 2)
    for (std::size_t i = 0; i + width < parts.size(); i += 2 * width) parts[i] += parts[i + width];
  return std::move(parts.front());
}

PileTable weigh_piles(const Facts& facts, Figures& figures) {
  PileTable table;
  list_piles(facts, table);
  collect(facts, table, figures);
  for (Contribution& c : table.contributions) c.keeps = c.net;
  resolve_covers(table, facts, figures);
  for (std::size_t i = 0; i < table.piles.size(); ++i) sum_pile(facts, table, i, figures);
  return table;
}

}  // namespace tallyblock
