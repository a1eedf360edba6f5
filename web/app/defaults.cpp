#include "defaults.h"

#include "web/words/words.h"

namespace tallyblock {

std::string default_name(const DefaultPile& pile) { return say("pile." + std::string(pile.key)); }

body::Pile made_of(const DefaultPile& pile, const std::string& key, const std::string& step) {
  return {key, step, default_name(pile), pile.role, std::string(pile.use)};
}

}  // namespace tallyblock
