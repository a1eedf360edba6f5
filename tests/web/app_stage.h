// The whole app without a browser: memory, clock, screens, fingers.
#pragma once
#include <memory>
#include <string>

#include "fake_host.h"
#include "tests/kit/kit_stage.h"
#include "web/screens/screens.h"

namespace tallyblock::test {

struct AppStage {
  Rig rig;
  Stage stage;
  std::unique_ptr<Screens> screens = std::make_unique<Screens>(*rig);

  App& app() { return *rig; }
  const Frame& drawn() { return screens->kit().frame(); }
  const AccessList& access() { return screens->access(); }

  void frame() {
    stage.in.now_ms += 16;
    const FrameInput now = stage.in;
    stage.in.pointers.clear();
    stage.in.keys.clear();
    stage.in.activated.clear();
    stage.in.texts.clear();
    screens->frame(now);
    serve_textures(screens->kit().drawn());
    rig.pump();
  }
  void settle(int most = 400) {
    do {
      frame();
    } while (screens->wants_frame() && --most > 0);
  }
  // Opens the session of the sample whose piece is so called.
  void open(const std::string& piece) {
    for (const SessionCard& card : app().shelf().cards) {
      if (card.title != piece) continue;
      ask::open(app(), card.id);
      rig.pump();
      return;
    }
  }
  void go(Screen screen, const std::string& panel = {}) {
    ask::go(app(), screen);
    if (!panel.empty()) ask::open_panel(app(), panel);
    rig.pump();
    settle();
  }
};

}  // namespace tallyblock::test
