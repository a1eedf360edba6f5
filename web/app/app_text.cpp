// App's names and notes: typed through a real input, half-typed text kept like digits.
//
// Ids: piece, species, cut, specification, note, note:<entry>, person, person:<entry>, currency,
// lot:<field>, pile:<key>, pile-use:<key>, tub:<key>, step:<key>, default:person, default:currency.
#include <algorithm>
#include <utility>

#include "app.h"
#include "core/entries/entry_fields.h"
#include "core/json/json_text.h"
#include "tidy.h"
#include "web/words/words.h"

namespace tallyblock {
namespace {

std::string upper(std::string text) {
  for (char& c : text) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return text;
}

template <class Items>
std::string name_in(const Items& items, const std::string& key) {
  for (const auto& item : items) {
    if (item.key == key) return item.name;
  }
  return {};
}

// Known uses are kept by their names in files.
std::string use_words(const std::string& use) {
  const std::string known = "use." + use;
  return has_words(known) ? say(known) : use;
}

bool is_note(const std::string& kind) { return kind == "note" || kind == "specification"; }

}  // namespace

std::size_t most_bytes(const std::string& id) {
  return is_note(parts_of(id).what) ? kMaxNoteBytes : kMaxNameBytes;
}

void App::text_changed(const std::string& id, const std::string& text) {
  if (text_problem(text)) return;  // not UTF-8: no real input gives that
  if (draft_.text_field == id && draft_.text == text) return;
  draft_.text_field = id;
  draft_.text = text;
  changed_draft();
}

void App::clear_text() {
  draft_.text.clear();
  draft_.text_field.clear();
}

std::string App::text_of(const std::string& id) const {
  return draft_.text_field == id ? draft_.text : saved_text(id);
}

std::string App::saved_text(const std::string& id) const {
  const auto [kind, key] = parts_of(id);
  if (kind == "default")
    return key == "person" ? settings_.person : key == "currency" ? settings_.currency : "";
  if (!open_) return {};
  const Figures& figures = open_->figures;
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

void App::text_done(const std::string& id) {
  const NameParts parts = parts_of(id);
  const std::string text = tidied(text_of(id), is_note(parts.what));
  const bool additive = parts.of.empty() && (parts.what == "note" || parts.what == "person");
  if (text == saved_text(id) || (additive && text.empty())) {
    if (draft_.text_field != id) return;
    clear_text();
    return changed_draft();
  }
  save_text(id, text);  // refused: the text stays half typed
  changed();
}

// True if an act was made of it.
bool App::save_text(const std::string& id, const std::string& text) {
  const auto [kind, key] = parts_of(id);
  if (text.size() > most_bytes(id)) {
    tell_error("notice.text-too-long");
    return false;
  }
  if (kind == "default") {
    set_setting(key, text);
    return true;
  }
  if (!may_write()) return false;
  if (kind == "currency") {
    set_session_setting("currency", upper(text));
    return true;
  }
  if (kind == "person" && key.empty()) {
    Writing writing = this->writing();
    const EntryId id_of_person = writing.add(body::Person{text});
    return put(std::move(writing), {"notice.person", {text}, true, false}, [&] {
      draft_.person = to_text(id_of_person);
      clear_text();
    });
  }
  return save_named(kind, key, text);
}

bool App::save_named(const std::string& kind, const std::string& key, const std::string& text) {
  Writing writing = this->writing();
  const auto id = entry_id_from(key);
  if (kind == "note" && key.empty()) {
    writing.add(body::Note{text, std::nullopt});
  } else if (id && (kind == "note" || kind == "person")) {
    rewrite_text(kind, *id, text, writing);
  } else {
    write_named(kind, key, text, writing);
  }
  return put(std::move(writing), {"notice.text-kept", {text}, true, false},
             [this] { clear_text(); });
}

// A note or a name again, in place of an entry.
void App::rewrite_text(const std::string& kind, const EntryId& id, const std::string& text,
                       Writing& writing) const {
  const Entry* before = open_->set.find(id);
  if (before == nullptr) return;
  if (kind == "person") {
    writing.add(body::Person{text}, {id});
  } else {
    const auto* note = std::get_if<body::Note>(&before->body);
    writing.add(body::Note{text, note == nullptr ? std::nullopt : note->about}, {id});
  }
}

// Facts with a text in them; the other parts of the fact stay as they are.
void App::write_named(const std::string& kind, const std::string& key, const std::string& text,
                      Writing& writing) const {
  const auto fact = [&](Body body) {
    std::vector<EntryId> replaces = live_of(body);
    writing.add(std::move(body), std::move(replaces));
  };
  const auto renamed = [&](auto like) {
    like.key = key;
    const auto* now = latest<decltype(like)>(like);
    if (now == nullptr) return;
    like = *now;
    like.name = text;
    fact(std::move(like));
  };
  const Figures& figures = open_->figures;
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
  if (const auto* now = latest<body::Pile>(pile)) {
    pile = *now;
    pile.use = text;
    fact(std::move(pile));
  }
}

}  // namespace tallyblock
