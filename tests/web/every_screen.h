// Every screen with something in it, in every size, and the rules that each of them keeps: targets, fit,
// contrast, key figures, reading order. Limits: WCAG 2.2, success criteria 1.4.6 (contrast 7 : 1), 1.4.11
// (shapes 3 : 1, palette_test.cpp), 2.5.8 and 2.5.5 (targets; 48 px is ours).
#pragma once
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <set>
#include <string>
#include <string_view>

#include "app_stage.h"
#include "board.h"

namespace tallyblock::test {

struct View {
  const char* name;
  float w, h, ratio, text;
  bool dark;
};
inline constexpr View views[] = {
    {"phone", 360, 640, 2, 1, false},         {"phone-dark", 360, 640, 2, 1, true},
    {"phone-large", 360, 640, 2, 2, false},   {"lying", 640, 360, 2, 1, false},
    {"lying-dark", 640, 360, 2, 1, true},     {"lying-large", 640, 360, 1.5F, 2, false},
    {"tablet", 1024, 768, 1, 1, false},       {"tablet-dark", 1024, 768, 1, 1, true},
    {"tablet-large", 1024, 768, 1, 2, false}, {"wall", 1920, 1080, 1, 1, false},
    {"phone-tall", 390, 844, 2, 1, false},    {"phone-least", 320, 568, 2, 1, false},
    {"lying-long", 844, 390, 2, 1, false},    {"tablet-tall", 768, 1024, 1, 1, false}};

struct Place {
  const char* name;
  Screen screen;
  const char* panel;
  Field field;
  const char* digits;
  bool readings;       // false: a piece that was only weighed in
  int blocks = -1;     // a loin measured, and so many blocks cut
  bool pieces = true;  // false: there is none yet
};
inline const Place places[] = {
    {"sessions", Screen::sessions, "", {}, "", true},
    {"sessions-in-work", Screen::sessions, "", {}, "", false, 3},
    {"sessions-first", Screen::sessions, "", {}, "", true, -1, false},
    {"sessions-caution", Screen::sessions, "caution:new", {}, "", true, -1, false},
    {"weigh", Screen::weigh, "", {FieldKind::reading, ""}, "", true},
    {"weigh-typing", Screen::weigh, "", {FieldKind::reading, ""}, "1234", true},
    {"weigh-in", Screen::weigh, "", {FieldKind::drained, ""}, "34", false},
    {"weigh-checkpoint", Screen::weigh, "", {FieldKind::checkpoint, "main"}, "190", true},
    {"weigh-how", Screen::weigh, "how", {FieldKind::reading, ""}, "", true},
    {"weigh-count", Screen::weigh, "count", {FieldKind::reading, ""}, "1234", true},
    {"weigh-readings", Screen::weigh, "readings", {FieldKind::reading, ""}, "", true},
    {"weigh-pile", Screen::weigh, "pile", {FieldKind::reading, ""}, "", true},
    {"result", Screen::result, "", {}, "", true},
    {"result-slab", Screen::result, "slab:portions", {}, "", true},
    {"result-price", Screen::result, "", {FieldKind::ready_cut, ""}, "31.5", true},
    {"result-empty", Screen::result, "", {}, "", false},
    {"result-costs", Screen::result, "chapter:costs", {}, "", true},
    {"result-buy", Screen::result, "chapter:buy", {}, "", true},
    {"result-portions", Screen::result, "chapter:portions", {}, "", true},
    {"result-loss", Screen::result, "chapter:loss", {}, "", true},
    {"result-quality", Screen::result, "chapter:quality", {}, "", true},
    {"result-all", Screen::result, "chapter:all", {}, "", true},
    {"result-asked", Screen::result, "chapter:costs", {}, "", false},
    {"result-left", Screen::result, "", {}, "", false, 3},
    {"result-left-costs", Screen::result, "chapter:costs", {}, "", false, 3},
    {"details", Screen::details, "", {}, "", true},
    {"details-portions", Screen::details, "pile:portions", {}, "", true},
    {"details-trim-pile", Screen::details, "pile:usable-trim", {}, "", true},
    {"details-arrival", Screen::details, "part:incoming", {}, "", true},
    {"details-trim", Screen::details, "part:trim", {}, "", true},
    {"details-lot", Screen::details, "part:lot", {}, "", true},
    {"details-settings", Screen::details, "part:settings", {}, "", true},
    {"log", Screen::log, "", {}, "", true},
    {"log-line", Screen::log, "samp1evea10000000005", {}, "", true},
    {"log-piece", Screen::log, "samp1evea10000000005 portions samp1evea10000000007", {}, "", true},
    {"log-cost", Screen::log, "samp1evea10000000005 cost", {}, "", true},
    {"log-changed",
     Screen::log,
     "samp1evea10000000005 cost samp1evea10000000008 changed",
     {},
     "",
     true},
    {"share", Screen::share, "", {}, "", true},
    {"settings", Screen::settings, "", {}, "", true},
    {"bin", Screen::bin, "", {}, "", true},
    {"about", Screen::about, "", {}, "", true},
    {"cut-first", Screen::cut, "measure", {}, "", false},
    {"cut-length", Screen::cut, "measure", {FieldKind::length, "piece"}, "60", false},
    {"cut-measure", Screen::cut, "measure", {}, "", false, 0},
    {"cut-station", Screen::cut, "measure", {FieldKind::length, "width:600 mm"}, "11", false, 0},
    {"cut-plan", Screen::cut, "plan", {}, "", false, 0},
    {"cut-split", Screen::cut, "guide", {}, "", false, 0},
    {"cut-guide", Screen::cut, "guide", {FieldKind::block, ""}, "", false, 0},
    {"cut-guide-on", Screen::cut, "guide", {FieldKind::block, ""}, "", false, 3},
    {"cut-guide-typing", Screen::cut, "guide", {FieldKind::block, ""}, "17", false, 3}};

// Blocks a little off, the last one too heavy.
inline void cut(AppStage& at, int blocks) {
  measure_loin(at.rig);
  if (blocks == 0) return;
  at.go(Screen::cut, "guide");
  ask::edit(at.app(), {FieldKind::block, ""});
  for (int i = 0; i < blocks; ++i) {
    at.settle();
    ask::set_count(at.app(), 4);
    answer(at.rig, i + 1 == blocks ? "420" : "365");
  }
}

inline void show(AppStage& at, const View& v, const Place& place, const std::string& mark = ".") {
  at.stage.size(v.w, v.h, v.ratio, v.text);
  at.stage.in.dark = v.dark;
  at.stage.in.reduced_motion = true;
  ask::caution_read(at.app());
  ask::set_setting(at.app(), "decimal-mark", mark);
  if (place.pieces) ask::load_sample(at.app());
  if (place.screen == Screen::log && place.panel[0] != 0) ask::load_sample(at.app(), true);
  at.rig.pump();
  if (place.readings) {
    at.open("Beef tenderloin");
  } else {
    ask::new_session(at.app());
  }
  at.rig.pump();
  if (place.blocks >= 0) cut(at, place.blocks);
  ask::dismiss_notice(at.app());
  at.go(place.screen, place.panel);
  if (place.field.kind != FieldKind::none) ask::edit(at.app(), place.field);
  for (const char* digit = place.digits; *digit != 0; ++digit)
    ask::key(at.app(), std::string(1, *digit));
  at.settle();
}

// A pile's swatch, a picture and a gap are not words.
inline bool is_words(const Node& n) { return n.part == Part::text && !n.text.empty(); }

inline const Node& at(const Frame& f, int i) { return f.nodes[static_cast<std::size_t>(i)]; }

inline Colour ground_of(const Frame& f, const Node& n) {
  for (int p = n.parent; p >= 0; p = at(f, p).parent) {
    if (at(f, p).ground != 0) return at(f, p).ground;
  }
  return f.colours().page;
}

// The scroll area something lies in, or 0.
inline int area_of(const Frame& f, const Node& n) {
  int p = n.parent;
  while (p > 0 && !at(f, p).scroll) p = at(f, p).parent;
  return std::max(p, 0);
}

// The rules, each for one screen as it is drawn.

inline void has_targets_of_48_pixels_8_apart(AppStage& stage, const Place&) {
  const Frame& f = stage.drawn();
  const auto label = [&](std::uint32_t id) {
    for (const AccessNode& n : stage.access()) {
      if (n.id == id) return n.label;
    }
    return std::string();
  };
  EXPECT_FALSE(f.targets.empty());
  for (std::size_t i = 0; i < f.targets.size(); ++i) {
    const Target& a = f.targets[i];
    EXPECT_GE(a.r.w / f.scale.ratio, 47.9F) << label(a.id);
    EXPECT_GE(a.r.h / f.scale.ratio, 47.9F) << label(a.id);
    for (std::size_t k = 0; k < i; ++k) {
      const Target& b = f.targets[k];
      if (a.clip.x != b.clip.x || a.clip.y != b.clip.y || a.clip.h != b.clip.h) continue;
      const float dx = std::max(a.r.x - b.r.right(), b.r.x - a.r.right());
      const float dy = std::max(a.r.y - b.r.bottom(), b.r.y - a.r.bottom());
      EXPECT_GE(std::max(dx, dy) / f.scale.ratio, 7.4F) << label(a.id) << " and " << label(b.id);
    }
  }
}

inline void cuts_nothing_off_and_overlaps_nothing(AppStage& stage, const Place&) {
  Frame& f = stage.screens->kit().frame();
  for (std::size_t i = 0; i < f.nodes.size(); ++i) {
    const Node& n = f.nodes[i];
    EXPECT_GE(n.r.x, -0.5F) << n.text;
    EXPECT_LE(n.r.right(), f.in.width + 0.5F) << n.text;
    if (!is_words(n)) continue;
    for (int line = 0; line < n.lines_n; ++line) {
      const std::string_view text = f.lines[static_cast<std::size_t>(n.lines_at + line)];
      const float suffix = n.suffix.empty() ? 0 : f.text_width(n.suffix, n.suffix_size);
      EXPECT_LE(f.line_width(n, text) + suffix, n.r.w + 1) << text;
    }
    const Node& box = at(f, n.parent);
    if (!box.scroll) {
      EXPECT_GE(n.r.y, box.r.y - 1) << n.text;
      EXPECT_LE(n.r.bottom(), box.r.bottom() + 2) << n.text;
    }
    for (std::size_t k = 0; k < i; ++k) {
      const Node& other = f.nodes[k];
      if (!is_words(other) || area_of(f, n) != area_of(f, other)) continue;
      const Rect both = intersect(n.r, other.r);
      EXPECT_FALSE(both.w > 1 && both.h > 2) << n.text << " | " << other.text;
    }
  }
}

// What does not scroll must lie on the screen as a whole.
inline void keeps_what_does_not_scroll_on_the_screen(AppStage& stage, const Place&) {
  const Frame& f = stage.drawn();
  for (const Node& n : f.nodes) {
    if (!is_words(n) || area_of(f, n) != 0 || f.page_scrolls) continue;
    EXPECT_GE(n.r.y, -0.5F) << n.text;
    EXPECT_LE(n.r.bottom(), f.in.height + 0.5F) << n.text;
  }
}

inline void has_texts_of_7_to_1(AppStage& stage, const Place&) {
  const Frame& f = stage.drawn();
  for (const Node& n : f.nodes) {
    if (!is_words(n) || n.look.colour == f.colours().disabled) continue;
    EXPECT_GE(contrast(n.look.colour | 0xFF000000U, ground_of(f, n)), 7.0) << n.text;
  }
}

// The figures one came for: portion cost and cost per usable weight; the digits being typed.
inline void shows_its_key_figures_at_28_pixels(AppStage& stage, const Place& place) {
  const Frame& f = stage.drawn();
  int seen = 0;
  for (const Node& n : f.nodes) {
    const bool key = n.look.figure && n.look.size >= f.type(style::type_key) - 1;
    const bool on_a_key = n.text.size() == 1;  // of the keypad
    if (!is_words(n) || !key || on_a_key) continue;
    ++seen;
    EXPECT_GE(n.type / f.scale.ratio, style::key_figure_least - 0.01F) << n.text;
  }
  const std::string name = place.name;
  if (name == "weigh-typing" || name == "result") {
    EXPECT_GT(seen, 0);
  }
}

// Tab goes through the controls in the order of the accessibility list, which is that of the DOM:
// every target is in it, once, with a name.
inline void names_every_target_once_in_reading_order(AppStage& stage, const Place&) {
  const Frame& f = stage.drawn();
  std::vector<std::uint32_t> named;
  std::set<std::uint32_t> all;
  for (const AccessNode& n : stage.access()) {
    EXPECT_TRUE(all.insert(n.id).second) << n.label;
    const bool control =
        n.kind == AccessKind::button || n.kind == AccessKind::textbox || n.kind == AccessKind::link;
    if (control) {
      EXPECT_FALSE(n.label.empty());
      named.push_back(n.id);
    }
  }
  for (const Target& t : f.targets) {
    EXPECT_EQ(std::count(named.begin(), named.end(), t.id), 1) << t.id;
  }
}

struct Rule {
  const char* name;
  void (*check)(AppStage&, const Place&);
};
inline constexpr Rule rules[] = {
    {"targets of 48 pixels, 8 apart", has_targets_of_48_pixels_8_apart},
    {"nothing cut off, nothing over another", cuts_nothing_off_and_overlaps_nothing},
    {"what does not scroll is on the screen", keeps_what_does_not_scroll_on_the_screen},
    {"contrast of texts 7 : 1", has_texts_of_7_to_1},
    {"key figures of 28 pixels or more", shows_its_key_figures_at_28_pixels},
    {"every target named once, in reading order", names_every_target_once_in_reading_order}};

// Draws every place in that view and holds it to all rules; then `more(stage)`. With a folder for pictures,
// each is written there; TALLYBLOCK_PLACES: only those whose names begin so.
template <class More>
void draw_every_place(const View& view, const std::string& mark, const std::string& pictures,
                      More more) {
  const char* folder = std::getenv("TALLYBLOCK_PICTURES");
  const char* only = std::getenv("TALLYBLOCK_PLACES");
  for (const Place& place : places) {
    if (only != nullptr && !std::string_view(place.name).starts_with(only)) continue;
    SCOPED_TRACE(std::string(place.name) + " on " + view.name);
    AppStage stage;
    ASSERT_TRUE(stage.stage.has_font) << "the font of the tests is missing: install fonts-inter";
    show(stage, view, place, mark);
    EXPECT_GT(stage.drawn().nodes.size(), 5U);
    for (const Rule& rule : rules) {
      SCOPED_TRACE(rule.name);
      rule.check(stage, place);
    }
    more(stage);
    if (folder == nullptr) continue;
    const std::string name = pictures + place.name + "-" + view.name + ".png";
    EXPECT_TRUE(write_png(std::string(folder) + "/" + name, render(stage.screens->kit().drawn())));
  }
}

// The view's name as a test may be called.
inline std::string name_of_view(const ::testing::TestParamInfo<int>& which) {
  std::string name = views[which.param].name;
  std::ranges::replace(name, '-', '_');
  return name;
}

}  // namespace tallyblock::test
