// A piece on the board, files given to the app in pieces, and what it says of them.
#pragma once
#include <gtest/gtest.h>

#include <string>

#include "fake_host.h"

namespace tallyblock::test {

inline void give(Rig& rig, const std::string& name, const std::string& bytes,
                 std::size_t piece = std::string::npos) {
  ask::import_file(*rig);
  rig->on_files(1);
  for (std::size_t at = 0;;) {
    const std::string part = bytes.substr(at, piece);
    at += part.size();
    rig->on_file(name, part, at >= bytes.size());
    rig.pump();
    if (at >= bytes.size()) return;
  }
}

inline std::string line(Rig& rig) {
  return rig->notice() && !rig->notice()->args.empty() ? rig->notice()->args[0] : "";
}

struct WithAPiece : ::testing::Test {
  Rig rig;
  App& app = *rig;
  void SetUp() override {
    ask::new_session(app);
    rig.pump();
    rig.enter(FieldKind::drained, "2000");
    rig.name("piece", "Beef: Ribeye / no. 1");
    rig.name("person", "Ada");
    rig.weigh("portions", "900");
  }
  std::string id() { return app.session()->id; }
  std::string exported(bool with_names = true) {
    ask::export_session(app, id(), with_names);
    rig.pump();
    return rig.host.offered.back().bytes;
  }
};

}  // namespace tallyblock::test
