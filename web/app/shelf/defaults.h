// The piles a new session begins with, and those that can be added with one tap.
//
// Keys and uses are frozen: classes are compared by key. Names come from the catalogue ("pile.<key>")
// when a pile is made, and are the session's own from then on. Roles and uses: common practice, no
// source.
#pragma once
#include <span>
#include <string>
#include <string_view>

#include "cards.h"
#include "core/entries/entry.h"
#include "web/app/host.h"

namespace tallyblock {

struct DefaultPile {
  std::string_view key;
  Role role;
  std::string_view use;  // a known use of body::Pile, or empty
  bool at_start;         // in every new session
};

inline constexpr DefaultPile kDefaultPiles[] = {
    {"portions", Role::primary, "", true},
    {"second-cuts", Role::secondary, "", true},
    {"usable-trim", Role::usable_trim, "", true},
    {"unusable-trim", Role::unusable_trim, "waste", true},
    {"skewers", Role::secondary, "", false},
    {"thin-steaks", Role::secondary, "", false},
    {"stir-fry", Role::secondary, "", false},
    {"grind", Role::usable_trim, "grind", false},
    {"stew", Role::usable_trim, "stew", false},
    {"stock-bones", Role::usable_trim, "stock", false},
    {"fat-to-render", Role::usable_trim, "render", false},
    {"staff-meal", Role::usable_trim, "staff", false},
    {"garnish", Role::usable_trim, "garnish", false},
    {"bones-out", Role::unusable_trim, "waste", false},
};

// The default of that key, or null.
constexpr const DefaultPile* default_pile(std::string_view key) {
  for (const DefaultPile& pile : kDefaultPiles) {
    if (pile.key == key) return &pile;
  }
  return nullptr;
}

// The usual piles of a kind of piece, all in the first step: name "set.<set>.<pile>". Keys, roles and uses are
// those of the default piles where one has the same part. Common practice, no source.
struct PileSet {
  std::string_view key;
  std::span<const DefaultPile> piles;
};
inline constexpr DefaultPile kFourPiles[] = {
    *default_pile("portions"), *default_pile("second-cuts"), *default_pile("usable-trim"),
    *default_pile("unusable-trim")};
inline constexpr DefaultPile kLegPiles[] = {
    *default_pile("portions"), *default_pile("second-cuts"), *default_pile("usable-trim"),
    *default_pile("stock-bones"), *default_pile("unusable-trim")};
inline constexpr DefaultPile kBirdPiles[] = {*default_pile("portions"),
                                             *default_pile("second-cuts"),
                                             {"wings", Role::secondary, "", false},
                                             *default_pile("usable-trim"),
                                             *default_pile("unusable-trim")};
inline constexpr PileSet kPileSets[] = {
    {"loin", kFourPiles}, {"leg", kLegPiles},        {"bird", kBirdPiles}, {"side", kFourPiles},
    {"fish", kFourPiles}, {"shellfish", kFourPiles}, {"root", kFourPiles}, {"leaf", kFourPiles}};
std::string set_name(const PileSet& set, const DefaultPile& pile);

// What the app starts with where nothing was chosen yet. Pounds where they are the custom (US, Liberia,
// Myanmar; NIST and CIA World Factbook, from memory), with a scale that shows tenths of an ounce (common
// practice, no source). Currencies: ISO 4217, from memory; a region that is not listed has euros.
AppSettings settings_for(const Locale& locale);

// Its name in the words of the catalogue.
std::string default_name(const DefaultPile& pile);
body::Pile made_of(const DefaultPile& pile, const std::string& key, const std::string& step);

}  // namespace tallyblock
