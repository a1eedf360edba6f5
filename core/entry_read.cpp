// From stored text to entries: one reader per kind, then the fields all kinds share.
#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "codec.h"
#include "entry_fields.h"

namespace tallyblock {
namespace {

using Fields = FieldReader;

bool is_currency(std::string_view text) {
  return text.size() == 3 &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

template <std::size_t N>
bool is_one_of(const std::array<std::string_view, N>& names, std::string_view text) {
  return std::find(names.begin(), names.end(), text) != names.end();
}

constexpr std::array<std::string_view, 5> kEntryUnits = {"g", "kg", "oz", "lb", "lb-oz"};
constexpr std::array<std::string_view, 4> kPriceUnits = {"g", "kg", "oz", "lb"};
constexpr std::array<std::string_view, 2> kShownPriceUnits = {"kg", "lb"};
constexpr std::array<std::string_view, 2> kDecimalMarks = {".", ","};

// Settings unknown to this code take any value.
bool is_setting(std::string_view key, std::string_view value) {
  if (key == "currency") return is_currency(value);
  if (key == "division") return parse_mass(value, key).ok();
  if (key == "unit") return is_one_of(kEntryUnits, value);
  if (key == "wage") return parse_number(value, key).ok();
  if (key == "loss-limit") return parse_percent(value, key).ok();
  if (key == "tolerance") return value == "imps" || parse_mass(value, key, Sign::zero_or_more).ok();
  if (key == "price-unit") return is_one_of(kShownPriceUnits, value);
  if (key == "decimal-mark") return is_one_of(kDecimalMarks, value);
  return true;
}

Body read_piece(Fields& f) {
  return body::Piece{f.optional_name("name"), f.optional_name("species"), f.optional_name("cut")};
}
Body read_setting(Fields& f) {
  body::Setting setting{f.key("key"), f.name("value")};
  if (!f.problem() && !is_setting(setting.key, setting.value)) {
    f.refuse(Code::file_field_value, "value");
  }
  return setting;
}
Body read_lot(Fields& f) {
  body::Lot lot{f.key("field"), f.name("value")};
  if (!f.problem() && lot.field == "receiving-temperature" &&
      !parse_temperature(lot.value, "value")) {
    f.refuse(Code::file_field_value, "value");
  }
  return lot;
}
Body read_specification(Fields& f) { return body::Specification{f.long_text("text")}; }
Body read_quality(Fields& f) {
  body::Quality quality{f.key("check"), true};
  const std::string result = f.name("result");
  if (!f.problem() && result != "pass" && result != "fail") {
    f.refuse(Code::file_field_value, "result");
  }
  quality.pass = result == "pass";
  return quality;
}
Body read_step(Fields& f) {
  return body::Step{f.key("key"),
                    f.name("name"),
                    f.choice("process", process_from),
                    f.key("from-pile"),
                    f.optional_mass("weight"),
                    f.division()};
}
Body read_pile(Fields& f) {
  return body::Pile{f.key("key"), f.key_or("step", "main"), f.name("name"),
                    f.choice("role", role_from), f.optional_name("use")};
}
Body read_by_difference(Fields& f) { return body::ByDifference{f.key("pile"), f.truth("on")}; }
Body read_incoming(Fields& f) {
  const Incoming which = f.choice("which", incoming_from);
  const bool may_be_nothing = which == Incoming::packaging || which == Incoming::purge;
  return body::IncomingWeight{
      which, f.mass("weight", may_be_nothing ? Sign::zero_or_more : Sign::positive_only),
      f.division(), f.count()};
}
Body read_reading(Fields& f) {
  body::Reading reading;
  reading.pile = f.key("pile");
  reading.habit = f.choice("habit", habit_from);
  reading.weight = f.mass(
      "weight", reading.habit == Habit::taken_off ? Sign::negative_only : Sign::positive_only);
  reading.division = f.division();
  reading.count = f.count();
  reading.tub = f.has("tub") ? f.key("tub") : std::string();
  reading.tare = f.optional_mass("tare", Sign::zero_or_more);
  reading.covers = f.optional_ids("covers");
  reading.cut = f.optional_id("cut");
  reading.sure = f.has("sure") && f.truth("sure");
  return reading;
}
Body read_remainder(Fields& f) {
  return body::Remainder{f.key_or("step", "main"), f.mass("weight", Sign::zero_or_more),
                         f.division()};
}
Body read_checkpoint(Fields& f) {
  return body::Checkpoint{f.key_or("step", "main"), f.name("name"), f.mass("weight"), f.division()};
}
Body read_tub(Fields& f) {
  return body::Tub{f.key("key"), f.name("name"), f.mass("tare", Sign::zero_or_more), f.division()};
}
Body read_move(Fields& f) { return body::Move{f.id("reading"), f.key("to-pile")}; }
Body read_transfer(Fields& f) {
  return body::Transfer{f.key("from-pile"), f.key("to-pile"), f.mass("weight"), f.division()};
}
Body read_price(Fields& f) {
  body::Price price;
  price.of = f.name("of");
  const bool of_pile = price.of.substr(0, 5) == "pile:" && is_key(price.of.substr(5));
  if (price.of != "piece" && price.of != "ready-cut" && !of_pile) {
    f.refuse(Code::file_field_value, "of");
  }
  price.basis = f.choice("basis", price_basis_from);
  price.amount = f.number("amount", [of_pile](std::string_view text, std::string_view field) {
    return parse_number(text, field, of_pile ? Sign::any : Sign::zero_or_more);
  });
  if (f.has("unit") || price.basis == PriceBasis::per_mass) {
    price.unit = f.name("unit");
    if (!is_one_of(kPriceUnits, price.unit)) f.refuse(Code::file_field_value, "unit");
  }
  price.currency = f.name("currency");
  if (!is_currency(price.currency)) f.refuse(Code::file_field_value, "currency");
  price.quoted_yield = f.optional_number("quoted-yield", parse_percent);
  if (price.quoted_yield && price.quoted_yield->value <= 0.0)
    f.refuse(Code::file_field_value, "quoted-yield");
  if (price.of == "ready-cut" && price.basis == PriceBasis::total && f.has("pieces")) {
    price.pieces = static_cast<unsigned>(f.integer("pieces", 1, kMaxCount));
    price.piece_weight = f.optional_mass("piece-weight");
  }
  return price;
}
Body read_labour(Fields& f) {
  constexpr std::int64_t kMostMs = 10000ll * 60 * 1000;
  body::Labour labour{f.optional_number("minutes", parse_minutes),
                      f.optional_integer("measured-ms", 0, kMostMs)};
  if (!labour.minutes && !labour.measured_ms) f.refuse(Code::file_field_missing, "minutes");
  return labour;
}
Body read_target(Fields& f) {
  return body::Target{f.key("pile"), f.mass("weight"),
                      f.optional_mass("tolerance", Sign::zero_or_more)};
}
Body read_eye_call(Fields& f) {
  return body::EyeCall{f.choice("role", role_from), f.number("share", parse_percent)};
}
Body read_cut(Fields& f) {
  return body::Cut{f.key_or("step", "main"), f.optional_length("mark"), f.optional_mass("target"),
                   f.optional_long_text("plan")};
}
Body read_person(Fields& f) { return body::Person{f.name("name")}; }
Body read_note(Fields& f) { return body::Note{f.long_text("text"), f.optional_id("about")}; }
Body read_void(Fields& f) { return body::Void{f.id("target")}; }
Body read_station(Fields& f) {
  body::Station station{f.key_or("step", "main"), f.optional_length("at"), f.length("width"),
                        f.length("depth"), f.optional_number("fill", parse_percent)};
  if (station.fill && station.fill->value < 0.5) f.refuse(Code::file_field_value, "fill");
  return station;
}
Body read_plan_limits(Fields& f) {
  body::PlanLimits limits;
  limits.step = f.key_or("step", "main");
  limits.thickness_min = f.optional_length("thickness-min");
  limits.thickness_max = f.optional_length("thickness-max");
  limits.least = f.optional_length("least");
  limits.trim_front = f.optional_length("trim-front");
  limits.trim_back = f.optional_length("trim-back");
  limits.saw = f.optional_length("saw");
  limits.k_max = f.optional_integer("k-max", 1, 4);
  limits.k_only = f.optional_integer("k-only", 1, 4);
  return limits;
}
Body read_wanted(Fields& f) { return body::Wanted{f.key("pile"), f.count()}; }
Body read_long_piece(Fields& f) {
  return body::LongPiece{
      f.key_or("step", "main"), f.key("key"),     f.integer("of", 1, 4), f.optional_length("from"),
      f.optional_length("to"),  f.mass("weight"), f.division()};
}
Body read_face(Fields& f) {
  return body::Face{f.key_or("step", "main"),
                    f.has("long-piece") ? f.key("long-piece") : std::string(), f.length("width"),
                    f.length("depth")};
}
Body read_cut_closed(Fields& f) { return body::CutClosed{f.id("cut")}; }

struct Kind {
  std::string_view name;
  Body (*read)(Fields&);
};
// One line per kind, as in FORMAT.md.
constexpr Kind kReaders[] = {
    {"piece", read_piece},
    {"setting", read_setting},
    {"lot", read_lot},
    {"specification", read_specification},
    {"quality", read_quality},
    {"step", read_step},
    {"pile", read_pile},
    {"by-difference", read_by_difference},
    {"incoming", read_incoming},
    {"reading", read_reading},
    {"remainder", read_remainder},
    {"checkpoint", read_checkpoint},
    {"tub", read_tub},
    {"move", read_move},
    {"transfer", read_transfer},
    {"price", read_price},
    {"labour", read_labour},
    {"target", read_target},
    {"eye-call", read_eye_call},
    {"cut", read_cut},
    {"person", read_person},
    {"note", read_note},
    {"void", read_void},
    {"station", read_station},
    {"plan-limits", read_plan_limits},
    {"wanted", read_wanted},
    {"long-piece", read_long_piece},
    {"face", read_face},
    {"cut-closed", read_cut_closed},
};

Entry unreadable(Entry entry, std::string kind, const Problem& problem) {
  entry.time = {};
  entry.by.reset();
  entry.replaces.clear();
  entry.body = body::Unknown{std::move(kind), problem};
  return entry;
}

// The body of a known kind, absent for a kind this code does not know.
std::optional<Body> read_body(std::string_view kind, Fields& fields) {
  for (const Kind& known : kReaders) {
    if (known.name == kind) return known.read(fields);
  }
  return std::nullopt;
}

}  // namespace

Result<Entry> entry_from(const Json& object, Strictness strictness) {
  if (object.type != Json::Type::object) return Problem{Code::file_field_type, "entry", {"entry"}};
  Entry entry;
  append_canonical(object, entry.text);
  if (entry.text.size() > kMaxEntryBytes) {
    return Problem{Code::file_too_big,
                   "entry",
                   {std::to_string(entry.text.size()), std::to_string(kMaxEntryBytes)}};
  }
  FieldReader fields(object);
  entry.id = fields.id("id");
  entry.seq =
      static_cast<std::uint64_t>(fields.integer("seq", 1, static_cast<std::int64_t>(kMaxSeq)));
  std::string kind = fields.key("kind");
  if (const auto& problem = fields.problem()) return *problem;
  entry.time.utc_ms = fields.integer("t", 0, kMaxUtcMs);
  entry.time.offset_minutes = static_cast<int>(fields.integer("tz", -kMaxOffset, kMaxOffset));
  entry.by = fields.optional_id("by");
  entry.replaces = fields.optional_ids("replaces");
  std::optional<Body> body = read_body(kind, fields);
  if (const auto& problem = fields.problem()) {
    if (strictness == Strictness::strict) return *problem;
    return unreadable(std::move(entry), std::move(kind), *problem);
  }
  entry.body = body ? *std::move(body) : Body(body::Unknown{std::move(kind), std::nullopt});
  return entry;
}

namespace {

// Two levels less than a file: the entry stands in its list of entries.
Result<Entry> decode(std::string_view text, Strictness strictness) {
  if (text.size() > kMaxEntryBytes) {
    return Problem{
        Code::file_too_big, "entry", {std::to_string(text.size()), std::to_string(kMaxEntryBytes)}};
  }
  const Result<Json> object = parse_json(text, kMaxDepth - 2);
  if (!object) return object.problem();
  return entry_from(*object, strictness);
}

}  // namespace

Result<Entry> decode_entry_strict(std::string_view text) {
  return decode(text, Strictness::strict);
}
Result<Entry> decode_entry_lenient(std::string_view text) {
  return decode(text, Strictness::lenient);
}

Result<Entry> checked(Entry entry) { return decode_entry_strict(sealed(std::move(entry)).text); }

}  // namespace tallyblock
