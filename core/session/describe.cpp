#include <algorithm>

#include "core/base/rounding.h"
#include "core/base/sorted.h"
#include "facts.h"

namespace tallyblock {
namespace {

void take_setting(const body::Setting& setting, Settings& to) {
  to.all[setting.key] = setting.value;
  if (setting.key == "currency") to.currency = setting.value;
  if (setting.key == "unit") to.unit = setting.value;
  if (setting.key == "price-unit") to.price_unit = setting.value == "lb" ? "lb" : "kg";
  if (setting.key == "loss-limit") {
    if (auto share = parse_percent(setting.value, "loss-limit")) to.loss_limit = share->value;
  }
  if (setting.key == "wage") {
    if (auto wage = parse_number(setting.value, "wage"))
      to.wage_per_hour = Money::units(wage->value);
  }
}

// Position of the first entry, not void, that spoke of a tub: a renamed tub keeps its place.
std::map<std::string, std::size_t> first_places(const Facts& facts) {
  std::map<std::string, std::size_t> places;
  std::size_t place = 0;
  for (const Entry* entry : facts.in_order()) {
    ++place;
    const auto* tub = std::get_if<body::Tub>(&entry->body);
    if (tub != nullptr && !facts.live().is_void(entry->id)) places.try_emplace(tub->key, place);
  }
  return places;
}

void list_tubs(const Facts& facts, Figures& figures) {
  const auto places = first_places(facts);
  std::vector<std::pair<std::size_t, const Entry*>> found;
  for (const Entry* entry : facts.winners("tub:"))
    if (const auto* tub = std::get_if<body::Tub>(&entry->body))
      found.emplace_back(places.at(tub->key), entry);
  heap_sort(found, [](const auto& a, const auto& b) { return a.first < b.first; });
  for (const auto& [place, entry] : found) {
    if (const auto* tub = std::get_if<body::Tub>(&entry->body))
      figures.tubs.push_back({tub->key, tub->name, tub->tare, entry->id});
  }
}

void list_people_and_notes(const Facts& facts, Figures& figures) {
  for (const Entry* entry : facts.counted()) {
    if (const auto* person = std::get_if<body::Person>(&entry->body))
      figures.people.push_back(
          {entry->replaces.empty() ? entry->id : entry->replaces.front(), person->name});
    if (const auto* note = std::get_if<body::Note>(&entry->body))
      figures.notes.push_back({entry->id, note->text, note->about, note->next});
  }
}

}  // namespace

void describe(const Facts& facts, Figures& figures) {
  figures.entry_count = facts.set().size();
  figures.settings.division = facts.usual_division();
  if (const auto* price = facts.find<body::Price>("price:piece"))
    if (!price->currency.empty()) figures.settings.currency = price->currency;
  for (const Entry* entry : facts.winners("setting:"))
    if (const auto* setting = std::get_if<body::Setting>(&entry->body))
      take_setting(*setting, figures.settings);
  if (const auto* piece = facts.find<body::Piece>("piece")) {
    figures.piece = piece->name;
    figures.species = piece->species;
    figures.cut = piece->cut;
  }
  for (const Entry* entry : facts.winners("lot:"))
    if (const auto* lot = std::get_if<body::Lot>(&entry->body))
      figures.lot[lot->field] = lot->value;
  if (const auto* specification = facts.find<body::Specification>("specification"))
    figures.specification = specification->text;
  for (const Entry* entry : facts.winners("quality:"))
    if (const auto* quality = std::get_if<body::Quality>(&entry->body))
      figures.quality[quality->check] = quality->pass;
  list_tubs(facts, figures);
  list_people_and_notes(facts, figures);
}

WeightStyle style_named(std::string_view unit) {
  if (unit == "kg") return WeightStyle::kilograms;
  if (unit == "oz") return WeightStyle::ounces;
  if (unit == "lb") return WeightStyle::pounds;
  if (unit == "lb-oz") return WeightStyle::pounds_ounces;
  return WeightStyle::grams;
}

std::string shown_mass(Mass mass, WeightStyle style) {
  switch (style) {
    case WeightStyle::kilograms: return mass_text(mass, style, 3);
    case WeightStyle::pounds: return mass_text(mass, style, 2);
    case WeightStyle::ounces:
    case WeightStyle::pounds_ounces: return mass_text(mass, style, 1);
    case WeightStyle::grams: break;
  }
  const bool small = mass < Mass::grams(10.0) && mass > Mass::grams(-10.0);
  return mass_text(mass, style, small ? 1 : 0);
}

std::string shown_mass(Mass mass, const Settings& settings) {
  return shown_mass(mass, style_named(settings.unit));
}

std::string text_of(const Arg& arg, const Settings& settings) {
  switch (arg.kind()) {
    case Arg::Kind::count:
    case Arg::Kind::number: return fixed_text(arg.value(), arg.decimals());
    case Arg::Kind::share: return fixed_text(100.0 * arg.value(), arg.decimals()) + " %";
    case Arg::Kind::minutes: return fixed_text(arg.value(), arg.decimals()) + " min";
    case Arg::Kind::celsius: return fixed_text(arg.value(), arg.decimals()) + " C";
    case Arg::Kind::mass: return shown_mass(arg.mass(), settings);
    case Arg::Kind::length: return fixed_text(arg.value(), arg.decimals()) + " mm";
    case Arg::Kind::money: return fixed_text(round_half_up(arg.value(), 2), 2);
    case Arg::Kind::word: return arg.text().substr(arg.text().find('.') + 1);
    case Arg::Kind::piece: return "main";
    case Arg::Kind::typed:
    case Arg::Kind::name:
    case Arg::Kind::code:
    case Arg::Kind::fact: break;
  }
  return arg.text();
}

}  // namespace tallyblock
