#include "advice_text.h"

#include "core/base/rounding.h"
#include "core/entries/entry.h"
#include "ruler.h"

namespace tallyblock {
namespace {

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

void take(CutAdvice& advice, std::string_view name, std::string_view value) {
  if (name == "k" && value.size() == 1 && value[0] >= '1' && value[0] <= '4') {
    advice.k = value[0] - '0';
  }
  if (name == "pile" && is_key(value)) advice.pile = value;
  if (name == "other" && is_key(value)) advice.other = value;
  if (name == "counted" && value.size() == 1 && value[0] >= '1' && value[0] <= '3') {
    advice.counted = value[0] - '0';
  }
  if (name == "long-piece" && is_key(value)) advice.long_piece = value;
  if (name == "thickness") {
    if (const auto length = parse_length(value, name)) advice.thickness = length->length;
  }
}

}  // namespace

std::string advice_text(const CutAdvice& advice, LengthUnit ruler) {
  std::string text = "k=" + std::to_string(advice.k);
  if (!advice.pile.empty()) text += "; pile=" + advice.pile;
  if (!advice.other.empty()) {
    text += "; counted=" + std::to_string(advice.counted) + "; other=" + advice.other;
  }
  if (!advice.long_piece.empty()) text += "; long-piece=" + advice.long_piece;
  if (advice.thickness) text += "; thickness=" + ruler_text(*advice.thickness, ruler);
  if (advice.expected) text += "; expected=" + fixed_text(advice.expected->in_grams(), 0) + " g";
  return text;
}

CutAdvice advice_from(std::string_view plan) {
  CutAdvice advice;
  while (!plan.empty()) {
    const std::size_t end = plan.find(';');
    const std::string_view part = plan.substr(0, end);
    plan = end == std::string_view::npos ? std::string_view{} : plan.substr(end + 1);
    const std::size_t equals = part.find('=');
    if (equals == std::string_view::npos) continue;
    take(advice, trimmed(part.substr(0, equals)), trimmed(part.substr(equals + 1)));
  }
  return advice;
}

}  // namespace tallyblock
