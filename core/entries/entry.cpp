#include "entry.h"

#include <algorithm>
#include <array>
#include <tuple>
#include <type_traits>

#include "kinds.h"

namespace tallyblock {
namespace {

constexpr std::string_view kAlphabet = "0123456789abcdefghjkmnpqrstvwxyz";

// Names in the order of the enum. Frozen.
constexpr std::array<std::string_view, 4> kRoles = {"primary", "secondary", "usable-trim",
                                                    "unusable-trim"};
constexpr std::array<std::string_view, 4> kHabits = {"piece", "increment", "tub-now", "taken-off"};
constexpr std::array<std::string_view, 5> kIncoming = {"invoice", "received", "drained",
                                                       "packaging", "purge"};
constexpr std::array<std::string_view, 5> kProcesses = {"breakdown", "cooking", "brine", "grinding",
                                                        "other"};
constexpr std::array<std::string_view, 2> kBases = {"per-mass", "total"};

template <class Enum, std::size_t N>
std::string_view name_in(const std::array<std::string_view, N>& names, Enum value) {
  const auto index = static_cast<std::size_t>(value);
  return index < N ? names[index] : std::string_view{};
}

template <class Enum, std::size_t N>
std::optional<Enum> value_in(const std::array<std::string_view, N>& names, std::string_view name) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return std::nullopt;
  return static_cast<Enum>(found - names.begin());
}

}  // namespace

std::string to_text(const EntryId& id) { return id.writer + '.' + std::to_string(id.counter); }

bool is_drawn_id(std::string_view text, std::size_t length) {
  return text.size() == length && text.find_first_not_of(kAlphabet) == std::string_view::npos;
}

bool is_key(std::string_view text) {
  if (text.empty() || text.size() > 40) return false;
  return std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  });
}

std::optional<EntryId> entry_id_from(std::string_view text) {
  if (text.size() < kWriterLength + 2 || text.size() > kWriterLength + 11) return std::nullopt;
  const std::string_view writer = text.substr(0, kWriterLength);
  const std::string_view digits = text.substr(kWriterLength + 1);
  if (!is_drawn_id(writer, kWriterLength) || text[kWriterLength] != '.') return std::nullopt;
  if (digits.front() == '0') return std::nullopt;
  std::uint64_t counter = 0;
  for (const char c : digits) {
    if (c < '0' || c > '9') return std::nullopt;
    counter = counter * 10 + static_cast<std::uint64_t>(c - '0');
  }
  if (counter > kMaxCounter) return std::nullopt;
  return EntryId{std::string(writer), static_cast<std::uint32_t>(counter)};
}

bool before(const Entry& a, const Entry& b) {
  return std::tie(a.seq, a.id) < std::tie(b.seq, b.id);
}

std::string_view name_of(Role role) { return name_in(kRoles, role); }
std::string_view name_of(Habit habit) { return name_in(kHabits, habit); }
std::string_view name_of(Incoming which) { return name_in(kIncoming, which); }
std::string_view name_of(Process process) { return name_in(kProcesses, process); }
std::string_view name_of(PriceBasis basis) { return name_in(kBases, basis); }

std::optional<Role> role_from(std::string_view name) { return value_in<Role>(kRoles, name); }
std::optional<Habit> habit_from(std::string_view name) { return value_in<Habit>(kHabits, name); }
std::optional<Incoming> incoming_from(std::string_view name) {
  return value_in<Incoming>(kIncoming, name);
}
std::optional<Process> process_from(std::string_view name) {
  return value_in<Process>(kProcesses, name);
}
std::optional<PriceBasis> price_basis_from(std::string_view name) {
  return value_in<PriceBasis>(kBases, name);
}

std::string_view kind_name(const Body& body) {
  if (const auto* unknown = std::get_if<body::Unknown>(&body)) return unknown->kind;
  std::string_view name;
  with_kind(body, [&](auto kind, const auto&) { name = kind.name; });
  return name;
}

}  // namespace tallyblock
