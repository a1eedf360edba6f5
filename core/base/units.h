// Mass, Length, Money and PricePerMass: four quantities that do not mix.
//
// Mass is held in grams, Length in millimetres, Money in currency units (one euro, one dollar),
// PricePerMass in currency units per gram, all as IEEE double. What a person typed is kept as text
// elsewhere (see typed.h); these types hold its value. Adding a Mass to a Money does not compile,
// nor does making one from a bare number: name the unit.
//
// Conversions are exact factors: 1 lb = 453.59237 g, 1 oz = 28.349523125 g, 1 in = 25.4 mm
// (international yard and pound agreement 1959; NIST SP 811, appendix B.8).
// Each conversion rounds once, as a double product or quotient; rounding for display is in rounding.h.
// Does not: guard against zero divisors or overflow (the functions built on it do); temperature.
#pragma once
#include <compare>

namespace tallyblock {

inline constexpr double kGramsPerPound = 453.59237;
inline constexpr double kGramsPerOunce = 28.349523125;
inline constexpr double kMillimetresPerInch = 25.4;

enum class MassUnit { gram, kilogram, ounce, pound };
enum class LengthUnit { millimetre, centimetre, inch };

// Grams in one of `unit`, exact.
constexpr double grams_in(MassUnit unit) {
  switch (unit) {
    case MassUnit::gram: return 1.0;
    case MassUnit::kilogram: return 1000.0;
    case MassUnit::ounce: return kGramsPerOunce;
    case MassUnit::pound: return kGramsPerPound;
  }
  return 1.0;
}

constexpr double millimetres_in(LengthUnit unit) {
  switch (unit) {
    case LengthUnit::millimetre: return 1.0;
    case LengthUnit::centimetre: return 10.0;
    case LengthUnit::inch: return kMillimetresPerInch;
  }
  return 1.0;
}

// What the four quantities have in common: addition within the type, scaling by a plain number, and
// the ratio of two of a kind, which is a plain number. Division by zero is the caller's to exclude.
template <class Self>
class Quantity {
  constexpr Quantity() = default;
  friend Self;

 public:
  friend constexpr Self operator+(Self a, Self b) { return Self::raw(a.value_ + b.value_); }
  friend constexpr Self operator-(Self a, Self b) { return Self::raw(a.value_ - b.value_); }
  friend constexpr Self operator-(Self a) { return Self::raw(-a.value_); }
  friend constexpr Self operator*(Self a, double k) { return Self::raw(a.value_ * k); }
  friend constexpr Self operator*(double k, Self a) { return Self::raw(a.value_ * k); }
  friend constexpr Self operator/(Self a, double k) { return Self::raw(a.value_ / k); }
  friend constexpr double operator/(Self a, Self b) { return a.value_ / b.value_; }
  friend constexpr bool operator==(Self a, Self b) { return a.value_ == b.value_; }
  friend constexpr std::partial_ordering operator<=>(Self a, Self b) {
    return a.value_ <=> b.value_;
  }
  constexpr Self& operator+=(Self other) {
    value_ += other.value_;
    return static_cast<Self&>(*this);
  }
  constexpr Self& operator-=(Self other) {
    value_ -= other.value_;
    return static_cast<Self&>(*this);
  }

 protected:
  static constexpr Self raw(double value) {
    Self self;
    self.value_ = value;
    return self;
  }
  double value_ = 0.0;
};

class Mass : public Quantity<Mass> {
 public:
  constexpr Mass() = default;
  static constexpr Mass grams(double value) { return raw(value); }
  static constexpr Mass of(double value, MassUnit unit) { return raw(value * grams_in(unit)); }
  constexpr double in_grams() const { return value_; }
  constexpr double in(MassUnit unit) const { return value_ / grams_in(unit); }
};

class Length : public Quantity<Length> {
 public:
  constexpr Length() = default;
  static constexpr Length millimetres(double value) { return raw(value); }
  static constexpr Length of(double value, LengthUnit unit) {
    return raw(value * millimetres_in(unit));
  }
  constexpr double in_millimetres() const { return value_; }
  constexpr double in(LengthUnit unit) const { return value_ / millimetres_in(unit); }
};

class Money : public Quantity<Money> {
 public:
  constexpr Money() = default;
  static constexpr Money units(double value) { return raw(value); }
  constexpr double in_units() const { return value_; }
};

class PricePerMass : public Quantity<PricePerMass> {
 public:
  constexpr PricePerMass() = default;
  static constexpr PricePerMass of(Money money, MassUnit unit) {
    return raw(money.in_units() / grams_in(unit));
  }
  // Currency units for one `unit` of mass.
  constexpr double per(MassUnit unit) const { return value_ * grams_in(unit); }
  friend constexpr Money operator*(PricePerMass price, Mass mass) {
    return Money::units(price.value_ * mass.in_grams());
  }
  friend constexpr Money operator*(Mass mass, PricePerMass price) { return price * mass; }
};

// Price of one mass unit when `money` buys `mass`; `mass` must not be zero.
constexpr PricePerMass operator/(Money money, Mass mass) {
  return PricePerMass::of(Money::units(money.in_units() / mass.in_grams()), MassUnit::gram);
}

}  // namespace tallyblock
