// The first screen, cautions, and lines seen on every screen.
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kSessionsWords[] = {
    {"sessions.title", "Tallyblock"},
    {"sessions.what",
     "Weigh what you cut from a whole piece; see where every gram and every coin went, and what a "
     "usable kilo and a portion really cost."},
    {"sessions.new", "What is on the board?"},
    {"sessions.new-detail", "Start a new piece"},
    {"sessions.list", "Pieces"},
    {"sessions.none",
     "Nothing weighed yet. Start a new piece, or load the invented sample to look around."},
    {"sessions.untitled", "Piece without a name"},
    {"sessions.same-again", "Same again"},
    {"sessions.invented", "Invented sample"},
    {"sessions.yield", "yield {0}"},
    {"sessions.more", "More"},
    {"sessions.load-sample", "Load the sample"},
    {"sessions.load-sample-detail", "An invented kitchen to look around in"},
    {"sessions.remove-sample", "Remove the sample"},
    {"sessions.remove-sample-detail", "Your own pieces stay"},
    {"sessions.import", "Import a file"},
    {"sessions.to-more", "Import, settings and more"},
    {"sessions.importing", "Importing. Pieces so far: {0}; still to come: {1}."},
    {"sessions.stop-import", "Stop importing"},
    {"sessions.refused", "Not imported: {0}"},
    {"sessions.refused-read", "Close this list"},
    {"sessions.backup", "Back up everything"},
    {"sessions.protect", "Protect what is kept"},
    {"sessions.not-protected",
     "Not protected yet: this browser may clear what it keeps. Install the app to the home screen, "
     "or "
     "export now and then."},
    {"sessions.caution", "Before you cut"},
    {"sessions.caution-seen", "Understood"},
    {"caution.local-codes", "Your local food code comes first, always."},
    {"caution.knife",
     "A knife asks for both eyes: put it down before you type. Speed is never the point here."},
    {"caution.hands",
     "Keep raw meat cold and apart from ready food. Wash hands, board and knife between jobs."},
    {"caution.phone",
     "Raw hands do not touch a phone: put it in a clear bag, or let a second person record the "
     "weights you call out."},
    {"go.sessions", "Pieces"},
    {"go.weigh", "Weigh"},
    {"go.result", "Result"},
    {"go.details", "Details"},
    {"go.share", "Share"},
    {"go.settings", "Settings"},
    {"go.bin", "Bin"},
    {"go.about", "About"},
    {"save.nothing-yet", "Nothing to keep yet"},
    {"save.saving", "Saving"},
    {"save.kept", "Kept"},
    {"save.failed", "Not kept yet"},
    {"save.failed-because", "Not kept yet. {0} Nothing is lost while this page stays open."},
    {"save.retry", "Try again"},
    {"save.export", "Export this piece"},
    {"writer.other", "Another window of this app is writing. This one follows."},
    {"writer.take", "Write here"},
    {"update.waiting", "A new version is ready. Nothing you entered is lost."},
    {"update.adopt", "Update now"},
    {"notice.undo", "Undo"},
    {"notice.close", "Close"},
    {"waiting.loading", "Loading what is kept on this device."},
    {"waiting.part", "One moment, the rest of the app is on its way."},
    {"waiting.part-failed",
     "The rest of the app could not be loaded. Connect to the network once; it is tried again by "
     "itself, and then works without a connection."},
    {"waiting.opening", "Opening the piece."},
    {"waiting.unreadable", "What is kept on this device cannot be read. {0}"},
    {"waiting.again", "Try again"},
};

}  // namespace tallyblock
