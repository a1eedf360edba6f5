// The C library's strtod for the app alone, in place of its own: nlohmann's reader of JSON asks for it, and the
// library's brings the arithmetic of long doubles, kilobytes before the first frame. The linker takes these, since
// they come first; the other two are never called, but are one object with it in the library. Spellings that JSON
// does not have (hexadecimal, infinite) are no number.
#include <cstdlib>
#include <string_view>

#include "core/base/decimal.h"

extern "C" {

double strtod(const char* text, char** end) {
  const tallyblock::ReadDecimal read = tallyblock::read_decimal(text);
  if (end != nullptr) *end = const_cast<char*>(text) + read.used;
  return read.value;
}
float strtof(const char* text, char** end) { return static_cast<float>(strtod(text, end)); }
long double strtold(const char* text, char** end) { return strtod(text, end); }

}  // extern "C"
