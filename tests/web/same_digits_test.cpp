// One quantity has the same digits in a tile, a picture and a table; money is rounded as a till does.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>

#include "language.h"
#include "tests/core/random_session.h"
#include "tests/core/session_builder.h"
#include "web/figures/breakdown.h"
#include "web/figures/explain.h"

namespace tallyblock {
namespace {

std::string value_of(const explain::Lines& lines, const std::string& id) {
  for (const explain::Line& line : lines) {
    if (line.id == id) return line.value;
  }
  return {};
}

double amount(const std::string& shown) {
  std::string plain;
  for (const char c : shown) {
    if (c == '-' || c == '.' || (c >= '0' && c <= '9')) plain += c;
  }
  return std::atof(plain.c_str());
}

TEST(Money, IsRoundedHalfUpAwayFromZero) {
  const show::Style style;
  EXPECT_EQ(show::money_figures(2.665, style), "2.67 €");
  EXPECT_EQ(show::money_figures(2.675, style), "2.68 €");
  EXPECT_EQ(show::money_figures(-2.665, style), "-2.67 €");
  EXPECT_EQ(show::money_figures(0.005, style), "0.01 €");
  EXPECT_EQ(show::money_figures(0.0049, style), "0.00 €");
  show::Style yen;
  yen.currency = "JPY";
  EXPECT_EQ(show::money_figures(2.5, yen), "3 JPY");
}

class SameDigits : public ::testing::Test {
 protected:
  // Calls check(figures, breakdown, style) for sessions of which the costs are known.
  template <class Check>
  void each(Check check) {
    in_this_language(check);
    const test::InventedLanguage another;
    in_this_language(check);
  }

 private:
  template <class Check>
  void in_this_language(Check check) {
    std::size_t known = 0;
    for (std::uint32_t seed = 1; seed <= 200; ++seed) {
      testing::RandomSession session(seed);
      const Figures f = figures_of(session.set());
      const show::Style style = show::style_of(f.settings);
      const Breakdown breakdown = breakdown_of(f, style);
      if (!breakdown.cost) continue;
      ++known;
      SCOPED_TRACE(seed);
      check(f, breakdown, style);
    }
    EXPECT_GT(known, 20U);
  }
};

TEST_F(SameDigits, TheNetCostInTheTableIsThatOfItsTile) {
  each([](const Figures& f, const Breakdown& breakdown, const show::Style&) {
    const BreakdownRow* portions = nullptr;
    for (const BreakdownRow& row : breakdown.rows) {
      if (row.role != Role::primary) continue;
      if (portions != nullptr) return;  // several share it
      portions = &row;
    }
    if (portions == nullptr) return;
    EXPECT_EQ(portions->money_shown,
              value_of(explain::costs(f, show::style_of(f.settings)), "net-cost"));
  });
}

TEST_F(SameDigits, TheCentsInTheTableAddUpToWhatWasPaid) {
  each([](const Figures&, const Breakdown& breakdown, const show::Style& style) {
    double sum = 0.0;
    for (const BreakdownRow& row : breakdown.rows) sum += amount(row.money_shown);
    const double step = std::pow(10.0, -show::money_decimals(style.currency));
    EXPECT_NEAR(sum, amount(breakdown.cost_shown), 0.01 * step);
  });
}

TEST(Money, OfSeveralPilesOfPortionsIsSharedByLargestRemainders) {
  testing::SessionBuilder s;
  s.whole("4 kg").total_of("piece", "1.50");
  for (const char* key : {"a", "b", "c", "d"}) {
    s.pile(key, Role::primary);
    s.read(key, "1 kg");
  }
  const Figures f = s.figures();
  const Breakdown breakdown = breakdown_of(f, show::style_of(f.settings));
  std::vector<std::string> shown;
  for (const BreakdownRow& row : breakdown.rows)
    if (row.role == Role::primary) shown.push_back(row.money_shown);
  EXPECT_EQ(shown, (std::vector<std::string>{"0.38 €", "0.38 €", "0.37 €", "0.37 €"}));
}

TEST_F(SameDigits, EveryShareInTheTableIsRoundedByItselfAsOnItsTile) {
  each([](const Figures& f, const Breakdown& breakdown, const show::Style& style) {
    for (const BreakdownRow& row : breakdown.rows) {
      EXPECT_EQ(row.weight_shown, show::mass(row.weight, style));
      if (const PileFigures* pile = pile_named(f, row.pile)) {
        EXPECT_EQ(row.share_shown, show::percent(pile->share_of_ap, style));
      }
    }
  });
}

TEST_F(SameDigits, ThePartsThatDoNotAddUpAreTold) {
  std::size_t told = 0;
  each([&](const Figures&, const Breakdown& breakdown, const show::Style&) {
    double sum = 0.0;
    for (const BreakdownRow& row : breakdown.rows) sum += amount(row.share_shown);
    if (std::abs(sum - 100.0) > 0.01) {
      EXPECT_FALSE(breakdown.adds_up);
      ++told;
    }
  });
  EXPECT_GT(told, 0U);
}

}  // namespace
}  // namespace tallyblock
