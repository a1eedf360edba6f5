#include "core/base/problem.h"

#include <gtest/gtest.h>

#include <memory>
#include <set>
#include <type_traits>

namespace tallyblock {
namespace {

struct Named {
  Code code;
  std::string name;
};
const Named kNamed[] = {
#define TALLYBLOCK_NAMED(name, key) {Code::name, #name},
    TALLYBLOCK_CODES(TALLYBLOCK_NAMED)
#undef TALLYBLOCK_NAMED
};

// "doubt_loss_high" is "doubt.loss-high": the room before the first mark, then words.
TEST(Code, ItsKeyIsItsNameWithTheRoomInFront) {
  for (const auto& [code, name] : kNamed) {
    std::string key = name;
    bool first = true;
    for (char& c : key) {
      if (c != '_') continue;
      c = first ? '.' : '-';
      first = false;
    }
    EXPECT_EQ(key_of(code), key);
  }
}

TEST(Code, NoTwoHaveOneKey) {
  const std::set<std::string_view> keys(std::begin(kCodeKeys), std::end(kCodeKeys));
  EXPECT_EQ(keys.size(), std::size(kCodeKeys));
  EXPECT_EQ(std::size(kCodeKeys), std::size(kNamed));
}

TEST(Problem, IsEqualOnlyIfCodePlaceAndFiguresAre) {
  const Problem problem{Code::typed_too_heavy, "weight", {Arg::typed("9 t"), Arg::number(1000)}};
  EXPECT_EQ(problem,
            (Problem{Code::typed_too_heavy, "weight", {Arg::typed("9 t"), Arg::number(1000)}}));
  EXPECT_NE(problem,
            (Problem{Code::typed_too_large, "weight", {Arg::typed("9 t"), Arg::number(1000)}}));
  EXPECT_NE(problem,
            (Problem{Code::typed_too_heavy, "tare", {Arg::typed("9 t"), Arg::number(1000)}}));
  EXPECT_NE(problem,
            (Problem{Code::typed_too_heavy, "weight", {Arg::number(1000), Arg::typed("9 t")}}));
  EXPECT_NE(problem, (Problem{Code::typed_too_heavy, "weight", {}}));
}

TEST(Result, HoldsTheValue) {
  Result<std::string> result(std::string("eye"));
  ASSERT_TRUE(result.ok());
  EXPECT_TRUE(static_cast<bool>(result));
  EXPECT_EQ(*result, "eye");
  EXPECT_EQ(result->size(), 3U);
  result.value() += " of loin";
  EXPECT_EQ(result.value(), "eye of loin");
}

TEST(Result, HoldsTheProblemInPlaceOfTheValue) {
  const Problem problem{Code::typed_zero, "weight", {Arg::typed("0 g")}};
  const Result<int> result(problem);
  EXPECT_FALSE(result.ok());
  EXPECT_FALSE(static_cast<bool>(result));
  EXPECT_EQ(result.problem(), problem);
}

// Zero, nothing and an empty text are values, not problems.
TEST(Result, AnEmptyValueIsAValue) {
  EXPECT_TRUE(Result<int>(0).ok());
  EXPECT_TRUE(Result<bool>(false).ok());
  EXPECT_TRUE(Result<std::string>(std::string()).ok());
  EXPECT_FALSE(*Result<bool>(false));
  static_assert(!std::is_convertible_v<Result<bool>, bool>, "or a refusal is taken for false");
}

TEST(Result, AValueThatCanOnlyBeMovedIsHandedOn) {
  Result<std::unique_ptr<int>> result(std::make_unique<int>(42));
  const std::unique_ptr<int> taken = std::move(result.value());
  ASSERT_NE(taken, nullptr);
  EXPECT_EQ(*taken, 42);
}

}  // namespace
}  // namespace tallyblock
