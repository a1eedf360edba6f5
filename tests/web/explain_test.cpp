// Every sentence that explains a figure holds a sum from whose own numbers the figure follows.
#include "web/figures/explain.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "tests/core/random_session.h"
#include "tests/core/session_builder.h"
#include "web/app/shelf/sample.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

// Reads what explain.h promises: numbers, + − × ÷ √ and brackets.
class Sum {
 public:
  explicit Sum(std::string_view text) : rest_(text) {}
  std::optional<double> value() {
    const double result = terms();
    spaces();
    if (failed_ || !rest_.empty()) return std::nullopt;
    return result;
  }

 private:
  void spaces() {
    while (rest_.starts_with(' ')) rest_.remove_prefix(1);
  }
  bool take(std::string_view sign) {
    spaces();
    if (!rest_.starts_with(sign)) return false;
    rest_.remove_prefix(sign.size());
    return true;
  }
  double terms() {
    double left = factors();
    for (;;) {
      if (take("+")) {
        left += factors();
      } else if (take("−")) {
        left -= factors();
      } else {
        return left;
      }
    }
  }
  double factors() {
    double left = one();
    for (;;) {
      if (take("×")) {
        left *= one();
      } else if (take("÷")) {
        left /= one();
      } else {
        return left;
      }
    }
  }
  double one() {
    if (take("√")) return std::sqrt(one());
    if (take("(")) {
      const double inside = terms();
      if (!take(")")) failed_ = true;
      return inside;
    }
    if (take("-")) return -one();
    spaces();
    std::size_t n = 0;
    while (n < rest_.size() &&
           (std::isdigit(static_cast<unsigned char>(rest_[n])) != 0 || rest_[n] == '.')) {
      ++n;
    }
    if (n == 0) {
      failed_ = true;
      return 0.0;
    }
    const double number = std::strtod(std::string(rest_.substr(0, n)).c_str(), nullptr);
    rest_.remove_prefix(n);
    return number;
  }

  std::string_view rest_;
  bool failed_ = false;
};

struct Shown {
  double value = 0.0;
  double step = 1.0;  // of its last decimal
};

// "18.80 € per kg", "-1.5 %", "1 h 5 min".
std::optional<Shown> shown(const std::string& figure) {
  const std::size_t hours = figure.find(" h ");
  if (hours != std::string::npos) {
    return Shown{60.0 * std::atof(figure.c_str()) + std::atof(figure.c_str() + hours + 3), 1.0};
  }
  const std::size_t at = figure.find_first_of("0123456789");
  if (at == std::string::npos) return std::nullopt;
  const bool negative = figure.substr(0, at).find('-') != std::string::npos ||
                        figure.substr(0, at).find("−") != std::string::npos;
  std::size_t end = figure.find_first_not_of("0123456789.", at);
  if (end == std::string::npos) end = figure.size();
  std::string digits = figure.substr(at, end - at);
  while (digits.ends_with('.')) digits.pop_back();
  const std::size_t dot = digits.find('.');
  const std::size_t decimals = dot == std::string::npos ? 0 : digits.size() - dot - 1;
  return Shown{(negative ? -1.0 : 1.0) * std::atof(digits.c_str()),
               std::pow(10.0, -static_cast<double>(decimals))};
}

// How many sentences were recomputed.
std::size_t check(const explain::Lines& lines) {
  std::size_t checked = 0;
  for (const explain::Line& line : lines) {
    if (!line.known()) {
      EXPECT_FALSE(line.needs.empty()) << line.id << " is not known and does not say why";
      continue;
    }
    const std::size_t colon = line.sentence.rfind(": ");
    const std::size_t equals = line.sentence.rfind(" = ");
    if (colon == std::string::npos || equals == std::string::npos || equals < colon) {
      ADD_FAILURE() << line.id << " has no sum: " << line.sentence;
      continue;
    }
    const std::string sum = line.sentence.substr(colon + 2, equals - colon - 2);
    const auto computed = Sum(sum).value();
    const auto figure = shown(line.sentence.substr(equals + 3));
    if (!computed || !figure) {
      ADD_FAILURE() << line.id << " cannot be read: " << line.sentence;
      continue;
    }
    // Numbers of a sum have seven digits, the figure is rounded once.
    EXPECT_NEAR(*computed, figure->value,
                0.5 * figure->step + 3e-5 * std::abs(*computed) + 1e-3 * figure->step)
        << line.id << ": " << line.sentence;
    const auto alone = shown(line.value);
    if (line.sentence.ends_with(say("explain.cents", {line.value}))) {
      EXPECT_LT(std::abs(alone->value - figure->value), 5.0 * figure->step) << line.sentence;
    } else if (alone && line.value.find(" lb ") == std::string::npos) {
      EXPECT_EQ(alone->value, figure->value) << line.id << ": " << line.sentence;
    }
    ++checked;
  }
  return checked;
}

std::size_t check_all(const Figures& f) {
  const show::Style style = show::style_of(f.settings);
  std::size_t n = check(explain::headline(f, style)) + check(explain::yields(f, style)) +
                  check(explain::costs(f, style)) + check(explain::factors(f, style)) +
                  check(explain::make_or_buy(f, style));
  n += check(
      explain::price_update(f, PricePerMass::of(Money::units(13.37), style.price_unit), style));
  for (const TargetFigures& target : f.targets) {
    n += check(explain::portion_costs(f, target, style)) +
         check(explain::portions(f, target, style));
  }
  return n;
}

TEST(Explanations, OfTheSampleGiveTheirOwnFigures) {
  for (const SessionFile& file : sample_sessions()) {
    const Figures f = figures_of(testing::set_of(file.entries));
    SCOPED_TRACE(f.piece);
    EXPECT_GT(check_all(f), 15U);
  }
}

TEST(Explanations, OfRandomSessionsGiveTheirOwnFigures) {
  std::size_t checked = 0;
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    testing::RandomSession session(seed);
    checked += check_all(figures_of(session.set()));
  }
  EXPECT_GT(checked, 500U);
}

const explain::Line* line_of(const explain::Lines& lines, const std::string& id) {
  const auto found = std::ranges::find(lines, id, &explain::Line::id);
  return found == lines.end() ? nullptr : &*found;
}

// Invented: 100 for a piece nobody weighed in.
TEST(Explanations, AnInvoiceTotalIsExplainedWithoutTheWeightOfThePiece) {
  testing::SessionBuilder s;
  s.total_of("piece", "100");
  s.pile("portions", Role::primary);
  s.pile("grind", Role::usable_trim, "5", "kg");
  s.read("portions", "6 kg");
  s.read("grind", "2 kg");
  s.target("portions", "200 g");
  s.ready_cut("19", "kg", "95 %");
  const Figures f = s.figures();
  EXPECT_GT(check_all(f), 8U);
  for (const char* id : {"cost", "by-product-value", "net-cost", "cost-per-usable"}) {
    const explain::Lines costs = explain::costs(f, show::style_of(f.settings));
    ASSERT_NE(line_of(costs, id), nullptr) << id;
    EXPECT_TRUE(line_of(costs, id)->known()) << id;
  }
  for (const explain::Line& line : explain::headline(f, show::style_of(f.settings)))
    EXPECT_TRUE(line.known()) << line.id;
  const auto needs_the_weight = [](const explain::Lines& lines, const std::string& id) {
    const explain::Line* line = line_of(lines, id);
    return line != nullptr && line->needs == std::vector<Code>{Code::need_whole_weight};
  };
  EXPECT_TRUE(needs_the_weight(explain::yields(f, show::style_of(f.settings)), "primary-share"));
  EXPECT_TRUE(
      needs_the_weight(explain::factors(f, show::style_of(f.settings)), "factor-nothing-saved"));
  EXPECT_TRUE(
      needs_the_weight(explain::make_or_buy(f, show::style_of(f.settings)), "break-even-ap-price"));
}

TEST(Explanations, ByProductsAndTheReadyCutAreShownWhileTheCostIsNotKnown) {
  testing::SessionBuilder s;
  s.price("10", "kg");
  s.pile("grind", Role::usable_trim, "5", "kg");
  s.read("grind", "2 kg");
  s.ready_cut("19", "kg", "95 %");
  const Figures f = s.figures();
  const explain::Lines costs = explain::costs(f, show::style_of(f.settings)),
                       ready = explain::make_or_buy(f, show::style_of(f.settings));
  ASSERT_TRUE(line_of(costs, "cost") && line_of(costs, "by-product-value"));
  EXPECT_FALSE(line_of(costs, "cost")->known());
  EXPECT_TRUE(line_of(costs, "by-product-value")->known());
  ASSERT_NE(line_of(ready, "ready-cut-same-trim"), nullptr);
  EXPECT_TRUE(line_of(ready, "ready-cut-same-trim")->known());
}

TEST(Explanations, AreReadByThisTestAsWritten) {
  EXPECT_EQ(Sum("2 + 3 × (4 − 1) ÷ 2").value(), 6.5);
  EXPECT_EQ(Sum("√((9 − 1) ÷ (3 − 1))").value(), 2.0);
  EXPECT_EQ(Sum("2 +").value(), std::nullopt);
  EXPECT_EQ(shown("1 h 5 min.")->value, 65.0);
  EXPECT_EQ(shown("-$18.80 per lb.")->value, -18.8);
}

}  // namespace
}  // namespace tallyblock
