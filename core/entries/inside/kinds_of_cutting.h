// The kinds of entries about where to put the knife, as kinds.h describes the others; included by it.
#pragma once
#include "core/entries/kinds.h"

namespace tallyblock {

template <>
struct Kind<body::Station> : AdditiveOf<1> {
  static constexpr std::string_view name = "station";
  static void fields(auto& f, auto& b) {
    f.step(b.step);
    f.optional_length("at", b.at);
    f.length("width", b.width);
    f.length("depth", b.depth);
    f.optional_percent("fill", b.fill);
    f.must("fill", [&] { return !b.fill || b.fill->value >= 0.5; });
  }
};
template <>
struct Kind<body::PlanLimits> : FactOf<1, 1> {
  static constexpr std::string_view name = "plan-limits";
  static void fields(auto& f, auto& b) {
    f.step(b.step);
    f.optional_length("thickness-min", b.thickness_min);
    f.optional_length("thickness-max", b.thickness_max);
    f.optional_length("least", b.least);
    f.optional_length("trim-front", b.trim_front);
    f.optional_length("trim-back", b.trim_back);
    f.optional_length("saw", b.saw);
    f.optional_integer("k-max", b.k_max, 1, 4);
    f.optional_integer("k-only", b.k_only, 1, 4);
  }
};
template <>
struct Kind<body::Wanted> : FactOf<1, 1> {
  static constexpr std::string_view name = "wanted";
  static void fields(auto& f, auto& b) {
    f.pile_ever("pile", b.pile);
    f.count(b.count);
  }
};
template <>
struct Kind<body::LongPiece> : FactOf<2, 1> {
  static constexpr std::string_view name = "long-piece";
  static void fields(auto& f, auto& b) {
    f.step(b.step);
    f.key("key", b.key);
    f.integer("of", b.of, 1, 4);
    f.optional_length("from", b.from);
    f.optional_length("to", b.to);
    f.mass("weight", b.weight);
    f.division(b.division);
  }
};
template <>
struct Kind<body::Face> : AdditiveOf<1> {
  static constexpr std::string_view name = "face";
  static void fields(auto& f, auto& b) {
    f.step(b.step);
    f.optional_key("long-piece", b.long_piece);
    f.length("width", b.width);
    f.length("depth", b.depth);
  }
};
template <>
struct Kind<body::CutClosed> : AdditiveOf<2> {
  static constexpr std::string_view name = "cut-closed";
  static void fields(auto& f, auto& b) { f.entry("cut", "cut", b.cut); }
};

}  // namespace tallyblock
