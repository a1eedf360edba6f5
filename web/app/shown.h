// What screens read of the app that takes more than one room.
#pragma once
#include <string>

#include "app.h"

namespace tallyblock {

SaveState save_state(const App& app);
bool is_kept(const App& app, const EntryId& id);  // its transaction completed
// Behind the digits of the keypad's field: "g", "EUR per kg", "%", "min", "C".
std::string field_unit(const App& app);
// A name or note, by its id (acts_of_names.h): half typed if any, else the saved value.
std::string text_of(const App& app, const std::string& id);

}  // namespace tallyblock
