#include "acts_of_names.h"

#include <utility>

#include "core/entries/entry_fields.h"
#include "web/app/keypad/draft.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

template <class Items>
std::string name_in(const Items& items, const std::string& key) {
  for (const auto& item : items) {
    if (item.key == key) return item.name;
  }
  return {};
}

// A note or a name again, in place of an entry.
void rewrite_text(const OpenSession& open, const std::string& kind, const EntryId& id,
                  const std::string& text, Writing& to) {
  const Entry* before = open.set.find(id);
  if (before == nullptr) return;
  if (kind == "person") {
    to.add(body::Person{text}, {id});
  } else {
    const auto* note = std::get_if<body::Note>(&before->body);
    body::Note changed = note == nullptr ? body::Note{} : *note;
    changed.text = text;
    to.add(std::move(changed), {id});
  }
}

// Facts with a text in them; the other parts of the fact stay as they are.
void write_named(const OpenSession& open, const std::string& kind, const std::string& key,
                 const std::string& text, Writing& to) {
  const auto fact = [&](Body body) { to.add_fact(open, std::move(body)); };
  const auto renamed = [&](auto like) {
    like.key = key;
    const auto* now = latest(open, like);
    if (now == nullptr) return;
    like = *now;
    like.name = text;
    fact(std::move(like));
  };
  const Figures& figures = open.figures;
  if (kind == "piece") fact(body::Piece{text, figures.species, figures.cut});
  if (kind == "species") fact(body::Piece{figures.piece, text, figures.cut});
  if (kind == "cut") fact(body::Piece{figures.piece, figures.species, text});
  if (kind == "specification") fact(body::Specification{text});
  if (kind == "lot") fact(body::Lot{key, text});
  if (kind == "pile") renamed(body::Pile{});
  if (kind == "tub") renamed(body::Tub{});
  if (kind == "step") renamed(body::Step{});
  if (kind != "pile-use") return;
  body::Pile pile;
  pile.key = key;
  if (const auto* now = latest(open, pile)) {
    pile = *now;
    pile.use = text;
    fact(std::move(pile));
  }
}

// Known uses are kept by their names in files.
std::string use_words(const std::string& use) {
  const std::string known = "use." + use;
  return has_words(known) ? say(known) : use;
}

}  // namespace

bool is_note(const std::string& kind) {
  return kind == "note" || kind == "next" || kind == "specification";
}

std::size_t most_bytes(const std::string& id) {
  return is_note(parts_of(id).what) ? kMaxNoteBytes : kMaxNameBytes;
}

std::string saved_text(const OpenSession* open, const AppSettings& settings,
                       const std::string& id) {
  const auto [kind, key] = parts_of(id);
  if (kind == "default")
    return key == "person" ? settings.person : key == "currency" ? settings.currency : "";
  if (open == nullptr) return {};
  const Figures& figures = open->figures;
  if (kind == "piece") return figures.piece;
  if (kind == "species") return figures.species;
  if (kind == "cut") return figures.cut;
  if (kind == "specification") return figures.specification;
  if (kind == "currency") return figures.settings.currency;
  if (kind == "pile") return name_in(figures.piles, key);
  if (kind == "tub") return name_in(figures.tubs, key);
  if (kind == "step") return name_in(figures.steps, key);
  if (kind == "pile-use") {
    for (const PileFigures& pile : figures.piles) {
      if (pile.key == key) return use_words(pile.use);
    }
  }
  if (kind == "lot") {
    const auto found = figures.lot.find(key);
    return found == figures.lot.end() ? std::string() : found->second;
  }
  if (kind == "note" && !key.empty()) {
    for (const NoteLine& note : figures.notes) {
      if (to_text(note.id) == key) return note.text;
    }
  }
  if (kind == "person" && !key.empty()) {
    for (const PersonLine& line : figures.people) {
      if (to_text(line.id) == key) return line.name;
    }
  }
  return {};
}

Made name(const OpenSession& open, Writing to, const std::string& id, const std::string& text) {
  const auto [kind, key] = parts_of(id);
  const auto entry = entry_id_from(key);
  if (kind == "person" && key.empty()) {
    to.add(body::Person{text});
    return {std::move(to), done("notice.person", {text})};
  }
  if ((kind == "note" || kind == "next") && key.empty()) {
    to.add(body::Note{text, std::nullopt, kind == "next"});
  } else if (entry && (kind == "note" || kind == "person")) {
    rewrite_text(open, kind, *entry, text, to);
  } else {
    write_named(open, kind, key, text, to);
  }
  return {std::move(to), done("notice.text-kept", {text})};
}

}  // namespace tallyblock
