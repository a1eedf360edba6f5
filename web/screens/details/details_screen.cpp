// Everything about the session that is not a weight on a pile.
#include <array>
#include <string_view>

#include "details_parts.h"
#include "web/screens/beginning.h"
#include "web/screens/choices.h"
#include "web/screens/judging.h"
#include "web/screens/price_fields.h"
#include "web/screens/screen_list.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

constexpr std::array<std::string_view, 4> kLot = {"lot", "pack-date", "establishment", "supplier"};

std::string shown(const std::optional<Measured>& weight, const show::Style& style) {
  return weight ? show::mass(weight->value(), style) : std::string();
}

// What is rarer at the board, and what is done with the piece as a whole.
void acts(Ui& ui) {
  auto grid = ui.kit.grid(2, 144);
  const auto at_board = [&](const char* path, std::string_view words, const char* panel,
                            const Field& field) {
    const std::string means =
        field.kind == FieldKind::none ? "" : say(std::string(words) + "-means");
    if (!ui.kit.button(path, say(words), {.detail = means})) return;
    ask::go(ui.app, Screen::weigh);
    if (field.kind != FieldKind::none) ask::edit(ui.app, field);
    ask::open_panel(ui.app, panel);
  };
  at_board("details/readings", "weigh.readings", "readings", {});
  at_board("details/new-pile", "weigh.new-pile", "pile", {});
  at_board("weigh/remainder", "weigh.remainder", "", {FieldKind::remainder, "main"});
  at_board("weigh/checkpoint", "weigh.checkpoint", "", {FieldKind::checkpoint, "main"});
  if (ui.kit.button("details/again", say("share.same-again")))
    begin_again(ui, ui.app.session()->id);
  if (ui.kit.button("go.share", say("go.share"))) ask::go(ui.app, Screen::share);
  if (ui.kit.button("go.settings", say("go.settings"))) ask::go(ui.app, Screen::settings);
}

void piece(Ui& ui) {
  ui.kit.heading(say("details.piece"), 2);
  auto grid = ui.kit.grid(3, 200);
  text_field(ui, "piece", "details.name", "weigh.what-hint");
  text_field(ui, "species", "details.species", "details.species-hint");
  text_field(ui, "cut", "details.cut", "details.cut-hint");
}

// Prices and labour are asked for on the result too; who prepares looks here.
void price(Ui& ui) {
  ui.kit.heading(say("details.costs"), 2);
  price_fields(ui);
  ready_cut_fields(ui);
  work_fields(ui);
  auto grid = ui.kit.grid(2, 144);
  for (const PileFigures& pile : ui.figures().piles) {
    if (pile.role == Role::primary) target_fields(ui, pile);
  }
}

// What is seldom needed stays folded.
bool part_unfolded(Ui& ui, const std::string& part) {
  const std::string panel = "part:" + part, detail = say("details." + part + "-what");
  return unfolded(ui, "details/" + panel, panel, say("details." + part), {.detail = detail});
}

void incoming(Ui& ui) {
  const IncomingFigures& in = ui.figures().incoming;
  auto grid = ui.kit.grid(3, 144);
  field(ui, {FieldKind::invoice, ""}, shown(in.invoice, ui.style));
  field(ui, {FieldKind::received, ""}, shown(in.received, ui.style));
  field(ui, {FieldKind::drained, ""}, shown(in.drained, ui.style));
  field(ui, {FieldKind::packaging, ""}, shown(in.packaging, ui.style));
  field(ui, {FieldKind::purge, ""}, shown(in.purge, ui.style));
}

void lot(Ui& ui) {
  auto grid = ui.kit.grid(2, 200);
  for (const std::string_view key : kLot) {
    text_field(ui, "lot:" + std::string(key), "details.lot-" + std::string(key));
  }
  const auto found = ui.figures().lot.find("receiving-temperature");
  std::string temperature = found == ui.figures().lot.end() ? std::string() : found->second;
  // Of an imported file it may be any text.
  if (parse_temperature(temperature, "lot")) temperature = show::typed(temperature, ui.style);
  field(ui, {FieldKind::receiving_temperature, ""}, temperature);
}

void people(Ui& ui) {
  const Figures& f = ui.figures();
  ui.kit.heading(say("details.people"), 2);
  ui.kit.paragraph(say("details.people-what"), Tone::quiet);
  for (const PersonLine& person : f.people) {
    const bool now = ui.app.keypad().person() == person.id;
    if (ui.kit.button("details/person/" + to_text(person.id), person.name,
                      {.detail = now ? say("details.cutting-now") : say("details.takes-over"),
                       .pressed = now})) {
      ask::set_person(ui.app, person.id);
    }
  }
  text_field(ui, "person", "details.new-person", "details.new-person-hint");
}

void notes(Ui& ui) {
  ui.kit.heading(say("details.notes"), 2);
  std::size_t at = 0;
  const std::string out = say("weigh.take-out");
  for (const NoteLine& note : ui.figures().notes) {
    const std::string what = note.next ? say("details.next") : std::string();
    ListRowOptions options;
    options.action = out;
    options.detail = what;
    if (ui.kit.list_row("details/note/" + std::to_string(++at), note.text, options) ==
        RowTap::action) {
      ask::void_entry(ui.app, note.id);
    }
  }
  text_field(ui, "note", "details.new-note", "details.new-note-hint", true);
  text_field(ui, "next", "details.next", "details.next-hint", true);
}

void session_settings(Ui& ui) {
  const Settings& now = ui.figures().settings;
  const auto choose = [&](const char* key, std::string_view words,
                          std::span<const std::string_view> values, const std::string& value) {
    const std::string picked =
        setting_choice(ui, std::string("details/setting/") + key, words, values, value);
    if (!picked.empty()) ask::set_session_setting(ui.app, key, picked);
  };
  choose("unit", "settings.unit", kUnits, now.unit);
  choose("price-unit", "settings.price-unit", kPriceUnits, now.price_unit);
  choose("currency", "settings.currency", kCurrencies, now.currency);
  auto grid = ui.kit.grid(3, 144);
  field(ui, {FieldKind::division, ""}, show::typed(now.division.text, ui.style));
  field(ui, {FieldKind::loss_limit, ""}, show::percent(now.loss_limit, ui.style));
}

void body_of_details(Ui& ui) {
  auto body = ui.kit.scroll("details/body");
  auto measure = ui.kit.measure();
  acts(ui);
  piece(ui);
  price(ui);
  piles_part(ui);
  tubs_part(ui);
  people(ui);
  notes(ui);
  ui.kit.heading(say("details.more"), 2);
  if (part_unfolded(ui, "incoming")) incoming(ui);
  if (part_unfolded(ui, "trim")) trim_and_quality(ui);
  if (part_unfolded(ui, "lot")) lot(ui);
  if (part_unfolded(ui, "settings")) session_settings(ui);
}

}  // namespace

void details_screen(Ui& ui) {
  top(ui, title_of(ui.figures()), "details/title");
  warnings(ui);
  over_keypad(ui, body_of_details);
}

}  // namespace tallyblock
