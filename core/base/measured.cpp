#include "measured.h"

#include <algorithm>
#include <cmath>

#include "finite.h"

namespace tallyblock {
namespace {

// Standard uncertainty of one reading with division d: d / sqrt(12), JCGM 100:2008, F.2.2.1.
double reading_uncertainty(Mass division) {
  return finite_or(std::fabs(division.in_grams()) / std::sqrt(12.0));
}

Mass finite(Mass mass) { return Mass::grams(finite_or(mass.in_grams())); }

}  // namespace

Measured Measured::reading(std::string id, Mass value, Mass division) {
  Measured out = exact(value);
  const double u = reading_uncertainty(division);
  if (u > 0.0) out.terms_.push_back({std::move(id), 1.0, u});
  return out;
}

Measured Measured::exact(Mass value) {
  Measured out;
  out.value_ = finite(value);
  return out;
}

Mass Measured::uncertainty() const {
  double u = 0.0;
  for (const Term& term : terms_) u = std::hypot(u, term.coefficient * term.u);
  return Mass::grams(finite_or(u));
}

void Measured::add(const Measured& other, double sign) {
  value_ = finite(value_ + sign * other.value_);
  std::vector<Term> added = other.terms_;  // a copy: `other` may be *this
  auto at = terms_.begin();
  for (Term& term : added) {
    term.coefficient *= sign;
    at = std::lower_bound(at, terms_.end(), term.id,
                          [](const Term& held, const std::string& id) { return held.id < id; });
    if (at == terms_.end() || at->id != term.id) {
      at = terms_.insert(at, std::move(term));
      continue;
    }
    at->coefficient = finite_or(at->coefficient + term.coefficient);
    at->u = std::max(at->u, term.u);
    if (at->coefficient == 0.0) at = terms_.erase(at);
  }
}

Measured& Measured::operator+=(const Measured& other) {
  add(other, 1.0);
  return *this;
}

Measured& Measured::operator-=(const Measured& other) {
  add(other, -1.0);
  return *this;
}

Measured Measured::scaled(double factor) const {
  Measured out = *this;
  out.value_ = finite(value_ * factor);
  for (Term& term : out.terms_) term.coefficient = finite_or(term.coefficient * factor);
  std::erase_if(out.terms_, [](const Term& term) { return term.coefficient == 0.0; });
  return out;
}

double ratio_uncertainty(const Measured& numerator, const Measured& denominator) {
  const auto ratio = ratio_of(numerator.value_.in_grams(), denominator.value_.in_grams());
  if (!ratio) return 0.0;
  // d(a / b) = (da - (a / b) db) / b
  const Mass u = (numerator - denominator.scaled(*ratio)).uncertainty();
  return ratio_of(u.in_grams(), std::fabs(denominator.value_.in_grams())).value_or(0.0);
}

}  // namespace tallyblock
