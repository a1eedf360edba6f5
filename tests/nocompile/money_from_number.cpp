// A bare number is not money.
// expect: (conversion from .double. to non-scalar type|no viable conversion from .double. to).*Money
#include "core/base/units.h"

using namespace tallyblock;

int main() {
#ifdef CONTROL
  [[maybe_unused]] const Money money = Money::units(12.5);
#else
  [[maybe_unused]] const Money money = 12.5;
#endif
}
