#include "shown.h"

#include "web/app/acts/acts_of_names.h"

namespace tallyblock {

SaveState save_state(const App& app) { return app.keeper().state(app.desk().any_entries()); }

bool is_kept(const App& app, const EntryId& id) {
  const OpenSession* open = app.session();
  return open != nullptr && open->set.find(id) != nullptr &&
         app.keeper().is_kept(entry_key(open->id, id));
}

std::string field_unit(const App& app) {
  return app.keypad().unit(app.desk(), app.shelf().settings);
}

std::string text_of(const App& app, const std::string& id) {
  return app.draft().text_field == id ? app.draft().text
                                      : saved_text(app.session(), app.shelf().settings, id);
}

}  // namespace tallyblock
