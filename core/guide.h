// The guide while cutting: the next mark after every weighed block.
//
// Known: the weight cut so far (so the place is known by weight, not by ruler), the stations, the
// total. Uncertain: the log face area between the stations, smooth along the piece (zero mean at the
// stations' interpolation, squared-exponential kernel); the cook's habit (log of cut thickness over
// asked thickness, constant) and scatter (per cut). Linear-Gaussian: each block's log weight ratio
// observes habit + mean log-area deviation over the block + noise; the total weight is one more
// observation; a measured face another. Exact Gaussian updates on 25 knots + habit.
// Scatter is estimated with shrinkage to the prior. The next mark is the re-planned first block,
// corrected for habit, in mm from the last face. What a habit or scatter unexplained by the shape adds
// to a cut is shared between them by their variances.
// Does not: weigh the ends trimmed away; a re-weigh replaces the weight by subtraction.
#pragma once
#include <memory>
#include <optional>
#include <vector>

#include "cook.h"
#include "plan.h"
#include "verdict.h"

namespace tallyblock {

struct ShapePrior {
  double area_sd = 0.08;     // log sd of the face area away from stations
  double station_sd = 0.02;  // log sd of a measured face
  Length correlation = Length::millimetres(100);
};

struct CutBlock {
  Length asked;  // thickness asked for (the advice followed)
  int k = 1;
  Mass weight;  // of all k portions together
  std::size_t spec = 0;
  std::optional<unsigned> kept = {};  // how many count as portions of the spec; absent: all k
};
struct MeasuredFace {
  Length width, depth;  // of the face now showing
};

class GuideModel;

class Guide {
 public:
  // The piece in `input` (a whole piece, or one long piece with k_max 1) weighs input.shape.mass().
  static Result<Guide> start(PlanInput input, CookPrior cook = {}, ShapePrior prior = {},
                             Mass division = Mass::grams(1.0));
  // The same, known to have a plan.
  static Guide begin(PlanInput input, CookPrior cook, ShapePrior prior, Mass division);
  // A weighed block. Without meaning (weight or thickness not above zero): nothing changes.
  void block(const CutBlock& block);
  // A cut whose weight is not known (voided, or not weighed): what it should have given is taken off.
  void unweighed(Length asked, int k, std::size_t spec);
  // Weight taken from the piece by eye: nothing is learned of the cook.
  void removed(Mass weight, std::size_t spec, unsigned kept);
  // What to do with one portion of the block just cut.
  Verdict verdict(std::size_t spec, Mass weight) const;
  // What is left was weighed again: replaces the weight by subtraction.
  void reweighed(Mass remaining);
  void face(const MeasuredFace& face);

  struct Advice {
    bool done = false;  // nothing more to cut
    int k = 1;
    std::size_t spec = 0;
    Length next;            // thickness from the last face, to set on the ruler
    Length stands_at;       // where on the piece the near face is believed to stand
    Mass target, expected;  // of one portion: asked for, and what this cut should give
    Mass scatter;           // one standard deviation expected of it
    unsigned left = 0;      // portions still to come, by the re-plan
    Plan rest;              // ruler readings from the last face
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
  void take_off(Mass weight, double from);
  static Mass aim_for(const PlanInput& rest, const Plan& found);
  std::unique_ptr<GuideModel> model_;
  PlanInput input_;
  std::vector<unsigned> cut_;  // portions already cut, per spec
  std::size_t weighed_ = 0;
  Mass remaining_;
  Mass division_;
};

}  // namespace tallyblock
