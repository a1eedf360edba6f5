// Acts on the open session besides typed figures: piles, voids, moves, tubs, steps, quality.
//
// Each answers its entries, or why there are none; nothing at all where there is nothing to do. Of keys and
// ids that are not there nothing is made. `fresh`: random characters for a key.
#pragma once
#include <string>
#include <vector>

#include "web/app/desk/writing.h"

namespace tallyblock {

// Of that step, name, role and use; its key is made.
Made add_pile(const OpenSession& open, Writing to, const body::Pile& like,
              const std::string& fresh);
// The piles of that set (defaults.h), in place of those that are there; a pile of the first step that is not
// among them goes if nothing lies on it.
Made use_set(const OpenSession& open, Writing to, const std::string& key);
Made set_pile_role(const OpenSession& open, Writing to, const std::string& pile, Role role);
Made set_by_difference(const OpenSession& open, Writing to, const std::string& pile, bool on);
Made move_reading(const OpenSession& open, Writing to, const EntryId& id,
                  const std::string& to_pile);

Made void_all(Writing to, const std::vector<EntryId>& ids, Notice notice);
// An entry with what it replaced, and what was trimmed off a block.
Made void_entry(const OpenSession& open, Writing to, const EntryId& id);
Made restore_entry(const OpenSession& open, Writing to, const EntryId& id);  // voids the voids
// All are out already: nothing would be undone.
bool all_void(const OpenSession& open, const std::vector<EntryId>& ids);

Made add_tub(const OpenSession& open, Writing to, const std::string& name,
             const std::string& fresh);
// A step of that process with the piles it begins with, the first of them the first entry after the step.
Made break_down(const OpenSession& open, Writing to, const std::string& pile,
                const std::string& name, Process process, const std::string& fresh);
// With its piles, what lies on them, and the steps that go on from them.
Made take_out_step(const OpenSession& open, Writing to, const std::string& step);
// The tolerance that is usual for a portion of that weight, instead of one of its own.
Made usual_tolerance(const OpenSession& open, Writing to, const std::string& pile);
Made set_quality(const OpenSession& open, Writing to, const std::string& check, bool pass);
// Precondition: the setting is valid.
Made set_session_setting(const OpenSession& open, Writing to, const std::string& key,
                         const std::string& value);

}  // namespace tallyblock
