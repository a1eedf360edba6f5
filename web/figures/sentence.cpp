#include "sentence.h"

#include <algorithm>

#include "core/base/rounding.h"
#include "web/words/words.h"

namespace tallyblock::show {
namespace {

std::string length(double mm, const Style& style) {
  return mm < 1000.0 ? exact(mm, style) + " mm" : exact(mm / 1000.0, style) + " m";
}

// "price:piece": of the key of a fact the kind is a word.
std::string fact(const std::string& key) {
  const std::size_t end = std::min(key.find(':'), key.size());
  const std::string kind = "kind." + key.substr(0, end);
  return has_words(kind) ? say(kind) + key.substr(end) : key;
}

std::string shown(const Arg& arg, const Style& style) {
  switch (arg.kind()) {
    case Arg::Kind::count:
    case Arg::Kind::number: return number(arg.value(), arg.decimals(), style);
    case Arg::Kind::share: return number(100.0 * arg.value(), arg.decimals(), style) + " %";
    case Arg::Kind::minutes:
      return say("show.minutes", {number(arg.value(), arg.decimals(), style)});
    case Arg::Kind::celsius: return number(arg.value(), arg.decimals(), style) + " C";
    case Arg::Kind::mass: return typed(shown_mass(arg.mass(), style.weight), style);
    case Arg::Kind::length: return length(arg.value(), style);
    case Arg::Kind::money: return money_figures(arg.value(), style);
    case Arg::Kind::typed: return typed(arg.text(), style);
    case Arg::Kind::word: return say(arg.text());
    case Arg::Kind::fact: return fact(arg.text());
    case Arg::Kind::piece: return say("sessions.untitled");
    case Arg::Kind::name:
    case Arg::Kind::code: break;
  }
  return arg.text();
}

}  // namespace

std::vector<std::string> args(const Args& args, const Style& style) {
  std::vector<std::string> out;
  out.reserve(args.size());
  for (const Arg& arg : args) out.push_back(shown(arg, style));
  return out;
}

std::string place(const Place& place) {
  std::string words;
  const auto add = [&words](const std::string& part) {
    if (!words.empty()) words += ", ";
    words += part;
  };
  const auto numbered = [&add](std::string_view key, std::size_t number) {
    add(say(key, {std::to_string(number)}));
  };
  if (place.line > 0) numbered("place.line", place.line);
  if (place.entry > 0) numbered("place.entry", place.entry);
  if (place.byte) numbered("place.byte", *place.byte);
  if (place.field.empty()) return words;
  const std::string known = "where." + place.field;
  if (place.entry > 0) {
    add(say("place.field", {place.field}));
  } else if (words.empty()) {
    add(has_words(known) ? say(known) : place.field);
  } else if (place.field != "file") {  // else all of that line
    add(place.field);
  }
  return words;
}

std::string sentence_key(Code code, const Args& args) {
  const auto count = std::ranges::find(args, Arg::Kind::count, &Arg::kind);
  return count == args.end() ? std::string(key_of(code)) : form_of(key_of(code), count->value());
}

std::string problem(const Problem& problem, const Style& style) {
  return say(sentence_key(problem.code, problem.args), args(problem.args, style),
             place(problem.where));
}

}  // namespace tallyblock::show
