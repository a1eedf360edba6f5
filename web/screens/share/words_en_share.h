// Sharing, backing up, deleting.
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kShareWords[] = {
    {"share.title", "Share: {0}"},
    {"share.what", "The file holds every entry of this piece. Anyone with Tallyblock can read it."},
    {"share.with-names", "Export with names"},
    {"share.with-names-detail", "People and notes are in the file"},
    {"share.without-names", "Export without names"},
    {"share.without-names-detail", "People and notes are left out, nothing else changes"},
    {"share.picture", "The result as a picture"},
    {"share.picture-bare", "Without names"},
    {"share.picture-people", "With who cut it"},
    {"picture.foot", "Weighed with Tallyblock"},
    {"picture.more", "And {0} more"},
    {"share.all", "All pieces, and this one"},
    {"share.all-what", "A backup holds everything that is saved here, the bin excepted."},
    {"share.same-again", "Same again"},
    {"share.delete", "Delete this piece"},
    {"share.delete-detail", "It goes to the bin; undo stands below"},
};

}  // namespace tallyblock
