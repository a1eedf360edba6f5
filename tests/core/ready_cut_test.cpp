// The ready-cut price: by weight, or for so many pieces; its own yield.
#include <gtest/gtest.h>

#include <algorithm>

#include "core/report/report.h"
#include "make.h"
#include "session_builder.h"

namespace tallyblock {
namespace {

using testing::SessionBuilder;

const EntryId kA1{testing::kWriterA, 1};

// 10 kg at 10: 6 kg portions, 2 kg grind at 5.
SessionBuilder ten_kilos() {
  SessionBuilder s;
  s.whole("10 kg").price("10", "kg");
  s.pile("portions", Role::primary);
  s.pile("grind", Role::usable_trim, "5", "kg");
  s.read("portions", "6 kg");
  s.read("grind", "2 kg");
  return s;
}

TEST(ReadyCut, AQuotedYieldOfNothingIsRefusedAndWhatHoldsItIsKept) {
  body::Price price{"ready-cut", PriceBasis::per_mass, testing::number("20"), "kg",
                    "EUR",       testing::number("98")};
  EXPECT_TRUE(checked(testing::entry(kA1, 1, price)));
  price.quoted_yield = testing::number("0");
  const Result<Entry> refused = checked(testing::entry(kA1, 1, price));
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.problem().code, Code::file_field_value);
  EXPECT_EQ(refused.problem().args.front(), Arg::code("quoted-yield"));
  const std::string stored = testing::entry(kA1, 1, price).text;
  const Result<Entry> kept = decode_entry_lenient(stored);
  ASSERT_TRUE(kept);
  EXPECT_EQ(kept->text, stored);
  EXPECT_TRUE(std::get<body::Unknown>(kept->body).problem);
}

TEST(ReadyCut, APriceForPiecesSaysHowManyAndWhatTheyWeigh) {
  body::Price price{"ready-cut", PriceBasis::total, testing::number("23.15"), "", "EUR", {}};
  price.pieces = 24;
  EXPECT_TRUE(checked(testing::entry(kA1, 1, price)));
  price.piece_weight = testing::mass("6 oz");
  const Result<Entry> both = checked(testing::entry(kA1, 1, price));
  ASSERT_TRUE(both);
  EXPECT_EQ(std::get<body::Price>(both->body).pieces, 24u);
  EXPECT_EQ(std::get<body::Price>(both->body).piece_weight->text, "6 oz");
  price.piece_weight = testing::mass("0 g");
  EXPECT_FALSE(checked(testing::entry(kA1, 1, price)));
  price.piece_weight.reset();
  price.pieces = 0;
  EXPECT_FALSE(checked(testing::entry(kA1, 1, price)));
}

body::Price for_pieces(unsigned pieces) {
  body::Price price{"ready-cut", PriceBasis::total, {"23.15", 23.15}, "", "", std::nullopt};
  price.pieces = pieces;
  return price;
}

TEST(ReadyCut, AReadyCutPriceForPiecesOfAStatedWeightIsOneByWeight) {
  SessionBuilder s = ten_kilos();
  body::Price price = for_pieces(24);
  price.piece_weight = testing::mass("6 oz");
  price.quoted_yield = TypedNumber{"98 %", 0.98};
  s.add(price);
  s.target("portions", "500 g");  // what is stated goes first
  const Figures f = s.figures();
  EXPECT_NEAR(f.ready_cut->per(MassUnit::pound), 23.15 / 9.0, 1e-12);
  EXPECT_NEAR(f.make_or_buy->ready_cut_same_trim->per(MassUnit::pound), 23.15 / 9.0 / 0.98, 1e-12);
  EXPECT_FALSE(f.piece_price->each_from_target);
  EXPECT_FALSE(f.ready_cut_need);
}

TEST(ReadyCut, AReadyCutPriceForPiecesTakesTheTargetWhereNoWeightIsStated) {
  SessionBuilder s = ten_kilos();
  s.add(for_pieces(24));
  EXPECT_EQ(s.figures().ready_cut_need, Code::need_piece_weight);
  EXPECT_FALSE(s.figures().ready_cut);
  const std::vector<Code> needs = s.figures().make_or_buy->needs;
  EXPECT_TRUE(std::find(needs.begin(), needs.end(), Code::need_piece_weight) != needs.end());
  s.target("portions", "200 g");
  const Figures f = s.figures();
  EXPECT_NEAR(f.ready_cut->per(MassUnit::kilogram), 23.15 / 4.8, 1e-12);
  EXPECT_TRUE(f.piece_price->each_from_target);
  s.pile("more", Role::primary);
  s.target("more", "250 g");  // now there are two
  EXPECT_EQ(s.figures().ready_cut_need, Code::need_piece_weight);
}

TEST(ReadyCut, AReadyCutTotalForNoNumberOfPiecesIsSaidToLackIt) {
  SessionBuilder s = ten_kilos();
  s.total_of("ready-cut", "23.15");
  const Figures f = s.figures();
  EXPECT_EQ(f.ready_cut_need, Code::need_ready_cut_pieces);
  EXPECT_FALSE(f.ready_cut);
  const std::string report = report_json(f);
  EXPECT_NE(report.find(R"("ready_cut_need":"need.ready-cut-pieces")"), std::string::npos);
}

}  // namespace
}  // namespace tallyblock
