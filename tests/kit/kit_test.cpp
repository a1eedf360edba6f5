// The kit: targets, fit, fingers, keys and names, on screens that show every widget.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "kit_demo.h"
#include "kit_stage.h"

namespace tallyblock::test {
namespace {

struct View {
  float w, h, ratio, text;
};
constexpr View views[] = {{360, 640, 2, 1},    {360, 640, 2.625F, 2}, {640, 360, 2, 1},
                          {640, 360, 1.5F, 2}, {1024, 768, 1, 1},     {1024, 768, 1, 2},
                          {360, 640, 1, 1.3F}, {1920, 1080, 1, 1}};
const char* const screen_names[] = {"weighing", "result", "everything"};

// Runs a check on every screen in every size.
template <class Check>
void everywhere(Check check) {
  for (const View& v : views) {
    for (int which = 0; which < 3; ++which) {
      Stage stage;
      ASSERT_TRUE(stage.has_font) << "the font of the tests is missing: install fonts-inter";
      stage.size(v.w, v.h, v.ratio, v.text);
      Demo demo;
      demo.digits = "1234";
      const Stage::Screen screen = demo.screen(which);
      stage.frame(screen);
      const AccessList list = stage.frame(screen);
      SCOPED_TRACE(std::string(screen_names[which]) + " at " + std::to_string(v.w) + " x " +
                   std::to_string(v.h) + ", text " + std::to_string(v.text));
      check(stage, list);
    }
  }
}

TEST(Kit, EveryTargetIsAtLeastFortyEightPixelsEachWay) {
  everywhere([](Stage& stage, const AccessList&) {
    const Frame& f = stage.kit->frame();
    EXPECT_GE(f.targets.size(), 3U);
    for (const Target& t : f.targets) {
      EXPECT_GE(t.r.w / f.scale.ratio, 47.9F) << t.id;
      EXPECT_GE(t.r.h / f.scale.ratio, 47.9F) << t.id;
    }
  });
}

TEST(Kit, TargetsOfOneAreaAreEightPixelsApart) {
  everywhere([](Stage& stage, const AccessList& list) {
    const Frame& f = stage.kit->frame();
    const auto label = [&](std::uint32_t id) {
      for (const AccessNode& n : list)
        if (n.id == id) return n.label;
      return std::string();
    };
    for (std::size_t i = 0; i < f.targets.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        const Target &a = f.targets[i], &b = f.targets[k];
        const bool same_area = a.clip.x == b.clip.x && a.clip.y == b.clip.y && a.clip.h == b.clip.h;
        if (!same_area) continue;
        const float dx = std::max(a.r.x - b.r.right(), b.r.x - a.r.right());
        const float dy = std::max(a.r.y - b.r.bottom(), b.r.y - a.r.bottom());
        EXPECT_GE(std::max(dx, dy) / f.scale.ratio, 7.4F) << label(a.id) << " and " << label(b.id);
      }
    }
  });
}

// Every text lies inside the box that holds it, every box inside the screen's width; nothing is cut.
TEST(Kit, NoTextSticksOutOfItsBoxAndNothingOutOfTheScreen) {
  everywhere([](Stage& stage, const AccessList&) {
    Frame& f = stage.kit->frame();
    for (const Node& n : f.nodes) {
      EXPECT_GE(n.r.x, -0.5F) << n.text;
      EXPECT_LE(n.r.right(), f.in.width + 0.5F) << n.text;
      if (n.part != Part::text) continue;
      for (int i = 0; i < n.lines_n; ++i) {
        const std::string_view line = f.lines[static_cast<std::size_t>(n.lines_at + i)];
        const float w =
            f.line_width(n, line) + (n.suffix.empty() ? 0 : f.text_width(n.suffix, n.suffix_size));
        EXPECT_LE(w, n.r.w + 1) << line;
      }
      const Node& box = f.node(n.parent);
      if (box.scroll) continue;
      EXPECT_GE(n.r.y, box.r.y - 1) << n.text;
      EXPECT_LE(n.r.bottom(), box.r.bottom() + 2) << n.text;
    }
  });
}

TEST(Kit, NoTwoTextsOverlap) {
  everywhere([](Stage& stage, const AccessList&) {
    const Frame& f = stage.kit->frame();
    for (std::size_t i = 0; i < f.nodes.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        const Node &a = f.nodes[i], &b = f.nodes[k];
        if (a.part == Part::box || b.part == Part::box || a.part == Part::gap ||
            b.part == Part::gap)
          continue;
        // What scrolls lies under the bars; there, only its own area matters.
        const auto area = [&](const Node& n) {
          int p = n.parent;
          while (p > 0 && !f.nodes[static_cast<std::size_t>(p)].scroll)
            p = f.nodes[static_cast<std::size_t>(p)].parent;
          return p;
        };
        if (area(a) != area(b)) continue;
        const Rect both = intersect(a.r, b.r);
        EXPECT_FALSE(both.w > 1 && both.h > 2) << a.text << " | " << b.text;
      }
    }
  });
}

TEST(Kit, DigitsAreNeverCutHoweverNarrow) {
  Stage stage;
  stage.size(200, 640, 2, 2);
  const Stage::Screen screen = [](Kit& kit) {
    auto row = kit.row({1, 1});
    kit.figure("a", "Cost", "1,234,567.89", {.size = FigureSize::key, .unit = "EUR"});
    kit.tile("b", "Portions", {.weight = "12,345 g"});
  };
  stage.frame(screen);
  Frame& f = stage.kit->frame();
  for (const Node& n : f.nodes) {
    if (n.part != Part::text || !n.look.figure) continue;
    EXPECT_EQ(n.lines_n, 1);
    EXPECT_LE(f.line_width(n, n.text) + f.text_width(n.suffix, n.suffix_size), n.r.w + 1) << n.text;
  }
}

// Pounds and ounces of a case stand in one of two tiles of a common phone: the units give way, not the digits.
TEST(Kit, UnitsOfALongFigureGiveWayBeforeItsDigits) {
  Stage stage;
  stage.size(390, 844, 2, 1);
  const Stage::Screen screen = [](Kit& kit) {
    auto grid = kit.grid(2, 132);
    kit.tile("a", "Legs", {.weight = "12 lb 14.8 oz", .compact = true});
    kit.tile("b", "Fat", {.weight = "450 g", .compact = true});
  };
  stage.frame(screen);
  Frame& f = stage.kit->frame();
  for (const Node& n : f.nodes) {
    if (n.part != Part::text || !n.look.figure) continue;
    EXPECT_EQ(n.type, f.type(style::type_title)) << n.text;
    EXPECT_EQ(n.units > 0, n.text.starts_with("12 lb")) << n.text;
  }
}

TEST(Kit, KeyFiguresAreTwentyEightPixelsOrMore) {
  for (const View& v : views) {
    Stage stage;
    stage.size(v.w, v.h, v.ratio, v.text);
    Demo demo;
    stage.frame(demo.screen(1));
    float size = 0;
    for (const Node& n : stage.kit->frame().nodes) {
      if (n.text == "2.89") size = n.type;
    }
    EXPECT_GE(size / v.ratio, style::key_figure_least) << v.w << " x " << v.h << " text " << v.text;
  }
}

TEST(Kit, IdsAreUniqueAndStayTheSameFromFrameToFrame) {
  everywhere([](Stage&, const AccessList& list) {
    std::set<std::uint32_t> ids;
    for (const AccessNode& n : list) {
      EXPECT_TRUE(ids.insert(n.id).second) << n.label;
      EXPECT_FALSE(n.label.empty() && n.value.empty());
    }
  });
}

TEST(Kit, ActivationByIdDoesTheSameAsATap) {
  for (int which = 0; which < 3; ++which) {
    Demo first;
    Stage stage;
    stage.size(360, 2400);
    const Stage::Screen screen = first.screen(which);
    const AccessList list = stage.frame(screen);
    for (const AccessNode& n : list) {
      if (n.kind != AccessKind::button || !n.visible) continue;
      Demo by_tap, by_id;
      for (Demo* d : {&by_tap, &by_id}) {
        Stage s;
        s.size(360, 2400);
        s.frame(d->screen(which));
        if (d == &by_tap) {
          s.tap(n);
        } else {
          s.in.activated.push_back(n.id);
        }
        s.settle(d->screen(which));
      }
      EXPECT_EQ(by_tap.taps, by_id.taps) << n.label;
      EXPECT_EQ(by_tap.last, by_id.last) << n.label;
      EXPECT_EQ(by_tap.digits, by_id.digits) << n.label;
    }
  }
}

TEST(Kit, FastTapsAllCountInTheirOrder) {
  Demo demo;
  Stage stage;
  stage.size(360, 1400);
  const Stage::Screen screen = demo.screen(0);
  const AccessList list = stage.frame(screen);
  for (const char* key : {"2", "1", "1", "7"})
    stage.tap(*Stage::find(list, std::string("weigh/pad/") + key));
  stage.tap(*Stage::find(list, "weigh/pile/2"));
  stage.settle(screen);
  EXPECT_EQ(demo.digits, "2117");
  EXPECT_EQ(demo.chosen, 2);
  EXPECT_EQ(demo.last, "weigh/pile/2");
}

TEST(Kit, KeysOfTheKeyboardTypeToo) {
  Demo demo;
  Stage stage;
  const Stage::Screen screen = demo.screen(0);
  stage.frame(screen);
  for (const char* key : {"4", "5", "x", "6", "Backspace", "7"})
    stage.in.keys.push_back({key, false});
  stage.settle(screen);
  EXPECT_EQ(demo.digits, "457");
}

TEST(Kit, AKeyNoKeypadTakesIsLeftForTheScreen) {
  Stage stage;
  int escapes = 0;
  const Stage::Screen screen = [&](Kit& kit) {
    kit.keypad("k");
    if (kit.key_pressed("Escape")) ++escapes;
  };
  stage.in.keys.push_back({"Escape", false});
  stage.settle(screen);
  EXPECT_EQ(escapes, 1);
}

TEST(Kit, DisabledTargetsDoNothing) {
  Demo demo;
  Stage stage;
  stage.size(360, 2400);
  const Stage::Screen screen = demo.screen(2);
  const AccessList list = stage.frame(screen);
  stage.tap(*Stage::find(list, "all/c"));
  stage.settle(screen);
  stage.in.activated.push_back(Kit::id_of("all/c"));
  stage.settle(screen);
  EXPECT_EQ(demo.taps, 0);
}

// ---- words

TEST(Kit, AFigureExplainsItselfWhenTapped) {
  Demo demo;
  Stage stage;
  stage.size(360, 2400);
  const Stage::Screen screen = demo.screen(1);
  AccessList list = stage.frame(screen);
  const AccessNode* figure = Stage::find(list, "r/portion");
  EXPECT_EQ(figure->label, "A portion costs: 2.89 EUR");
  EXPECT_EQ(figure->expanded, 0);
  EXPECT_EQ(Stage::find(list, "r/portion/why"), nullptr);
  stage.tap(*figure);
  stage.settle(screen);
  list = stage.frame(screen);
  EXPECT_EQ(Stage::find(list, "r/portion")->expanded, 1);
  EXPECT_EQ(Stage::find(list, "r/portion/why")->label,
            "200 g of portions at 14.47 EUR per kg make 2.89 EUR.");
}

TEST(Kit, AnExplanationMakesOnlyItsOwnRowOfAGridHigher) {
  Stage stage;
  stage.size(360, 1200);
  const Stage::Screen screen = [](Kit& kit) {
    auto grid = kit.grid(1);
    for (const char* path : {"a", "b"}) {
      kit.figure(path, "Cost", "2.00",
                 {.explain = "Two of 1.00 make 2.00, which is said at length."});
    }
  };
  stage.frame(screen);
  stage.in.activated.push_back(Kit::id_of("b"));
  stage.settle(screen);
  const AccessList& list = stage.frame(screen);
  EXPECT_GT(Stage::find(list, "b")->h, Stage::find(list, "a")->h + 10);
}

TEST(Kit, ATableSaysEveryNumberWithItsColumn) {
  Stage stage;
  const AccessList& list = stage.frame([](Kit& kit) { Demo::table(kit); });
  const std::string& said = Stage::find(list, "r/table")->label;
  EXPECT_NE(said.find("Portions, Weight 2.42 kg, Share 49.8 %, Money 35.02 EUR"), std::string::npos)
      << said;
}

TEST(Kit, TheKeypadsEnterKeyStandsOnTheSideOfTheHand) {
  for (const bool left : {false, true}) {
    Demo demo;
    Stage stage;
    stage.size(360, 1400);
    stage.in.left_hand = left;
    const AccessList& list = stage.frame(demo.screen(0));
    const AccessNode *enter = Stage::find(list, "weigh/pad/enter"),
                     *seven = Stage::find(list, "weigh/pad/7");
    EXPECT_EQ(enter->x < seven->x, left);
  }
}

TEST(Kit, TextsTypedIntoTheRealInputReachTheirBoxOnce) {
  Stage stage;
  std::vector<std::string> got;
  const Stage::Screen screen = [&](Kit& kit) {
    if (const auto t = kit.text_box("name", "Name", "")) got.push_back(t->text);
  };
  stage.frame(screen);
  stage.in.texts.push_back({Kit::id_of("name"), "Po", false});
  stage.in.texts.push_back({Kit::id_of("name"), "Pork", false});
  stage.in.texts.push_back({Kit::id_of("name"), "Pork", true});
  stage.settle(screen);
  ASSERT_FALSE(got.empty());
  EXPECT_EQ(got.back(), "Pork");
}

TEST(Kit, AccessTextKeepsNodesAndFieldsApart) {
  AccessList list(2);
  list[0].id = 7;
  list[0].label =
      "a\x1f"
      "b";
  list[1].kind = AccessKind::button;
  list[1].x = 1.6F;
  list[1].hint = "h";
  EXPECT_EQ(access_text(list),
            "7\x1f"
            "4\x1f"
            "a b\x1f\x1f"
            "0\x1f"
            "0\x1f"
            "0\x1f"
            "0\x1f"
            "1\x1f"
            "2\x1f"
            "2\x1f"
            "0\x1f"
            "0\x1f"
            "1\x1f"
            "200\x1f"
            "0\x1f"
            "0\x1f\x1e"
            "0\x1f"
            "1\x1f\x1f\x1f"
            "2\x1f"
            "0\x1f"
            "0\x1f"
            "0\x1f"
            "1\x1f"
            "2\x1f"
            "2\x1f"
            "0\x1f"
            "0\x1f"
            "1\x1f"
            "200\x1f"
            "0\x1f"
            "0\x1fh");
}

TEST(Kit, AHintStandsInItsBoxForAsLongAsThatIsEmpty) {
  Stage stage;
  for (const bool empty : {true, false}) {
    const AccessList& list = stage.frame([&](Kit& kit) {
      kit.text_box("name", "Name", empty ? "" : "Loin", {.hint = "As the trade calls it"});
    });
    const AccessNode* box = Stage::find(list, "name");
    ASSERT_NE(box, nullptr);
    EXPECT_EQ(box->hint, "As the trade calls it");
    const auto& nodes = stage.kit->frame().nodes;
    const auto drawn =
        std::ranges::find(nodes, std::string_view("As the trade calls it"), &Node::text);
    EXPECT_EQ(drawn != nodes.end(), empty);
    if (drawn != nodes.end()) {
      EXPECT_GE(drawn->r.y, box->y);
      EXPECT_LE(drawn->r.bottom(), box->y + box->h);
    }
  }
}

TEST(Kit, AnIdleScreenWantsNoFrame) {
  everywhere([](Stage& stage, const AccessList&) { EXPECT_FALSE(stage.kit->wants_frame()); });
}

}  // namespace
}  // namespace tallyblock::test
