// Values of problems and doubts in words: unit, digits and decimal mark are the reader's.
#include "web/figures/sentence.h"

#include <gtest/gtest.h>

#include "core/entries/kinds.h"
#include "tests/core/session_builder.h"
#include "web/figures/doubts.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

std::string shown(const Arg& arg, const show::Style& style = {}) {
  return show::args({arg}, style).front();
}

show::Style comma() {
  show::Style style;
  style.mark = ',';
  return style;
}

TEST(Sentence, EveryKindOfValueHasTheReadersDecimalMark) {
  const show::Style style = comma();
  EXPECT_EQ(shown(Arg::count(3), style), "3");
  EXPECT_EQ(shown(Arg::number(2.5, 1), style), "2,5");
  EXPECT_EQ(shown(Arg::share(0.765), style), "76,5 %");
  EXPECT_EQ(shown(Arg::share(1.0, 0), style), "100 %");
  EXPECT_EQ(shown(Arg::minutes(10000), style), "10000 min");
  EXPECT_EQ(shown(Arg::celsius(-100), style), "-100 C");
  EXPECT_EQ(shown(Mass::grams(2.8), style), "2,8 g");
  EXPECT_EQ(shown(Length::millimetres(10'000), style), "10 m");
  EXPECT_EQ(shown(Length::millimetres(38.5), style), "38,5 mm");
  EXPECT_EQ(shown(Money::units(-10.125), style), "-10,13 €");
  EXPECT_EQ(shown(Arg::typed("12.35 lb"), style), "12,35 lb");
  EXPECT_EQ(shown(Arg::typed(".5 lb"), style), ",5 lb");
}

TEST(Sentence, AMassIsInTheUnitOfTheStyle) {
  show::Style style;
  EXPECT_EQ(shown(Mass::grams(155.4), style), "155 g");
  style.weight = WeightStyle::kilograms;
  EXPECT_EQ(shown(Mass::grams(155.4), style), "0.155 kg");
  style.weight = WeightStyle::pounds_ounces;
  EXPECT_EQ(shown(Mass::of(20.0, MassUnit::ounce), style), "1 lb 4.0 oz");
}

TEST(Sentence, NamesAndCodesStayAsTheyAreAlsoIfTheyLookLikeFigures) {
  EXPECT_EQ(shown(Arg::name("1.5 kg"), comma()), "1.5 kg");
  EXPECT_EQ(shown(Arg::code("dem00000c3.4"), comma()), "dem00000c3.4");
  EXPECT_EQ(shown(Arg::fact("price:1.5")), "price:1.5");
}

TEST(Sentence, WordsOfClosedListsAreInTheCatalogue) {
  for (const Incoming which : {Incoming::invoice, Incoming::received, Incoming::drained,
                               Incoming::packaging, Incoming::purge}) {
    EXPECT_TRUE(has_words("incoming." + std::string(name_of(which)))) << name_of(which);
  }
  for (const char* kind : {"pile", "step", "tub", "reading", "cut", "person", "entry", "price"}) {
    EXPECT_TRUE(has_words(std::string("kind.") + kind)) << kind;
  }
  EXPECT_EQ(shown(Arg::word("incoming.drained")), "drained");
}

// A fact's kind is a word of the sentence, e.g. of which several values were entered.
template <std::size_t... I>
void every_fact_has_words(std::index_sequence<I...>) {
  const auto look = [](std::string_view name, int parts) {
    if (parts < 0) return 0;
    EXPECT_TRUE(has_words("kind." + std::string(name))) << name;
    return 1;
  };
  const int facts = (look(Kind<std::variant_alternative_t<I, Body>>::name,
                          Kind<std::variant_alternative_t<I, Body>>::parts) +
                     ...);
  EXPECT_GT(facts, 15);
}

TEST(Sentence, EveryKindOfFactIsInTheCatalogue) {
  every_fact_has_words(std::make_index_sequence<std::variant_size_v<Body> - 1>());
  for (const char* other : {"person", "correction"})
    EXPECT_TRUE(has_words(std::string("kind.") + other)) << other;
}

TEST(Sentence, APlaceInAFileIsSaidInWords) {
  Place place("seq");
  place.line = 3;
  place.entry = 12;
  EXPECT_EQ(show::place(place), "line 3, entry 12, field seq");
  place.line = 0;
  place.field.clear();
  EXPECT_EQ(show::place(place), "entry 12");
  EXPECT_EQ(show::place(Place::at_byte(7)), "byte 7");
  EXPECT_EQ(show::place(Place("price-per-mass")), "Price");
  EXPECT_EQ(show::place(Place("check")), "check");
  Place line("file");
  line.line = 2;
  EXPECT_EQ(show::place(line), "line 2");
}

TEST(Sentence, OneAndSeveralAreSaidInTheirOwnForms) {
  const auto said = [](std::size_t n) {
    return show::problem(
        {Code::doubt_explain_tare, {}, {Arg::name("blue"), Arg::count(n), Arg::typed("212 g")}},
        {});
  };
  EXPECT_EQ(said(2),
            "Forgetting the tare of blue (212 g) 2 times would explain the gap. Check whether the "
            "tub was zeroed.");
  EXPECT_EQ(said(1),
            "Forgetting the tare of blue (212 g) once would explain the gap. Check whether the tub "
            "was zeroed.");
}

TEST(Doubts, OfTheFirstStepNameThePieceAndAPileCalledMainKeepsItsName) {
  testing::SessionBuilder s;
  s.division("0 g").whole("5 kg").price("40", "kg").pile("main", Role::primary);
  s.read("main", "4.4 kg");
  const Figures f = s.figures();
  ASSERT_EQ(f.doubts.size(), 1u);
  EXPECT_EQ(f.doubts[0].code, Code::doubt_loss_high);
  EXPECT_TRUE(doubt_words(f, show::style_of(f.settings), f.doubts[0])
                  .starts_with(say("sessions.untitled") + ": 600 g is missing"));
  const Doubt of_pile{Code::doubt_tub_circular, "", {}, {Arg::name("main")}, {}};
  EXPECT_EQ(doubt_words(f, {}, of_pile).substr(0, 5), "main:");
}

}  // namespace
}  // namespace tallyblock
