// Reading numbers as people type them, exactly. Internal to typed.cpp and typed_others.cpp.
//
// An amount is a fraction of whole numbers, so "12.35 lb" stays 1235/100 until it is converted once,
// correctly rounded, to a double of the unit wanted. Limits: 15 significant digits, 22 decimals; a
// fraction is below one, its denominator at most 1,000.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "core/base/problem.h"
#include "core/typed/typed.h"

namespace tallyblock::scan {

__extension__ using Wide = unsigned __int128;

// num / den; den > 0. whole: typed without a decimal mark and without a fraction.
struct Amount {
  Wide num = 0;
  Wide den = 1;
  bool whole = true;
};

// num / den rounded once to the nearest double, ties to even. den in [1, 2^126], num < 2^126.
double nearest(Wide num, Wide den);

// What was typed for one field, trimmed, with the problem to report about it.
// Problem::args: {0} the text as typed (its first 40 bytes), then `more`.
class Typed {
 public:
  Typed(std::string_view text, std::string_view field);
  const std::string& text() const { return text_; }
  // Empty, or longer than 64 bytes.
  std::optional<Code> unreadable() const;
  Problem fails(Code code) const;
  Problem fails(Code code, Arg more) const;

 private:
  std::string text_, field_;
};

// Walks over the text. Spaces are skipped between tokens (also no-break and thin ones).
class Reader {
 public:
  explicit Reader(std::string_view text) : rest_(text) {}
  bool at_end();
  bool next_is_digit();
  // Takes "-" (or the minus sign U+2212); true if there was one.
  bool take_minus();
  // Takes `mark` if it is the very next byte.
  bool take(char mark);
  // Takes ASCII letters (as lower case), or "%" alone; a degree sign before them is passed over.
  std::string word();
  // Takes digits without spaces, at most 15 significant; empty if there are none.
  std::string_view digits();
  // Takes "12", "12.5", "12,5", ".5" and, with `fractions`, "1/2" and "8 1/2".
  std::optional<Code> amount(Amount& out, bool fractions);

 private:
  void skip_spaces();
  std::optional<Code> decimals(std::string_view whole, Amount& out);
  std::optional<Code> fraction(std::string_view numerator, Amount& out);
  std::string_view rest_;
};

// What is wrong with the sign, if anything. "-0" counts as zero.
std::optional<Code> sign_problem(bool negative, const Amount& amount, Sign sign);

}  // namespace tallyblock::scan
