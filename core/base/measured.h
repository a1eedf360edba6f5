// A mass with its uncertainty, as a linear form over independent readings.
//
// value = sum over sources of coefficient x reading; each source is one act of reading a scale (or
// one measured tare) with standard uncertainty u = d / sqrt(12), d its division (JCGM 100:2008,
// F.2.2.1). Adding forms adds coefficients, so a shared tare, a growing tub whose differences
// telescope, and a reading on both sides of a ratio are treated as correlated without further rules.
// Nothing is rounded. Non-finite values and coefficients count as 0. Does not: the scale's own error
// (calibration, level, wind), which is the same for every reading of the day and is not known here.
#pragma once
#include <string>
#include <vector>

#include "units.h"

namespace tallyblock {

class Measured {
 public:
  Measured() = default;
  // One reading of `value` from source `id` on a scale with division `division`; 0 means exact. One
  // id is one act of reading: give every act its own, and a shared tare the same one each time.
  static Measured reading(std::string id, Mass value, Mass division);
  // A value taken as exact.
  static Measured exact(Mass value);

  Mass value() const { return value_; }
  // Standard uncertainty (k = 1).
  Mass uncertainty() const;

  Measured& operator+=(const Measured& other);
  Measured& operator-=(const Measured& other);
  friend Measured operator+(Measured a, const Measured& b) { return a += b; }
  friend Measured operator-(Measured a, const Measured& b) { return a -= b; }
  Measured scaled(double factor) const;

  // Standard uncertainty of numerator / denominator to first order (JCGM 100, 5.2.2, with the
  // correlations of shared sources). 0 if denominator.value() is zero: there is no ratio then.
  friend double ratio_uncertainty(const Measured& numerator, const Measured& denominator);

 private:
  struct Term {
    std::string id;
    double coefficient = 0.0;
    double u = 0.0;  // standard uncertainty of the source, grams
  };
  void add(const Measured& other, double sign);
  Mass value_;
  std::vector<Term> terms_;  // sorted by id
};

double ratio_uncertainty(const Measured& numerator, const Measured& denominator);

}  // namespace tallyblock
