#include "verdict.h"

#include <cmath>

namespace tallyblock {
namespace {

bool within(const PortionSpec& spec, Mass weight) {
  return std::abs((weight - spec.target).in_grams()) <= spec.tolerance.in_grams() + 1e-9;
}

}  // namespace

Verdict judge_block(const std::vector<PortionSpec>& specs, std::size_t asked, Mass weight,
                    const std::vector<unsigned>& left, double grams_per_mm) {
  Verdict verdict;
  verdict.spec = asked;
  if (asked >= specs.size()) return verdict;
  verdict.off = weight - specs[asked].target;
  if (within(specs[asked], weight)) return verdict;
  for (std::size_t s = 0; s < specs.size(); ++s) {
    const bool wanted = s >= left.size() || left[s] > 0;
    if (s != asked && wanted && within(specs[s], weight)) {
      verdict.fate = Fate::other_spec;
      verdict.spec = s;
      verdict.off = weight - specs[s].target;
      return verdict;
    }
  }
  if (!(verdict.off > Mass())) {
    verdict.fate = Fate::lesser_pile;
    return verdict;
  }
  verdict.fate = Fate::trim;
  verdict.trim = verdict.off;
  if (grams_per_mm > 0.0) {
    verdict.trim_thickness = Length::millimetres(verdict.trim.in_grams() / grams_per_mm);
  }
  return verdict;
}

}  // namespace tallyblock
