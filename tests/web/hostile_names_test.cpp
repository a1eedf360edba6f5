// Names as a file may bring them: blanks first, blanks only, emoji, marks of right to left, 200 bytes
// without a blank (control characters are refused with the file). Every screen draws them, tidied; the
// entries stay as they came.
#include <gtest/gtest.h>

#include <array>

#include "app_stage.h"
#include "language.h"
#include "web/app/desk/tidy.h"
#include "web/app/shelf/sample.h"

namespace tallyblock::test {
namespace {

std::vector<std::string> hostile_names() {
  std::string chinese;
  for (int i = 0; i < 66; ++i) chinese += "\u8089";
  return {" Loin",
          "   ",
          "  Two   words  ",
          "\U0001F969\U0001F969 \u2696\uFE0F\u200D\U0001F52A",
          "\u202B\u05E9\u05DC\u05D5\u05DD\u200F \u202Eabc",
          std::string(200, 'W'),
          std::string(200, '8'),
          chinese};
}

// Every name and note of an entry, whatever its kind.
struct Rename {
  const std::string& name;
  void operator()(body::Piece& b) const { b.name = b.species = b.cut = name; }
  void operator()(body::Lot& b) const { b.value = name; }
  void operator()(body::Specification& b) const { b.text = name; }
  void operator()(body::Step& b) const { b.name = name; }
  void operator()(body::Pile& b) const { b.name = b.use = name; }
  void operator()(body::Tub& b) const { b.name = name; }
  void operator()(body::Person& b) const { b.name = name; }
  void operator()(body::Note& b) const { b.text = name; }
  template <class Other>
  void operator()(Other&) const {}
};

SessionFile renamed(SessionFile file, const std::string& name) {
  for (Entry& entry : file.entries) {
    std::visit(Rename{name}, entry.body);
    entry = sealed(entry);
  }
  return file;
}

void import(Rig& rig, const SessionFile& file) {
  ask::import_file(*rig);
  rig->on_file("a.json", write_session(file), true);
  rig.pump();
}

bool is_tidy(const std::string& text) {
  if (text.empty()) return true;
  for (const char c : text) {
    if (c != '\n' && static_cast<unsigned char>(c) < 0x20) return false;
  }
  return text.front() != ' ' && text.back() != ' ' && text.find("  ") == std::string::npos;
}

struct Place {
  Screen screen;
  const char* panel;
};
constexpr std::array places{Place{Screen::sessions, ""},
                            Place{Screen::weigh, ""},
                            Place{Screen::weigh, "pile"},
                            Place{Screen::weigh, "readings"},
                            Place{Screen::result, ""},
                            Place{Screen::details, ""},
                            Place{Screen::details, "part:lot"},
                            Place{Screen::details, "part:incoming"},
                            Place{Screen::details, "part:trim"},
                            Place{Screen::details, "part:settings"},
                            Place{Screen::share, ""},
                            Place{Screen::settings, ""},
                            Place{Screen::bin, ""},
                            Place{Screen::about, ""},
                            Place{Screen::cut, "measure"}};

// On a wide screen and a narrow one, in large text.
void expect_drawn(const SessionFile& file) {
  AppStage at;
  ASSERT_TRUE(at.stage.has_font) << "the font of the tests is missing: install fonts-inter";
  at.stage.in.reduced_motion = true;
  import(at.rig, file);
  ASSERT_EQ(at.app().shelf().cards.size(), 1U);
  ask::open(at.app(), at.app().shelf().cards[0].id);
  at.rig.pump();
  ask::dismiss_notice(at.app());
  for (const bool wide : {true, false}) {
    at.stage.size(wide ? 1024 : 360, wide ? 768 : 640, 1, wide ? 1 : 2);
    for (const Place& place : places) {
      at.go(place.screen, place.panel);
      const Frame& f = at.drawn();
      SCOPED_TRACE(std::to_string(static_cast<int>(place.screen)) + place.panel);
      EXPECT_GT(f.nodes.size(), 5U);
      EXPECT_LT(f.lines.size(), 4000U);
      for (const AccessNode& n : at.access()) {
        EXPECT_TRUE(is_tidy(n.label)) << '"' << n.label << '"';
        EXPECT_TRUE(is_tidy(n.value)) << '"' << n.value << '"';
      }
      for (const Node& n : f.nodes) {
        EXPECT_LE(n.r.right(), f.in.width + 0.5F) << n.text;
        for (int line = 0; n.part == Part::text && line < n.lines_n; ++line) {
          const std::string_view text = f.lines[static_cast<std::size_t>(n.lines_at + line)];
          EXPECT_LE(f.line_width(n, text), n.r.w + 1) << text;
        }
      }
    }
  }
}

TEST(HostileNames, AreDrawnTidyOnEveryScreen) {
  for (const std::string& name : hostile_names()) {
    SCOPED_TRACE('"' + name + '"');
    for (const SessionFile& file : sample_sessions()) expect_drawn(renamed(file, name));
  }
}

TEST(HostileNames, AreDrawnTidyInAnotherLanguage) {
  const InventedLanguage another;
  for (const std::string& name : hostile_names()) {
    SCOPED_TRACE('"' + name + '"');
    expect_drawn(renamed(sample_sessions()[0], name));
  }
}

TEST(HostileNames, OfAnImportAreShownTidyWhileTheEntriesStayAsTheyCame) {
  const SessionFile file = renamed(sample_sessions()[0], "  Short   loin ");
  Rig rig;
  import(rig, file);
  ASSERT_EQ(rig->shelf().cards.size(), 1U);
  EXPECT_EQ(rig->shelf().cards[0].title, "Short loin");
  ask::open(*rig, rig->shelf().cards[0].id);
  rig.pump();
  const Figures& figures = rig.figures();
  EXPECT_EQ(figures.piece, "Short loin");
  for (const PileFigures& pile : figures.piles) EXPECT_EQ(pile.name, "Short loin");
  ASSERT_FALSE(figures.notes.empty());
  for (const NoteLine& note : figures.notes) EXPECT_EQ(note.text, "Short loin");
  EXPECT_EQ(write_session(file_of(*rig->session())), write_session(file));
}

TEST(HostileNames, ABlankTypedFirstInANameOrANoteEndsNothingAndIsThereAfterARestart) {
  for (const char* id : {"piece", "note", "person", "pile:portions"}) {
    AppStage at;
    ASSERT_TRUE(at.stage.has_font);
    at.stage.size(360, 640, 2);
    ask::new_session(at.app());
    at.rig.pump();
    at.go(Screen::details, id == std::string("pile:portions") ? id : "");
    ask::text_changed(at.app(), id, " ");
    at.settle();
    at.rig.restart();
    at.screens = std::make_unique<Screens>(*at.rig);
    at.settle();
    EXPECT_EQ(text_of(at.app(), id), " ") << id;
    EXPECT_GT(at.drawn().nodes.size(), 5U) << id;
  }
}

TEST(Tidied, KeepsLinesOfNotesAlone) {
  EXPECT_EQ(tidied(" a \t b\r\nc "), "a b c");
  EXPECT_EQ(tidied("\n a  b \n\n  c \n", true), "a b\n\nc");
  EXPECT_EQ(tidied(" \n\t ", true), "");
  EXPECT_EQ(tidied("\u200F\u8089"), "\u200F\u8089");
}

}  // namespace
}  // namespace tallyblock::test
