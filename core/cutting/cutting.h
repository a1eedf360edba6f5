// Where to put the knife in a session: its stations, the plan, the cuts and the next mark.
//
// A pure function of the entries, apart from figures_of() because it searches: some 5 ms for the
// plans and 1 ms for the next mark of each object (see plan.h). One view per step that has stations.
//
// What is cut: the cleaned piece of a step, measured by its stations. Its weight is the checkpoint
// "cleaned" (or the only checkpoint); without one, the step's input less what was weighed into its
// piles that have no target (ends that were weighed after it was said how much of them is lost, and are
// part of what was measured, are not taken off twice); without either, an estimate from the stations and the density of lean
// meat, 1.06 g/cm3 (Mendez & Keys 1960: 1.0597). Specs are the step's piles with a target, four at
// most, in order. A portion is valued by its target at the price of the purchase (without one: one unit a
// kilogram), what is left over at the best value of the usable trim, at most `kMostRemainder` of a portion's
// (without one: `kUnpricedRemainder` of it, plan.h).
// Without a chosen number of long pieces the whole piece is split into as many as are worth most (plan.h); what
// each number gives is in `splits`: thick blocks against many is the cook's choice. The objects' cuts are one
// person's: what one shows is known before the next, the piece first, then its long pieces by key.
// Each long piece (entry "long-piece") is an object of its own with marks of its own; once there is
// one, cuts that name none still belong to the whole piece.
// The guide runs through cuts, weighings without a cut, faces and re-weighed remainders in order. A
// cut whose weights are void or not yet there counts with what it should have given.
// At most 8 steps and 16 long pieces of each are looked at.
// Remainders are of the whole step, so they re-weigh the whole piece only, not a long piece.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/session/session.h"
#include "guide.h"

namespace tallyblock {

// A cut and what it gave.
struct CutLine {
  EntryId id;
  std::optional<Length> asked;  // thickness from the last face; absent: cut by eye
  int k = 1;
  std::size_t spec = 0;
  unsigned of_spec = 1;  // portions of it meant for `spec`; the others are for `other`
  std::size_t other = 0;
  std::size_t next_spec = 0;       // what the next portion of it to be weighed is meant for,
  unsigned of_next = 0;            // and how many are still to come for that
  std::vector<Mass> portions;      // as weighed, net; each of a joint weighing its even share
  std::vector<std::size_t> meant;  // the spec of each: that of the pile it lies in, else of the cut
  std::vector<Verdict> verdicts;   // one for each of these
  bool closed = false;             // it was said that no more portions come of it
  Mass trimmed;                    // beyond k portions, into piles without a target: came off these
  std::optional<Expectation> expected;  // of each portion, before the cut
  bool doubtful = false;  // a weight looks like a slip: the guide learns nothing from the cut
};

// The piece, or one long piece of it.
struct CuttingObject {
  std::string long_piece;          // "" for the piece itself
  int of = 1;                      // one of so many equal long pieces
  Length from, to;                 // on the piece's ruler
  std::optional<Mass> weight;      // weighed; absent: estimated
  std::optional<Plan> plan;        // as it was before the first cut
  std::optional<Problem> problem;  // why there is none
  std::vector<CutLine> cuts;
  std::optional<Guide::Advice> advice;  // after all of these
  Mass remaining;
  CookRecord cook;  // habit and scatter as believed now
};

// Of a gram of portions. A choice of ours, no source.
inline constexpr double kMostRemainder = 0.5;

// What the whole piece gives, split into so many.
struct SplitOption {
  int k = 1;  // 0: changing along the piece
  unsigned portions = 0;
  double expected = 0.0;  // of these, within tolerance
  Length thickness;       // of its blocks, in the mean
  Money worth;            // the objective of plan.h
  bool best = false;
};

struct CuttingView {
  std::string step;
  std::vector<Station> stations;       // in order along the piece
  std::vector<PortionSpec> specs;      // name: key of the pile
  std::vector<SplitOption> splits;     // by k, changing last; empty without a plan
  std::optional<PlanInput> input;      // absent when the stations make no piece
  CookRecord cook;                     // after all cuts of the step; cuts 0: nothing was shown
  std::vector<CuttingObject> objects;  // the piece, then its long pieces by key
};

// The place of the spec of that pile; beyond all where there is none.
std::size_t spec_of(const std::vector<PortionSpec>& specs, const std::string& pile);

// In order of the steps in `figures`, which are those of `set`.
std::vector<CuttingView> cutting_of(const EntrySet& set, const Figures& figures);

}  // namespace tallyblock
