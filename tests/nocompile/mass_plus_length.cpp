// A mass and a length do not add up.
// expect: (no match for .operator\+.|invalid operands to binary expression).*Mass.*Length
#include "core/base/units.h"

using namespace tallyblock;

int main() {
  [[maybe_unused]] const Mass mass = Mass::grams(1.0);
  [[maybe_unused]] const Length length = Length::millimetres(1.0);
  [[maybe_unused]] const Money money = Money::units(1.0);
  [[maybe_unused]] const PricePerMass price = money / mass;
#ifdef CONTROL
  [[maybe_unused]] const auto made = length + length;
#else
  [[maybe_unused]] const auto made = mass + length;
#endif
}
