// What App itself says before the other parts of the program are there: trouble with saving, news of the
// stores, notices of what the list of pieces can do.
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kAppWords[] = {
    // where the words of a region differ (words.h)
    {"spelling.US", "abour=abor"},
    {"spelling.PH", "abour=abor"},
    {"spelling.GB", "Grind=Mince grind=mince Ground=Minced"},
    {"spelling.IE", "Grind=Mince grind=mince Ground=Minced"},
    {"spelling.AU", "Grind=Mince grind=mince Ground=Minced"},
    {"spelling.NZ", "Grind=Mince grind=mince Ground=Minced"},
    {"spelling.ZA", "Grind=Mince grind=mince Ground=Minced"},
    {"spelling.IN", "Grind=Mince grind=mince Ground=Minced"},
    // trouble with saving
    {"trouble.ok", "Everything is saved."},
    {"trouble.quota",
     "Not saved: this device is full. Free some space; saving is tried again by itself. You can "
     "export "
     "now."},
    {"trouble.aborted", "Not saved: the device refused to save. It is tried again by itself."},
    {"trouble.closed",
     "Not saved: the connection to the storage was lost. It is tried again by itself; reload if it "
     "stays."},
    {"trouble.timeout", "Not saved yet: the device does not answer. It is tried again by itself."},
    {"trouble.blocked",
     "Not saved: another window holds an older version open. Close the other window."},
    {"trouble.newer",
     "A newer version of this app has stored its data here. Reload to use it. Until then nothing "
     "can "
     "be changed; you can export."},
    {"trouble.not-writer", "Not saved: another window writes now. Take over here to save it."},
    {"trouble.unavailable",
     "This browser keeps nothing here (private window?). Everything is lost when the page closes: "
     "export first."},
    // saving
    {"notice.kept-again", "Everything is saved now."},
    {"notice.not-writer", "Another window writes now. Take over to work here."},
    {"notice.update-unsaved", "Not yet: something is not saved. Update once everything is saved."},
    {"notice.protected", "This browser will not clear what is saved here."},
    {"notice.not-protected",
     "Not protected yet: add this app to the home screen, or export a backup now and then."},
    {"notice.index-rebuilt",
     "Lines of the list of pieces that were damaged and are made again from the entries: {0}."},
    {"notice.unreadable-entries",
     "Stored entries that cannot be read: {0}. They are left as they are; import the session "
     "again."},
    // weighing
    {"notice.nothing-to-undo", "There is nothing left to undo."},
    // piles and the rest
    {"notice.setting-changed", "Changed: {0}"},
    // sessions
    {"session.unnamed", "Unnamed piece"},
    {"notice.not-opened", "It could not be opened. {0}"},
    {"notice.not-there", "This session is not here any more."},
    {"notice.binned", "{0} is in the bin"},
    {"notice.unbinned", "{0} is back"},
    {"notice.erased", "{0} is erased"},
    // the two stores
    {"news.back#one",
     "{0} piece was missing in this browser's database and is back from the second copy."},
    {"news.back",
     "{0} pieces were missing in this browser's database and are back from the second copy."},
    {"news.mended#one", "{0} damaged record was found and is mended from the second copy."},
    {"news.mended", "{0} damaged records were found and are mended from the second copy."},
    {"news.damaged#one",
     "{0} stored record is damaged and does not count. Weigh again what is missing."},
    {"news.damaged",
     "{0} stored records are damaged and do not count. Weigh again what is missing."},
    {"news.wiped",
     "This browser has deleted all that was stored here. If you have a backup, import it."},
    {"news.cleared",
     "What was stored here was deleted while the app was open. The piece on the board is stored "
     "again, and what the second copy held is back."},
    {"news.copied#one", "The second copy of {0} piece was missing and is made again."},
    {"news.copied", "The second copy of {0} pieces was missing and is made again."},
    {"notice.sample-removed", "The sample is gone."},
    // files
    {"notice.online-only",
     "This opens only with a connection: the browser keeps no copy of the program for this "
     "address. "
     "What you weigh is saved on the device all the same."},
    {"notice.timer-clock",
     "The clock of this device jumped while the timer ran. Only what is certain is counted: check "
     "the minutes."},
};

}  // namespace tallyblock
