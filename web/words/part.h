// The parts of the program, in the order in which they come. The first is there from the start; what lies in
// the others is listed in web/platform/parts.txt, under the same names and in the same order.
#pragma once
#include <array>
#include <cstddef>
#include <string_view>

namespace tallyblock {

enum class AppPart { first, board, office, log };

inline constexpr std::array kParts = {AppPart::first, AppPart::board, AppPart::office,
                                      AppPart::log};

constexpr std::string_view name_of(AppPart part) {
  constexpr std::array<std::string_view, kParts.size()> names = {"first", "board", "office", "log"};
  return names[static_cast<std::size_t>(part)];
}

}  // namespace tallyblock
