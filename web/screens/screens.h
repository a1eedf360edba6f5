// What is on the screen: reads App, draws with the kit, and calls App's acts. Holds nothing of its own
// but the kit's context; the person's place and half-typed figures live in App's Draft.
//
// The page calls frame() when something changed or wants_frame() says so, draws the ImGui draw data
// that the frame leaves behind, and sends access() to the parallel DOM. Without a rendering back end
// (tests) everything else works the same. Not for use from two threads.
#pragma once
#include <memory>

#include "web/app/app.h"
#include "web/kit/access.h"

struct ImDrawData;

namespace tallyblock {

class Kit;
struct PictureOrder;  // web/app/host.h
struct FrameInput;    // kit.h: size, ratio, text scale, theme, insets, time, pointer, keys, focus

class Screens {
 public:
  explicit Screens(App& app);
  ~Screens();
  Screens(const Screens&) = delete;
  Screens& operator=(const Screens&) = delete;

  // Builds one frame. Acts of the person in `input` have reached App when it returns.
  void frame(const FrameInput& input);
  // What the last frame showed, in reading order.
  const AccessList& access() const;
  // True while another frame is wanted without new input (a tap just handled, a fling, App changed).
  bool wants_frame() const;
  // What was drawn, for tests that measure it.
  Kit& kit();
  // A frame apart, to be shared: as wide as said and as high as it needs, in the theme in force. Its data is
  // valid until the next one. Precondition: the part that draws it is here.
  static constexpr int picture_width = 1080;
  ImDrawData* picture(const PictureOrder& order);
  Kit& picture_kit();  // that drew it, for tests
  // The theme in force: App's setting, or the system's where the setting says so.
  bool dark() const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace tallyblock
