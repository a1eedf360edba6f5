#include "choices.h"

#include <vector>

#include "web/words/words.h"

namespace tallyblock {

std::string setting_choice(Ui& ui, const std::string& path, std::string_view words,
                           std::span<const std::string_view> values, std::string_view now,
                           std::string_view label) {
  std::vector<std::string> names;
  int chosen = -1;
  for (const std::string_view value : values) {
    if (value == now) chosen = static_cast<int>(names.size());
    names.push_back(say(std::string(words) + "." + std::string(value)));
  }
  const std::vector<std::string_view> options(names.begin(), names.end());
  const int picked = ui.kit.choice(path, say(label.empty() ? words : label), options, chosen);
  return picked < 0 ? std::string() : std::string(values[static_cast<std::size_t>(picked)]);
}

}  // namespace tallyblock
