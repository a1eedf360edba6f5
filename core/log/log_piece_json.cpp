#include "log_piece_json.h"

#include <cmath>
#include <limits>
#include <span>

#include "core/base/decimal.h"
#include "core/json/json_text.h"

namespace tallyblock {
namespace {

constexpr int kDepth = 4;
constexpr std::size_t kMostPiles = 5000;
constexpr int kMostOffset = 14 * 60;
constexpr std::int64_t kMostInLog = kMaxCounter;

// The fewest digits that read back as the same double.
Json number_json(double value) {
  Json out;
  out.type = Json::Type::number;
  out.text = "0";
  if (value == 0.0 || !std::isfinite(value)) return out;
  for (int digits = 15; digits <= std::numeric_limits<double>::max_digits10; ++digits) {
    out.text = general_digits(value, digits);
    if (read_decimal(out.text).value == value) break;
  }
  return out;
}

std::optional<double> number_from(const Json& json) {
  if (json.type == Json::Type::integer) return static_cast<double>(json.integer);
  if (json.type != Json::Type::number) return std::nullopt;
  const ReadDecimal read = read_decimal(json.text);
  const bool whole = read.used == json.text.size() && std::isfinite(read.value);
  return whole ? std::optional(read.value) : std::nullopt;
}

double in_plain(double value) { return value; }
double in_plain(Mass value) { return value.in_grams(); }
double in_plain(Money value) { return value.in_units(); }
double in_plain(PricePerMass value) { return value.per(MassUnit::gram); }
void from_plain(double plain, double& value) { value = plain; }
void from_plain(double plain, Mass& value) { value = Mass::grams(plain); }
void from_plain(double plain, Money& value) { value = Money::units(plain); }
void from_plain(double plain, PricePerMass& value) {
  value = PricePerMass::of(Money::units(plain), MassUnit::gram);
}

// Each member of a piece by its name, in the order of the page above.
template <class Fields, class Piece>
void log_piece_fields(Fields& f, Piece& piece) {
  f.text("n", piece.name);
  f.text("sp", piece.specification);
  f.text("cu", piece.currency);
  f.text("ck", piece.cook);
  f.text("nx", piece.next);
  f.flag("st", piece.start);
  f.flag("cf", piece.count_fixed);
  f.figure("b", piece.board);
  f.figure("mi", piece.missing);
  f.weight("u", piece.usable);
  f.weight("w", piece.waste);
  f.weight("p", piece.prime);
  f.weight("pr", piece.primary);
  f.weight("uu", piece.usable_u);
  f.weight("wu", piece.waste_u);
  f.weight("pu", piece.prime_u);
  f.figure("bo", piece.bought);
  f.figure("co", piece.cost);
  f.figure("cp", piece.cost_per_portions);
  f.figure("mn", piece.minutes);
  f.figure("la", piece.labour);
}

class LogPieceWriter {
 public:
  explicit LogPieceWriter(Json& out) : out_(out) {}
  void text(std::string_view key, const std::string& value) {
    if (!value.empty()) out_.set(key, Json::string(value));
  }
  void flag(std::string_view key, bool value) {
    if (value) out_.set(key, Json::truth(true));
  }
  template <class Value>
  void figure(std::string_view key, const std::optional<Value>& value) {
    if (value) out_.set(key, number_json(in_plain(*value)));
  }
  template <class Value>
  void weight(std::string_view key, const Value& value) {
    if (in_plain(value) != 0.0) out_.set(key, number_json(in_plain(value)));
  }

 private:
  Json& out_;
};

class LogPieceReader {
 public:
  explicit LogPieceReader(const Json& in) : in_(in) {}
  bool good() const { return good_; }

  void text(std::string_view key, std::string& value) {
    const Json* found = in_.member(key);
    if (found == nullptr) return;
    good_ &= found->type == Json::Type::string;
    value = found->text;
  }
  void flag(std::string_view key, bool& value) {
    const Json* found = in_.member(key);
    if (found == nullptr) return;
    good_ &= found->type == Json::Type::boolean;
    value = found->integer != 0;
  }
  template <class Value>
  void figure(std::string_view key, std::optional<Value>& value) {
    if (in_.member(key) != nullptr) weight(key, value.emplace());
  }
  template <class Value>
  void weight(std::string_view key, Value& value) {
    const Json* found = in_.member(key);
    if (found == nullptr) return;
    const auto number = number_from(*found);
    good_ &= number.has_value();
    from_plain(number.value_or(0.0), value);
  }
  std::int64_t whole(std::string_view key, std::int64_t least, std::int64_t most) {
    const Json* found = in_.member(key);
    const bool there = found != nullptr && found->type == Json::Type::integer &&
                       found->integer >= least && found->integer <= most;
    good_ &= there;
    return there ? found->integer : least;
  }
  // The elements of a list of `least` to `most`; without the member none.
  std::span<const Json> list(std::string_view key, std::size_t least, std::size_t most) {
    const Json* found = in_.member(key);
    if (found == nullptr) return {};
    const std::size_t size = found->children.size();
    const bool fits = found->type == Json::Type::array && size >= least && size <= most;
    good_ &= fits;
    return fits ? std::span<const Json>(found->children) : std::span<const Json>();
  }
  void refuse() { good_ = false; }

 private:
  const Json& in_;
  bool good_ = true;
};

Json pile_json(const LogPile& pile) {
  Json out = Json::array();
  out.children = {Json::string(pile.key), Json::string(pile.name), Json::string(name_of(pile.role)),
                  number_json(pile.share)};
  if (pile.value) out.children.push_back(number_json(in_plain(*pile.value)));
  return out;
}

std::optional<LogPile> pile_from(const Json& json) {
  const std::vector<Json>& parts = json.children;
  if (json.type != Json::Type::array || parts.size() < 4 || parts.size() > 5) return std::nullopt;
  for (std::size_t i = 0; i < 3; ++i) {
    if (parts[i].type != Json::Type::string) return std::nullopt;
  }
  const auto role = role_from(parts[2].text);
  const auto share = number_from(parts[3]);
  if (!is_key(parts[0].text) || !role || !share) return std::nullopt;
  LogPile out{parts[0].text, parts[1].text, *role, *share, {}};
  if (parts.size() == 5) {
    const auto value = number_from(parts[4]);
    if (!value) return std::nullopt;
    from_plain(*value, out.value.emplace());
  }
  return out;
}

Json numbers_json(const std::vector<double>& numbers) {
  Json out = Json::array();
  for (const double each : numbers) out.children.push_back(number_json(each));
  return out;
}

std::vector<double> numbers_from(LogPieceReader& in, std::string_view key, std::size_t least,
                                 std::size_t most) {
  std::vector<double> out;
  for (const Json& each : in.list(key, least, most)) {
    const auto number = number_from(each);
    if (!number) in.refuse();
    out.push_back(number.value_or(0.0));
  }
  return out;
}

std::optional<std::size_t> counted(double number) {
  const bool fits =
      number >= 0.0 && number <= static_cast<double>(kMostInLog) && number == std::floor(number);
  return fits ? std::optional(static_cast<std::size_t>(number)) : std::nullopt;
}

void put_lists(const LogPiece& piece, Json& out) {
  if (!piece.piles.empty()) {
    Json piles = Json::array();
    for (const LogPile& pile : piece.piles) piles.children.push_back(pile_json(pile));
    out.set("pl", std::move(piles));
  }
  if (const auto& p = piece.portions) {
    std::vector<double> numbers = {static_cast<double>(p->n), static_cast<double>(p->within),
                                   p->target.in_grams(), p->mean.in_grams()};
    if (p->s) numbers.push_back(p->s->in_grams());
    out.set("po", numbers_json(numbers));
  }
  if (const auto& eye = piece.eye_call) {
    std::vector<double> numbers(eye->called.begin(), eye->called.end());
    numbers.insert(numbers.end(), {eye->error, eye->bias});
    out.set("ey", numbers_json(numbers));
  }
}

void take_lists(LogPieceReader& in, LogPiece& piece) {
  for (const Json& each : in.list("pl", 1, kMostPiles)) {
    auto pile = pile_from(each);
    if (!pile) return in.refuse();
    piece.piles.push_back(std::move(*pile));
  }
  if (const auto po = numbers_from(in, "po", 4, 5); po.size() >= 4) {
    const auto n = counted(po[0]), within = counted(po[1]);
    if (!n || !within) return in.refuse();
    piece.portions = LogPortions{*n, *within, Mass::grams(po[2]), Mass::grams(po[3]), {}};
    if (po.size() == 5) piece.portions->s = Mass::grams(po[4]);
  }
  if (const auto ey = numbers_from(in, "ey", 6, 6); ey.size() == 6) {
    piece.eye_call = LogEyeCall{{ey[0], ey[1], ey[2], ey[3]}, ey[4], ey[5]};
  }
}

}  // namespace

std::string log_piece_to_json(const LogPiece& piece) {
  Json out = Json::object();
  out.set("v", Json::number(kLogPieceVersion));
  out.set("s", Json::string(piece.session));
  if (piece.line != piece.session) out.set("l", Json::string(piece.line));
  out.set("t", Json::number(piece.first.utc_ms));
  out.set("tz", Json::number(piece.first.offset_minutes));
  out.set("m", Json::number(static_cast<std::int64_t>(piece.mark)));
  out.set("pc", Json::number(piece.pieces));
  LogPieceWriter writer(out);
  writer.flag("cl", !piece.open);
  log_piece_fields(writer, piece);
  put_lists(piece, out);
  return canonical_text(out);
}

std::optional<LogPiece> log_piece_from_json(std::string_view text) {
  if (text.size() > kMaxLogPieceBytes) return std::nullopt;
  const Result<Json> json = parse_json(text, kDepth);
  if (!json || json->type != Json::Type::object) return std::nullopt;
  LogPieceReader in(*json);
  in.whole("v", kLogPieceVersion, kLogPieceVersion);
  LogPiece piece;
  in.text("s", piece.session);
  piece.line = piece.session;
  in.text("l", piece.line);
  if (!is_drawn_id(piece.session, kSessionIdLength) || !is_key(piece.line)) return std::nullopt;
  piece.first.utc_ms = in.whole("t", 0, kMaxUtcMs);
  piece.first.offset_minutes = static_cast<int>(in.whole("tz", -kMostOffset, kMostOffset));
  piece.mark = static_cast<LogMark>(in.whole("m", 0, static_cast<std::int64_t>(LogMark::solid)));
  piece.pieces = static_cast<unsigned>(in.whole("pc", 1, kMostInLog));
  bool closed = false;
  in.flag("cl", closed);
  piece.open = !closed;
  log_piece_fields(in, piece);
  take_lists(in, piece);
  return in.good() ? std::optional(std::move(piece)) : std::nullopt;
}

}  // namespace tallyblock
