// The result and the list of pieces as pictures to be shared.
#include "board_acts.h"
#include "tests/kit/render_png.h"
#include "web/figures/show.h"

namespace tallyblock::test {
namespace {

struct SharedPicture : ::testing::Test {
  AppStage at;
  Rig& rig = at.rig;
  std::string all;  // what it says

  void SetUp() override {
    at.stage.size(390, 844, 2, 1);
    at.settle();
  }
  Pixels draw(const PictureOrder& order, const std::string& name) {
    ImDrawData* data = at.screens->picture(order);
    const Pixels pixels = render(data);
    all.clear();
    for (const AccessNode& n : at.screens->picture_kit().frame().access) {
      all += n.label + " " + n.value + "\n";
    }
    if (const char* folder = std::getenv("TALLYBLOCK_PICTURES"); folder != nullptr) {
      EXPECT_TRUE(write_png(std::string(folder) + "/shared-" + name + ".png", pixels));
    }
    return pixels;
  }
  bool says(std::string_view words) const { return all.find(words) != std::string::npos; }
  void sample() {
    ask::load_sample(at.app());
    rig.pump();
    at.settle();
  }
  // Not blank at its end, and nothing of it below that.
  static bool is_filled(const Pixels& pixels) {
    const std::size_t row = static_cast<std::size_t>(pixels.width) * 3;
    const std::size_t from = pixels.rgb.size() - row * 100;
    for (std::size_t i = from; i + 3 < pixels.rgb.size(); i += 3) {
      if (pixels.rgb[i] != pixels.rgb[i + 3]) return true;
    }
    return false;
  }
};

TEST_F(SharedPicture, OfAPieceExplainsItselfAndNamesNobodyUnlessAsked) {
  sample();
  at.open("Pork loin, bone in");
  at.settle();
  ASSERT_NE(at.app().session(), nullptr);
  const Figures& f = at.app().session()->figures;
  ASSERT_FALSE(f.people.empty());
  for (const bool people : {false, true}) {
    const Pixels pixels = draw({false, people}, people ? "piece-people" : "piece");
    EXPECT_EQ(pixels.width, 1080);
    EXPECT_GE(pixels.height, 1080);
    EXPECT_FALSE(at.screens->picture_kit().frame().page_scrolls) << "all of it is on the picture";
    EXPECT_TRUE(is_filled(pixels));
    EXPECT_TRUE(says("(invented)"));
    EXPECT_TRUE(says("costs you"));
    EXPECT_TRUE(says("Weighed with Tallyblock"));
    for (const PileFigures& pile : f.piles) {
      if (pile.kept.value() > Mass()) EXPECT_TRUE(says(pile.name)) << pile.name;
    }
    for (const PersonLine& person : f.people) EXPECT_EQ(says(person.name), people) << person.name;
  }
}

TEST_F(SharedPicture, OfAPieceInWorkHasNoCost) {
  ask::new_session(*rig);
  rig.pump();
  rig.enter(FieldKind::drained, "2000");
  rig.weigh("portions", "900");
  draw({}, "in-work");
  EXPECT_TRUE(says("1100 g")) << all;
  EXPECT_FALSE(says("costs you"));
}

TEST_F(SharedPicture, OfTheListIsItsNewestCards) {
  sample();
  for (const bool people : {false, true}) {
    const Pixels pixels = draw({true, people}, people ? "list-people" : "list");
    EXPECT_FALSE(at.screens->picture_kit().frame().page_scrolls);
    EXPECT_TRUE(is_filled(pixels));
    for (const SessionCard& card : at.app().shelf().cards) {
      EXPECT_TRUE(says(card.title)) << card.title;
      if (!card.people.empty()) EXPECT_EQ(says(card.people), people) << card.people;
    }
    EXPECT_TRUE(says("Invented"));
  }
}

TEST_F(SharedPicture, IsAskedForWithANameOfItsOwn) {
  sample();
  at.open("Pork loin, bone in");
  ask::share_picture(at.app(), false, true);
  ask::share_picture(at.app(), true, false);
  ASSERT_EQ(rig.host.pictures.size(), 2U);
  EXPECT_TRUE(rig.host.pictures[0].name.starts_with("tallyblock-invented-pork-loin-bone-in-"))
      << rig.host.pictures[0].name;
  EXPECT_TRUE(rig.host.pictures[0].name.ends_with(".png"));
  EXPECT_TRUE(rig.host.pictures[0].order.with_people);
  EXPECT_FALSE(rig.host.pictures[0].order.of_list);
  EXPECT_TRUE(rig.host.pictures[1].name.starts_with("tallyblock-pieces-2026-"))
      << rig.host.pictures[1].name;
  EXPECT_TRUE(rig.host.pictures[1].order.of_list);
}

}  // namespace
}  // namespace tallyblock::test
