// Arg: a value in a sentence, and Place: where in a text or a file something is wrong.
//
// Problems and doubts carry values, not texts: the sentence is looked up by key in the catalogue, and
// each value is written as its reader writes it (web/figures/sentence.h): unit, digits, decimal mark,
// words of the language. Masses are in grams, lengths in millimetres, money in currency units, shares
// of 1, minutes, degrees Celsius. Nothing is rounded here. `decimals` says how many are worth showing
// where the kind does not say it itself (number, share, minutes, celsius).
//
// Does not: hold the currency (the session's), say which unit to show.
#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "units.h"

namespace tallyblock {

class Arg {
 public:
  enum class Kind : std::uint8_t {
    count,    // of things; the first one of a sentence chooses its plural form
    number,   // any other: a place in a row, a limit, a percentage
    share,    // of 1
    minutes,  //
    celsius,  //
    mass,
    length,
    money,
    typed,  // a figure as somebody typed it, or as it should have been typed; see core/typed/typed.h
    name,   // given by a person, or an id
    code,   // of the file format, or a currency: the same in every language
    word,   // of a closed list, key in the catalogue: "incoming.invoice"
    fact,   // key of a fact, "price:piece": its kind is a word, the rest a key
    piece,  // the whole piece, for which its first step is named
  };

  Arg(const Arg&);
  Arg(Arg&&) noexcept;
  Arg& operator=(const Arg&);
  Arg& operator=(Arg&&) noexcept;
  ~Arg();
  Arg(Mass mass) : Arg(Kind::mass, mass.in_grams()) {}  // NOLINT(google-explicit-constructor)
  Arg(Length length)
      : Arg(Kind::length, length.in_millimetres()) {}       // NOLINT(google-explicit-constructor)
  Arg(Money money) : Arg(Kind::money, money.in_units()) {}  // NOLINT(google-explicit-constructor)
  static Arg count(std::uint64_t n) { return {Kind::count, static_cast<double>(n)}; }
  static Arg number(double value, int decimals = 0) { return {Kind::number, value, decimals}; }
  static Arg share(double ratio, int decimals = 1) { return {Kind::share, ratio, decimals}; }
  static Arg minutes(double value) { return {Kind::minutes, value}; }
  static Arg celsius(double value) { return {Kind::celsius, value}; }
  static Arg typed(std::string_view text) { return {Kind::typed, text}; }
  static Arg name(std::string_view text) { return {Kind::name, text}; }
  static Arg code(std::string_view text) { return {Kind::code, text}; }
  static Arg word(std::string_view key) { return {Kind::word, key}; }
  static Arg fact(std::string_view key) { return {Kind::fact, key}; }
  static Arg piece() { return {Kind::piece, 0.0}; }

  Kind kind() const { return kind_; }
  double value() const { return value_; }  // in the unit of the kind; 0 for texts
  int decimals() const { return decimals_; }
  const std::string& text() const { return text_; }  // "" for figures
  void set_text(std::string text) { text_ = std::move(text); }
  // 0 where it is of another kind.
  Mass mass() const { return Mass::grams(kind_ == Kind::mass ? value_ : 0.0); }
  Length length() const { return Length::millimetres(kind_ == Kind::length ? value_ : 0.0); }

  friend bool operator==(const Arg&, const Arg&) = default;

 private:
  Arg(Kind kind, double value, int decimals = 0);
  Arg(Kind kind, std::string_view text);

  double value_ = 0.0;
  std::string text_;
  Kind kind_;
  std::uint8_t decimals_ = 0;
};
using Args = std::vector<Arg>;

// A field ("weight", "price-per-mass"), or a place in a file: of a backup the line, of a session the
// entry, both from 1, and which field there; of a text that cannot be read the byte, from 0.
struct Place {
  Place() = default;
  Place(std::string_view f);  // NOLINT(google-explicit-constructor)
  Place(const std::string& f)
      : Place(std::string_view(f)) {}                   // NOLINT(google-explicit-constructor)
  Place(const char* f) : Place(std::string_view(f)) {}  // NOLINT(google-explicit-constructor)
  Place(const Place&);
  Place(Place&&) noexcept;
  Place& operator=(const Place&);
  Place& operator=(Place&&) noexcept;
  ~Place();
  static Place at_byte(std::size_t at) {
    Place place;
    place.byte = at;
    return place;
  }
  bool empty() const { return line == 0 && entry == 0 && !byte && field.empty(); }
  friend bool operator==(const Place&, const Place&) = default;

  std::size_t line = 0, entry = 0;  // 0: none
  std::optional<std::size_t> byte;
  std::string field;
};

// For logs and tests, in English: "line 3, entry 12, field seq", "byte 7".
std::string text_of(const Place& place);

}  // namespace tallyblock
