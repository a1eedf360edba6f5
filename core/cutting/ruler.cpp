#include "ruler.h"

#include <cmath>
#include <numeric>

#include "core/base/rounding.h"
#include "core/session/session.h"

namespace tallyblock {

std::string_view ruler_of(const Settings& settings) {
  const auto chosen = settings.all.find("ruler");
  if (chosen == settings.all.end()) {
    return settings.unit == "g" || settings.unit == "kg" ? "mm" : "in";
  }
  const std::string& name = chosen->second;
  return name == "in" ? "in" : name == "cm" ? "cm" : "mm";
}

Length ruler_step(LengthUnit ruler) {
  return ruler == LengthUnit::inch ? Length::of(1.0, LengthUnit::inch) / 16.0
                                   : Length::millimetres(1.0);
}

Length ruler_mark(Length length, LengthUnit ruler) {
  const Length step = ruler_step(ruler);
  return step * round_half_even(length / step, 0);
}

std::string ruler_text(Length length, LengthUnit ruler) {
  if (!std::isfinite(length.in_millimetres())) return "?";
  if (ruler == LengthUnit::millimetre) return fixed_text(length.in_millimetres(), 0) + " mm";
  if (ruler == LengthUnit::centimetre) {
    return fixed_text(ruler_mark(length, ruler).in(ruler), 1) + " cm";
  }
  const double marks = round_half_even(length / ruler_step(ruler), 0);
  if (std::abs(marks) > 1e9) return "?";
  const long all = static_cast<long>(std::abs(marks));
  const long whole = all / 16;
  const long part = all % 16;
  const long common = std::gcd(part, 16L);
  std::string text = marks < 0.0 ? "-" : "";
  if (whole > 0 || part == 0) text += std::to_string(whole);
  if (whole > 0 && part > 0) text += " ";
  if (part > 0) text += std::to_string(part / common) + "/" + std::to_string(16 / common);
  return text + " in";
}

}  // namespace tallyblock
