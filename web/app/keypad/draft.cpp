#include "draft.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "web/app/keeper/kept_json.h"

namespace tallyblock {
namespace {

// In the order of the enums. Frozen.
constexpr std::array<std::string_view, 10> kScreens = {
    "sessions", "weigh", "result", "details", "share", "settings", "bin", "about", "cut", "log"};
static_assert(static_cast<std::size_t>(Screen::log) + 1 == kScreens.size());

template <class Enum, std::size_t N>
Enum value_in(const std::array<std::string_view, N>& names, std::string_view name) {
  const auto found = std::find(names.begin(), names.end(), name);
  return found == names.end() ? Enum{} : static_cast<Enum>(found - names.begin());
}

void put_field(Json& out, std::string_view kind, std::string_view subject, const Field& field) {
  kept::put(out, kind, name_of(field.kind));
  kept::put(out, subject, field.subject);
}

Field field_from(const Json& in, std::string_view kind, std::string_view subject) {
  return {tallyblock::field_from(kept::text(in, kind)), kept::text(in, subject)};
}

std::vector<std::string> in_pairs(const std::map<std::string, std::string>& all) {
  std::vector<std::string> pairs;
  for (const auto& [key, text] : all) pairs.insert(pairs.end(), {key, text});
  return pairs;
}

std::map<std::string, std::string> from_pairs(const std::vector<std::string>& pairs) {
  std::map<std::string, std::string> all;
  for (std::size_t i = 0; i + 1 < pairs.size(); i += 2) all[pairs[i]] = pairs[i + 1];
  return all;
}

constexpr std::int64_t kMostCount = 10'000;
constexpr double kScrollSteps = 16.0;  // the scroll position is kept to 1/16 of a pixel

}  // namespace

NameParts parts_of(const std::string& name) {
  const std::size_t colon = name.find(':');
  if (colon == std::string::npos) return {name, ""};
  return {name.substr(0, colon), name.substr(colon + 1)};
}

std::string_view name_of(Screen screen) { return kScreens[static_cast<std::size_t>(screen)]; }

std::string aside_key(const Field& field) {
  std::string key(name_of(field.kind));
  if (!field.subject.empty()) key += '/' + field.subject;
  return key;
}

std::string draft_to_json(const Draft& draft) {
  Json out = Json::object();
  kept::put(out, "screen", name_of(draft.screen));
  kept::put(out, "session", draft.session);
  put_field(out, "field", "subject", draft.field);
  kept::put(out, "digits", draft.digits);
  kept::put(out, "unit", draft.unit);
  kept::put(out, "units", in_pairs(draft.units));
  kept::put(out, "pile", draft.pile);
  kept::put(out, "habit", draft.habit);
  kept::put(out, "count", std::int64_t{draft.count});
  kept::put(out, "tub", draft.tub);
  kept::put(out, "selected", draft.selected);
  kept::put(out, "panel", draft.panel);
  kept::put(out, "text", draft.text);
  kept::put(out, "text-field", draft.text_field);
  kept::put(out, "timer-started", draft.timer_started_ms);
  kept::put(out, "timer-gathered", draft.timer_gathered_ms);
  kept::put(out, "new-price", draft.new_price);
  kept::put(out, "person", draft.person);
  put_field(out, "held", "held-subject", draft.held);
  kept::put(out, "aside", in_pairs(draft.aside));  // place, digits, place, digits
  kept::put(out, "width", draft.width);
  kept::put(out, "long-piece", draft.long_piece);
  kept::put(out, "sliced", draft.sliced);
  kept::put(out, "scored", in_pairs(draft.scored));
  const double steps =
      std::isfinite(draft.scroll) ? static_cast<double>(draft.scroll) * kScrollSteps : 0.0;
  kept::put(out, "scroll", static_cast<std::int64_t>(std::clamp(steps, -1e9, 1e9)));
  return canonical_text(out);
}

Draft draft_from_json(std::string_view text) {
  const Json in = kept::object_from(text);
  Draft out;
  out.screen = value_in<Screen>(kScreens, kept::text(in, "screen"));
  out.session = kept::text(in, "session");
  out.field = field_from(in, "field", "subject");
  out.digits = kept::text(in, "digits");
  out.unit = kept::text(in, "unit", out.unit);
  out.units = from_pairs(kept::texts(in, "units"));
  out.pile = kept::text(in, "pile");
  out.habit = kept::text(in, "habit", out.habit);
  out.count =
      static_cast<unsigned>(std::clamp<std::int64_t>(kept::whole(in, "count", 1), 1, kMostCount));
  out.tub = kept::text(in, "tub");
  out.selected = kept::text(in, "selected");
  out.panel = kept::text(in, "panel");
  out.text = kept::text(in, "text");
  out.text_field = kept::text(in, "text-field");
  out.timer_started_ms = std::max<std::int64_t>(kept::whole(in, "timer-started"), 0);
  out.timer_gathered_ms = std::max<std::int64_t>(kept::whole(in, "timer-gathered"), 0);
  out.new_price = kept::text(in, "new-price");
  out.person = kept::text(in, "person");
  out.held = field_from(in, "held", "held-subject");
  out.aside = from_pairs(kept::texts(in, "aside"));
  out.width = kept::text(in, "width");
  out.long_piece = kept::text(in, "long-piece");
  out.sliced = kept::text(in, "sliced");
  out.scored = from_pairs(kept::texts(in, "scored"));
  const double steps = static_cast<double>(kept::whole(in, "scroll"));
  out.scroll = static_cast<float>(std::clamp(steps, -1e9, 1e9) / kScrollSteps);
  return out;
}

}  // namespace tallyblock
