// From entries to their stored text: the fields all kinds share, then those of the kind.
// A field that says no more than its absence (an empty optional text, a count of 1, the step "main")
// is not written.
#include <string>
#include <utility>

#include "codec.h"
#include "json_text.h"

namespace tallyblock {
namespace {

Json ids_json(const std::vector<EntryId>& ids) {
  Json list = Json::array();
  for (const EntryId& id : ids) list.children.push_back(Json::string(to_text(id)));
  return list;
}

class BodyWriter {
 public:
  explicit BodyWriter(Json& out) : out_(out) {}

  void operator()(const body::Piece& b) {
    optional("name", b.name);
    optional("species", b.species);
    optional("cut", b.cut);
  }
  void operator()(const body::Setting& b) {
    text("key", b.key);
    text("value", b.value);
  }
  void operator()(const body::Lot& b) {
    text("field", b.field);
    text("value", b.value);
  }
  void operator()(const body::Specification& b) { text("text", b.text); }
  void operator()(const body::Quality& b) {
    text("check", b.check);
    text("result", b.pass ? "pass" : "fail");
  }
  void operator()(const body::Step& b) {
    text("key", b.key);
    text("name", b.name);
    text("process", name_of(b.process));
    text("from-pile", b.from_pile);
    if (b.weight) text("weight", b.weight->text);
    optional("division", b.division.text);
  }
  void operator()(const body::Pile& b) {
    text("key", b.key);
    step(b.step);
    text("name", b.name);
    text("role", name_of(b.role));
    optional("use", b.use);
  }
  void operator()(const body::ByDifference& b) {
    text("pile", b.pile);
    out_.set("on", Json::truth(b.on));
  }
  void operator()(const body::IncomingWeight& b) {
    text("which", name_of(b.which));
    weight(b.weight, b.division);
    count(b.count);
  }
  void operator()(const body::Reading& b) {
    text("pile", b.pile);
    text("habit", name_of(b.habit));
    weight(b.weight, b.division);
    count(b.count);
    optional("tub", b.tub);
    if (b.tare) text("tare", b.tare->text);
    if (!b.covers.empty()) out_.set("covers", ids_json(b.covers));
    optional("cut", b.cut);
    if (b.sure) out_.set("sure", Json::truth(true));
  }
  void operator()(const body::Remainder& b) {
    step(b.step);
    weight(b.weight, b.division);
  }
  void operator()(const body::Checkpoint& b) {
    step(b.step);
    text("name", b.name);
    weight(b.weight, b.division);
  }
  void operator()(const body::Tub& b) {
    text("key", b.key);
    text("name", b.name);
    text("tare", b.tare.text);
    optional("division", b.division.text);
  }
  void operator()(const body::Move& b) {
    text("reading", to_text(b.reading));
    text("to-pile", b.to_pile);
  }
  void operator()(const body::Transfer& b) {
    text("from-pile", b.from_pile);
    text("to-pile", b.to_pile);
    weight(b.weight, b.division);
  }
  void operator()(const body::Price& b) {
    text("of", b.of);
    text("basis", name_of(b.basis));
    text("amount", b.amount.text);
    optional("unit", b.unit);
    text("currency", b.currency);
    if (b.quoted_yield) text("quoted-yield", b.quoted_yield->text);
    if (b.pieces) out_.set("pieces", Json::number(*b.pieces));
    if (b.piece_weight) text("piece-weight", b.piece_weight->text);
  }
  void operator()(const body::Labour& b) {
    if (b.minutes) text("minutes", b.minutes->text);
    if (b.measured_ms) out_.set("measured-ms", Json::number(*b.measured_ms));
  }
  void operator()(const body::Target& b) {
    text("pile", b.pile);
    text("weight", b.weight.text);
    if (b.tolerance) text("tolerance", b.tolerance->text);
  }
  void operator()(const body::EyeCall& b) {
    text("role", name_of(b.role));
    text("share", b.share.text);
  }
  void operator()(const body::Cut& b) {
    step(b.step);
    if (b.mark) text("mark", b.mark->text);
    if (b.target) text("target", b.target->text);
    optional("plan", b.plan);
  }
  void operator()(const body::Person& b) { text("name", b.name); }
  void operator()(const body::Note& b) {
    text("text", b.text);
    optional("about", b.about);
  }
  void operator()(const body::Void& b) { text("target", to_text(b.target)); }
  void operator()(const body::Station& b) {
    step(b.step);
    optional("at", b.at);
    text("width", b.width.text);
    text("depth", b.depth.text);
    if (b.fill) text("fill", b.fill->text);
  }
  void operator()(const body::PlanLimits& b) {
    step(b.step);
    optional("thickness-min", b.thickness_min);
    optional("thickness-max", b.thickness_max);
    optional("least", b.least);
    optional("trim-front", b.trim_front);
    optional("trim-back", b.trim_back);
    optional("saw", b.saw);
    if (b.k_max) out_.set("k-max", Json::number(*b.k_max));
    if (b.k_only) out_.set("k-only", Json::number(*b.k_only));
  }
  void operator()(const body::Wanted& b) {
    text("pile", b.pile);
    count(b.count);
  }
  void operator()(const body::LongPiece& b) {
    step(b.step);
    text("key", b.key);
    out_.set("of", Json::number(b.of));
    optional("from", b.from);
    optional("to", b.to);
    weight(b.weight, b.division);
  }
  void operator()(const body::Face& b) {
    step(b.step);
    optional("long-piece", b.long_piece);
    text("width", b.width.text);
    text("depth", b.depth.text);
  }
  void operator()(const body::CutClosed& b) { text("cut", to_text(b.cut)); }
  void operator()(const body::Unknown&) {}

 private:
  void text(std::string_view field, std::string_view value) {
    out_.set(field, Json::string(value));
  }
  void optional(std::string_view field, const std::string& value) {
    if (!value.empty()) text(field, value);
  }
  void optional(std::string_view field, const std::optional<EntryId>& id) {
    if (id) text(field, to_text(*id));
  }
  void optional(std::string_view field, const std::optional<TypedLength>& length) {
    if (length) text(field, length->text);
  }
  void step(const std::string& key) {
    if (key != "main") text("step", key);
  }
  void weight(const TypedMass& mass, const TypedMass& division) {
    text("weight", mass.text);
    optional("division", division.text);
  }
  void count(unsigned pieces) {
    if (pieces != 1) out_.set("count", Json::number(pieces));
  }

  Json& out_;
};

}  // namespace

int minor_of(const Entry& entry) {
  const Body& held = entry.body;
  const auto* price = std::get_if<body::Price>(&held);
  if (price != nullptr && price->pieces) return 3;
  const auto* reading = std::get_if<body::Reading>(&held);
  if (reading != nullptr && reading->sure) return 3;
  if (std::holds_alternative<body::CutClosed>(held)) return 2;
  const bool later = std::holds_alternative<body::Station>(held) ||
                     std::holds_alternative<body::PlanLimits>(held) ||
                     std::holds_alternative<body::Wanted>(held) ||
                     std::holds_alternative<body::LongPiece>(held) ||
                     std::holds_alternative<body::Face>(held);
  return later ? 1 : 0;
}

Entry sealed(Entry entry) {
  // An entry this code cannot write keeps the text it came with.
  if (std::holds_alternative<body::Unknown>(entry.body) && !entry.text.empty()) return entry;
  Json object = Json::object();
  object.set("id", Json::string(to_text(entry.id)));
  object.set("seq", Json::number(static_cast<std::int64_t>(entry.seq)));
  object.set("t", Json::number(entry.time.utc_ms));
  object.set("tz", Json::number(entry.time.offset_minutes));
  object.set("kind", Json::string(kind_name(entry.body)));
  if (entry.by) object.set("by", Json::string(to_text(*entry.by)));
  if (!entry.replaces.empty()) object.set("replaces", ids_json(entry.replaces));
  std::visit(BodyWriter(object), entry.body);
  entry.text = canonical_text(object);
  return entry;
}

}  // namespace tallyblock
