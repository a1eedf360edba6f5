// A mass has no millimetres.
// expect: (could not convert|cannot convert|no viable conversion|cannot initialize|no matching function).*(LengthUnit|of)
#include "core/base/units.h"

using namespace tallyblock;

int main() {
#ifdef CONTROL
  [[maybe_unused]] const Length length = Length::of(1.0, LengthUnit::inch);
#else
  [[maybe_unused]] const Mass mass = Mass::of(1.0, LengthUnit::inch);
#endif
}
