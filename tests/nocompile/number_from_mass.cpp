// A mass does not turn into a number: ask for it in a unit.
// expect: (cannot convert .tallyblock::Mass. to .const double|no viable conversion from .Mass. to .const double)
#include "core/base/units.h"

using namespace tallyblock;

int main() {
#ifdef CONTROL
  [[maybe_unused]] const double grams = Mass::grams(1.0).in_grams();
#else
  [[maybe_unused]] const double grams = Mass::grams(1.0);
#endif
}
