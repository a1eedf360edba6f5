// A bare number is not a mass: name the unit.
// expect: (conversion from .double. to non-scalar type|no viable conversion from .double. to).*Mass
#include "core/base/units.h"

using namespace tallyblock;

int main() {
#ifdef CONTROL
  [[maybe_unused]] const Mass mass = Mass::grams(450.0);
#else
  [[maybe_unused]] const Mass mass = 450.0;
#endif
}
