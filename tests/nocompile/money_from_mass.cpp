// A mass does not turn into money.
// expect: (conversion from .tallyblock::Mass. to non-scalar type|no viable conversion from .Mass. to).*Money
#include "core/base/units.h"

using namespace tallyblock;

int main() {
#ifdef CONTROL
  [[maybe_unused]] const Money money = Money::units(1.0);
#else
  [[maybe_unused]] const Money money = Mass::grams(1.0);
#endif
}
