// The guide while cutting: the next mark after every weighed block.
//
// Known: the weight cut so far (so the place is known by weight, not by ruler), the stations, the
// total. Uncertain: the log face area, at the stations by what a ruler at the board is worth and away
// from them smoothly; the cook's habit (log of cut thickness over asked thickness, wandering a little
// from cut to cut), how far the last face stands off, and scatter (per cut). Linear-Gaussian and robust
// (guide_model.h): each block's log weight ratio observes all of these; the total weight is one more
// observation; a measured face another. Scatter is estimated with shrinkage to the prior.
// The next mark aims at the weight of most expected worth (with one kind of portion aim.h: in a row, a plan does
// not know that what one block loses the next ones share), is corrected for the habit and the last face, and is no thicker than what is there; in mm from the last face.
// A weight is not believed for being typed: see `believes`.
// Does not: weigh the ends trimmed away; a re-weigh replaces the weight by subtraction.
#pragma once
#include <memory>
#include <optional>
#include <vector>

#include "cook.h"
#include "plan.h"
#include "verdict.h"

namespace tallyblock {

// Choices of ours, no source, but that a ruler at the board is worth about 5 % of a face.
struct ShapePrior {
  double area_sd = 0.05;     // log sd of the face area away from stations, in short waves
  double station_sd = 0.04;  // log sd of a measured face
  Length correlation = Length::millimetres(100);
  double bulge_sd = 0.08;  // the same in long waves: what few stations do not tell
  Length bulge = Length::millimetres(250);
  bool evenly = false;  // between two faces that differ it is known to change evenly
};

struct CutBlock {
  Length asked;  // thickness asked for (the advice followed)
  int k = 1;
  Mass weight;  // of all k portions together
  std::size_t spec = 0;
  std::vector<unsigned> kept =
      {};                 // how many count as portions of each spec; empty: all k of `spec`
  bool sure = false;      // the weight was asked about and is right, or is no slip
  bool doubtful = false;  // one of its portions is not believed
};
// What the next cut should give of each portion. Without a piece left or a thickness: nothing.
struct Expectation {
  Mass each;
  double log_sd = 0.0;  // of one portion, the scale's division within it
};
// A weight of so many portions together, as it was typed: in a unit of so many grams, with so many
// decimals; fewer than none: not as one plain number.
struct TypedWeight {
  Mass weight;
  unsigned portions = 1;
  double unit_grams = 1.0;
  int decimals = 0;
};
struct MeasuredFace {
  Length width, depth;  // of the face now showing
};

class GuideBeliefs;

class Guide {
 public:
  // The piece in `input` (a whole piece, or one long piece with k_max 1) weighs input.shape.mass().
  static Result<Guide> start(PlanInput input, CookPrior cook = {}, ShapePrior prior = {},
                             Mass division = Mass::grams(1.0));
  // The same, known to have a plan.
  static Guide begin(PlanInput input, CookPrior cook, ShapePrior prior, Mass division);
  // What a cut asked so thick is expected to give of each of k portions.
  Expectation expected(Length asked, int k) const;
  // Whether a weight of the next block is worth learning from: within kImprobable of what is expected,
  // and not more than what is left.
  bool believes(const TypedWeight& typed, Length asked, int k) const;
  // Not believed, and what one slip of the keys makes of a likely weight; or more than what is left.
  bool looks_like_a_slip(const TypedWeight& typed, Length asked, int k) const;
  // A weighed block. Without meaning (weight or thickness not above zero): nothing changes. Where it is
  // doubtful, or not sure and looks like a slip (typed in whole grams), it counts as its portions and
  // teaches nothing: what it should have weighed is taken off. Else, though not believed, it is a cut gone
  // wrong, of which the robust model learns a little. Where nothing was left by the books it is taken off.
  void block(const CutBlock& block);
  // A cut whose weight is not known (voided, or not weighed): what it should have given is taken off.
  // `kept`: how many of it count as portions of each spec.
  void unweighed(Length asked, const std::vector<unsigned>& kept);
  // Weight taken from the piece by eye: nothing is learned of the cook.
  // `kept`: how many of it count as portions of each spec.
  void removed(Mass weight, const std::vector<unsigned>& kept);
  // What to do with one portion of the block just cut.
  Verdict verdict(std::size_t spec, Mass weight, int k = 1) const;
  // What is left was weighed again: replaces the weight by subtraction.
  void reweighed(Mass remaining);
  void face(const MeasuredFace& face);

  struct Advice {
    bool done = false;  // nothing more to cut
    int k = 1;
    std::size_t spec = 0;
    Length next;            // thickness from the last face, to set on the ruler
    Length stands_at;       // where on the piece the near face is believed to stand, by weight
    Length face_off;        // how far the ruler, set to that face, lies before there: in `next`
    Mass target, expected;  // of one portion: asked for, and what this cut should give
    Mass scatter;           // one standard deviation expected of it
    // The chance that a portion of the next block, aimed at its target, is within tolerance: as it is, and if
    // width and depth were measured first in the middle of the longest stretch ahead that was not.
    double within = 0.0, within_if_measured = 0.0;
    Length measure_at;  // from the first face
    unsigned left = 0;  // portions still to come, by the re-plan
    Plan rest;          // ruler readings from the last face
  };
  Advice advice() const;
  Mass remaining() const { return remaining_; }
  double habit() const;  // posterior mean, log ratio
  double habit_sd() const;
  double scatter() const;
  std::size_t weighed_cuts() const { return weighed_; }
  CookRecord record() const { return {habit(), habit_sd(), scatter(), weighed_}; }

  Guide(Guide&&) noexcept;
  Guide& operator=(Guide&&) noexcept;
  ~Guide();

 private:
  explicit Guide(PlanInput input);
  double face_now() const;  // where the near face stands, mm
  PlanInput rest_of_piece(double from) const;
  double farthest_from_measures(double from) const;  // middle of the longest stretch ahead
  void take_off(Mass weight, double from);
  void count(const std::vector<unsigned>& kept);
  Mass aim_for(const PlanInput& rest, const Plan& found, double log_sd) const;
  std::unique_ptr<GuideBeliefs> model_;
  PlanInput input_;
  std::vector<unsigned> cut_;  // portions already cut, per spec
  std::size_t weighed_ = 0;
  Mass remaining_;
  Mass division_;
};

}  // namespace tallyblock
