// Settings of the device, of new pieces, and of one piece.
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kSettingsWords[] = {
    {"settings.title", "Settings"},
    {"settings.device", "On this device"},
    {"settings.theme", "Light or dark"},
    {"settings.theme.system", "As the device"},
    {"settings.theme.light", "Light"},
    {"settings.theme.dark", "Dark"},
    {"settings.hand", "Keypad when the screen is wide"},
    {"settings.hand.right", "Right hand"},
    {"settings.hand.left", "Left hand"},
    {"settings.person", "Your name"},
    {"settings.person-hint", "Each new piece starts with it; leave empty for none"},
    {"settings.date", "Dates as"},
    {"settings.date.day-first", "25 Nov 2026"},
    {"settings.date.month-first", "Nov 25, 2026"},
    {"settings.clock", "Time as"},
    {"settings.clock.24", "14:30"},
    {"settings.clock.12", "2:30 pm"},
    {"settings.defaults", "New pieces start with"},
    {"settings.defaults-what",
     "Copied into each new piece. Pieces already started keep what they have."},
    {"settings.unit", "Weights in"},
    {"settings.unit.g", "Grams"},
    {"settings.unit.kg", "Kilograms"},
    {"settings.unit.oz", "Ounces"},
    {"settings.unit.lb", "Pounds"},
    {"settings.unit.lb-oz", "Pounds and ounces"},
    {"settings.price-unit", "Prices per"},
    {"settings.price-unit.kg", "Kilogram"},
    {"settings.price-unit.lb", "Pound"},
    {"settings.currency", "Currency"},
    {"settings.other-currency", "Another currency"},
    {"settings.other-currency-hint", "Its three letters, like SEK"},
    {"settings.currency.EUR", "€ euro"},
    {"settings.currency.USD", "$ US dollar"},
    {"settings.currency.GBP", "£ pound"},
    {"settings.currency.CHF", "CHF franc"},
    {"settings.currency.CAD", "CAD dollar"},
    {"settings.currency.AUD", "AUD dollar"},
    {"settings.decimal-mark", "Decimal mark"},
    {"settings.decimal-mark..", "Point, 1.5"},
    {"settings.decimal-mark.,", "Comma, 1,5"},
};

}  // namespace tallyblock
