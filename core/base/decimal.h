// Doubles and their decimal digits, exactly: what is written is rounded half to even from the double's whole
// expansion, what is read is the double nearest to all of the digits. The C library does the same with far more
// code, which would have to be loaded.
#pragma once
#include <string>
#include <string_view>

namespace tallyblock {

// As printf writes a finite value with %.*f and %.*g; decimals from 0, digits from 1.
std::string fixed_digits(double value, int decimals);
std::string general_digits(double value, int digits);

struct ReadDecimal {
  double value = 0.0;    // infinite beyond the largest double
  std::size_t used = 0;  // bytes from the beginning that are the number; 0: there is none
};

// A sign, digits with or without a point, and an exponent: each but some digits may be missing. Blanks before it
// and other spellings (hexadecimal, infinite) are no number.
ReadDecimal read_decimal(std::string_view text);

}  // namespace tallyblock
