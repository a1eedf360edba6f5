#include "doing.h"

namespace tallyblock {

void do_asked(Rooms& rooms, const Asked& asked) {
  switch (asked.what) {
#define TALLYBLOCK_ASK(name) \
  case Asked::What::name: return doing::name(rooms, asked);
    TALLYBLOCK_ASKS(TALLYBLOCK_ASK)
#undef TALLYBLOCK_ASK
    default: return;  // done by App
  }
}

}  // namespace tallyblock
