#include "core/report/report.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <limits>
#include <set>

#include "core/json/json_text.h"
#include "random_session.h"
#include "session_builder.h"

namespace tallyblock::testing {
namespace {

std::string report_of(const EntrySet& set) {
  const Figures figures = figures_of(set);
  return report_json(figures, cutting_of(set, figures));
}
Json json_of(const std::string& report) {
  const Result<Json> json = parse_json(report, 16);
  EXPECT_TRUE(json) << text_of(json.problem().where) << '\n' << report;
  return json ? *json : Json::object();
}
// The member, or a null where there is none.
Json at(const Json& object, const std::string& key) {
  const Json* member = object.member(key);
  EXPECT_NE(member, nullptr) << key;
  return member == nullptr ? Json{} : *member;
}
double number_in(const Json& object, const std::string& key) {
  return std::strtod(at(object, key).text.c_str(), nullptr);
}
std::vector<Entry> golden(const std::string& name) {
  const Result<SessionFile> file = read_session(file_bytes("tests/golden/" + name + ".json"));
  EXPECT_TRUE(file) << name;
  return file ? file->entries : std::vector<Entry>{};
}
const char* const kGolden[] = {"every-kind", "cutting", "piece-price", "small-lb-oz",
                               "future-minor"};

TEST(Report, IsJsonForEverySession) {
  for (std::uint32_t seed = 0; seed < 60; ++seed) {
    RandomOptions options;
    options.awkward = seed % 2 == 1;
    const EntrySet set = RandomSession(seed, options).set();
    const Json report = json_of(report_of(set));
    EXPECT_EQ(at(report, "entries").integer, static_cast<std::int64_t>(set.size())) << seed;
  }
}

TEST(Report, IsTheSameWhateverTheOrderOfArrival) {
  RandomSession dice(1, {});
  for (const char* name : kGolden) {
    std::vector<Entry> entries = golden(name);
    const std::string expected = report_of(set_of(entries));
    for (int round = 0; round < 3; ++round) {
      dice.shuffle(entries);
      EXPECT_EQ(report_of(set_of(entries)), expected) << name;
    }
  }
}

// Names of keys, but for those that come from the entries.
void gather(const Json& value, std::set<std::string>& keys) {
  for (const Json& child : value.children) {
    if (value.type == Json::Type::object) keys.insert(child.key);
    const bool named_by_entries =
        child.key == "lot" || child.key == "quality_passed" || child.key == "checkpoints_g";
    if (!named_by_entries) gather(child, keys);
  }
}

// "loss_u_g" is explained by `loss_u_g`, `loss_g` or `loss`.
bool is_explained(const std::string& page, const std::string& key) {
  const auto said = [&](const std::string& name) {
    return page.find('`' + name + '`') != std::string::npos;
  };
  if (said(key)) return true;
  for (const std::string end : {"_u_g", "_g", "_ratio", "_ratio_u"}) {
    if (!key.ends_with(end)) continue;
    const std::string stem = key.substr(0, key.size() - end.size());
    if (said(stem) || said(stem + "_g")) return true;
  }
  return false;
}

TEST(Report, ReportMdExplainsEveryKey) {
  const std::string page = file_bytes("core/report/REPORT.md");
  std::set<std::string> keys;
  for (const char* name : kGolden) gather(json_of(report_of(set_of(golden(name)))), keys);
  EXPECT_GT(keys.size(), 200U) << "else much was not looked at";
  for (const std::string& key : keys) EXPECT_TRUE(is_explained(page, key)) << key;
}

TEST(Report, TheKeysDoNotDependOnWhatIsKnown) {
  const Json full = json_of(report_of(set_of(golden("every-kind"))));
  const Json empty = json_of(report_json(figures_of(EntrySet{})));
  ASSERT_EQ(full.children.size(), empty.children.size());
  for (std::size_t i = 0; i < full.children.size(); ++i) {
    EXPECT_EQ(full.children[i].key, empty.children[i].key);
  }
  for (const char* absent :
       {"piece", "invoice_g", "invoice_u_g", "as_purchased_g", "cost", "primary_ratio", "minutes",
        "ready_cut_per_g", "saving", "wage_per_hour"}) {
    EXPECT_EQ(at(empty, absent).type, Json::Type::null) << absent;
  }
  EXPECT_EQ(at(empty, "cutting").type, Json::Type::array);
  EXPECT_TRUE(at(empty, "cutting").children.empty());
}

// 30 a 700 g and d / sqrt(12) end in no decimal.
TEST(Report, NumbersReadBackAsTheSameDoubleInTheFewestDigits) {
  SessionBuilder s;
  s.whole("3 kg").price("10", "kg").pile("portions", Role::primary);
  s.pile("grind", Role::usable_trim);
  s.setting("division", "0.1 g");
  s.division("0.1 g").read("portions", "700 g");
  s.read("grind", "300 g");
  const Figures figures = s.figures();
  const Json report = json_of(report_json(figures));
  ASSERT_TRUE(figures.yield && figures.yield->cost_per_primary);
  EXPECT_EQ(number_in(report, "cost_per_primary_g"),
            figures.yield->cost_per_primary->per(MassUnit::gram));
  EXPECT_EQ(number_in(report, "primary_u_g"), figures.primary.uncertainty().in_grams());
  EXPECT_EQ(at(report, "division_g").text, "0.1");
  EXPECT_EQ(at(report, "price_per_g").text, "0.01");
  EXPECT_EQ(at(report, "primary_g").text, "700");
}

TEST(Report, AFigureThatIsNoNumberIsNull) {
  Figures figures;
  figures.cost = Money::units(std::numeric_limits<double>::infinity());
  figures.labour = Money::units(std::numeric_limits<double>::quiet_NaN());
  figures.settings.loss_limit = -std::numeric_limits<double>::infinity();
  figures.miscut_value = PricePerMass::of(Money::units(-0.0), MassUnit::gram);
  const std::string text = report_json(figures);
  const Json report = json_of(text);
  for (const char* key : {"cost", "labour", "loss_limit"}) {
    EXPECT_EQ(at(report, key).type, Json::Type::null) << key;
  }
  EXPECT_NE(text.find("\"miscut_value_per_g\":0,"), std::string::npos) << "never -0";
}

TEST(Report, TextComesThroughWhole) {
  std::string all;
  for (char c = 1; c > 0 && c < 127; ++c) all += c;
  all += "\x7F \xC3\xA4 \xE2\x80\xA8 \xF0\x9F\xA5\xA9";
  SessionBuilder s;
  s.named(all);
  s.add(body::Lot{"supplier", std::string(100000, '"')});
  s.checkpoint("\\\"cleaned\"", "2 kg");
  const Json report = json_of(report_json(s.figures()));
  EXPECT_EQ(at(report, "piece").text, all);
  EXPECT_EQ(at(at(report, "lot"), "supplier").text, std::string(100000, '"'));
  EXPECT_EQ(at(at(at(report, "steps").children.at(0), "checkpoints_g"), "\\\"cleaned\"").text,
            "2000");
}

TEST(Report, ACheckWeightWithoutANameIsNotTakenForAnother) {
  SessionBuilder s;
  s.checkpoint("", "2 kg");
  s.checkpoint("?", "1 kg");
  const Json report = json_of(report_json(s.figures()));
  const Json& weights = at(at(report, "steps").children.at(0), "checkpoints_g");
  EXPECT_EQ(at(weights, "").text, "2000");
  EXPECT_EQ(at(weights, "?").text, "1000");
}

TEST(Report, SaysOfEachPortionWhatToDo) {
  CutLine cut;
  cut.id = {kWriterA, 4};
  cut.portions = {Mass::grams(200), Mass::grams(150), Mass::grams(225), Mass::grams(90)};
  cut.verdicts = {{Fate::keep, 0, Mass(), Mass(), Length()},
                  {Fate::other_spec, 1, Mass::grams(-2), Mass(), Length()},
                  {Fate::trim, 0, Mass::grams(25), Mass::grams(25), Length()},
                  {Fate::lesser_pile, 7, Mass::grams(-110), Mass(), Length()}};
  CuttingView view;
  view.step = "main";
  view.specs = {{"portions", Mass::grams(200), Mass::grams(10), {}, Money::units(1)},
                {"small", Mass::grams(152), Mass::grams(8), {}, Money::units(1)}};
  view.objects.emplace_back().cuts.push_back(cut);
  const Json report = json_of(report_json(Figures{}, {view}));
  const Json object = at(at(report, "cutting").children.at(0), "objects").children.at(0);
  const std::vector<Json> verdicts = at(at(object, "cuts").children.at(0), "verdicts").children;
  ASSERT_EQ(verdicts.size(), 4U);
  std::string said;
  for (const Json& each : verdicts) said += at(each, "do").text + ' ' + at(each, "pile").text + ',';
  EXPECT_EQ(said, "keep portions,other-spec small,trim portions,lesser-pile ,");
  EXPECT_EQ(at(verdicts[2], "trim_g").text, "25");
  EXPECT_EQ(at(verdicts[1], "off_g").text, "-2");
}

}  // namespace
}  // namespace tallyblock::testing
