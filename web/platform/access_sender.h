// Sends the list of what is on screen to the page, when it changed.
//
// While something moves (a fling) and no text box is seen, at most every 100 ms; the frame at rest
// must therefore be sent too.
#pragma once
#include <cstdint>

#include "web/kit/access.h"

namespace tallyblock {

class AccessSender {
 public:
  // `at_rest`: no other frame is wanted. `ms`: now.
  void send(const AccessList& list, bool at_rest, double ms);
  // The page's copy may differ: send the next list even if unchanged.
  void send_again() { sent_hash_ = 0; }

 private:
  std::uint64_t sent_hash_ = 0;
  double sent_ms_ = -1e9;
};

}  // namespace tallyblock
