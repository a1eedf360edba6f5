// parse_json: words of the text, then values of the words, gone through once and without recursion.
#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "core/base/decimal.h"
#include "core/base/sorted.h"
#include "json_text.h"

namespace tallyblock {
namespace {

constexpr int kEnd = -1;

void append_utf8(unsigned code, std::string& out) {
  const auto tail = [&](int shift) { out += static_cast<char>(0x80u | (code >> shift & 0x3Fu)); };
  if (code < 0x80) {
    out += static_cast<char>(code);
  } else if (code < 0x800) {
    out += static_cast<char>(0xC0u | code >> 6);
  } else if (code < 0x10000) {
    out += static_cast<char>(0xE0u | code >> 12);
    tail(6);
  } else {
    out += static_cast<char>(0xF0u | code >> 18);
    tail(12);
    tail(6);
  }
  if (code >= 0x80) tail(0);
}

// What the grammar of RFC 8259 is made of.
enum class Word { literal, string, number, open, close, comma, colon, end, bad };

class Words {
 public:
  explicit Words(std::string_view all) : text_(all) {
    for (const char c : {'\xEF', '\xBB', '\xBF'}) {  // a mark of the byte order, or no text of ours
      if (bad_ || !text_.starts_with('\xEF')) break;
      bad_ = next() != static_cast<unsigned char>(c);
    }
  }

  // A string's characters are in `text` then, a number or literal as it is written.
  Word read() {
    if (bad_) return Word::bad;
    while (peek() == ' ' || peek() == '\t' || peek() == '\n' || peek() == '\r') ++at_;
    const std::size_t begin = at_;
    first = next();
    Word word = Word::bad;
    switch (first) {
      case kEnd: return Word::end;
      case '{':
      case '[': return Word::open;
      case '}':
      case ']': return Word::close;
      case ',': return Word::comma;
      case ':': return Word::colon;
      case '"': return string() ? Word::string : Word::bad;
      case 't': word = literal("rue"); break;
      case 'f': word = literal("alse"); break;
      case 'n': word = literal("ull"); break;
      default: word = number() ? Word::number : Word::bad;
    }
    if (word != Word::bad) text = text_.substr(begin, at_ - begin);
    return word;
  }

  int first = kEnd;    // character of the word
  bool whole = false;  // of a number: neither point nor exponent
  std::string text;

  // How many bytes were looked at; the end counts as one.
  std::size_t looked_at() const { return at_; }

 private:
  int peek() const { return at_ < text_.size() ? static_cast<unsigned char>(text_[at_]) : kEnd; }
  int next() {
    const int c = peek();
    ++at_;
    return c;
  }
  Word literal(std::string_view rest) {
    for (const char c : rest) {
      if (next() != c) return Word::bad;
    }
    return Word::literal;
  }

  bool digit() const { return peek() >= '0' && peek() <= '9'; }
  bool digits() {  // one or more; what is there instead was looked at
    if (!digit()) {
      ++at_;
      return false;
    }
    while (digit()) ++at_;
    return true;
  }
  bool number() {
    const int top = first == '-' ? next() : first;
    if (top < '0' || top > '9') return false;
    while (top != '0' && digit()) ++at_;
    whole = true;
    if (peek() == '.') {
      whole = false;
      ++at_;
      if (!digits()) return false;
    }
    if (peek() == 'e' || peek() == 'E') {
      whole = false;
      ++at_;
      if (peek() == '+' || peek() == '-') ++at_;
      return digits();
    }
    return true;
  }

  // Of four hexadecimal digits, or kEnd.
  int code_unit() {
    int unit = 0;
    for (int i = 0; i < 4; ++i) {
      const int c = next();
      if (c >= '0' && c <= '9') {
        unit = unit * 16 + (c - '0');
      } else if ((c | 0x20) >= 'a' && (c | 0x20) <= 'f') {
        unit = unit * 16 + ((c | 0x20) - 'a' + 10);
      } else {
        return kEnd;
      }
    }
    return unit;
  }
  // Beyond 16 bits it is written as two of them.
  bool escaped() {
    int code = code_unit();
    if (code == kEnd || (code & 0xFC00) == 0xDC00) return false;
    if ((code & 0xFC00) == 0xD800) {
      if (next() != '\\' || next() != 'u') return false;
      const int low = code_unit();
      if (low == kEnd || (low & 0xFC00) != 0xDC00) return false;
      code = 0x10000 + (code - 0xD800) * 0x400 + (low - 0xDC00);
    }
    append_utf8(static_cast<unsigned>(code), text);
    return true;
  }
  bool string() {
    constexpr std::string_view letters = "\"\\/bfnrt", meant = "\"\\/\b\f\n\r\t";
    text.clear();
    for (;;) {
      int c = next();
      if (c == '"') return true;
      if (c < 0x20) return false;  // the end too
      if (c == '\\') {
        c = next();
        const std::size_t letter = c == kEnd ? letters.npos : letters.find(static_cast<char>(c));
        if (c == 'u') {
          if (!escaped()) return false;
          continue;
        }
        if (letter == letters.npos) return false;
        c = meant[letter];
      }
      text += static_cast<char>(c);
    }
  }

  std::string_view text_;
  std::size_t at_ = 0;
  bool bad_ = false;
};

class Reader {
 public:
  Reader(std::string_view text, int max_depth) : words_(text), max_depth_(max_depth) {}

  Result<Json> read() {
    if (!one_value()) {
      if (!problem_) wrong(Code::file_not_json);
      return std::move(*problem_);
    }
    return std::move(root_);
  }

 private:
  bool refuse(Problem problem) {
    problem_ = std::move(problem);
    return false;
  }
  bool wrong(Code code) { return refuse({code, Place::at_byte(words_.looked_at()), {}}); }

  bool one_value() {
    Word word = words_.read();
    for (;;) {
      if (word == Word::open) {
        const bool object = words_.first == '{';
        if (!open(object ? Json::object() : Json::array())) return false;
        word = words_.read();
        const bool empty = word == Word::close && (words_.first == '}') == object;
        if (!empty) {
          if (object && !key(word)) return false;
          continue;
        }
        if (!close()) return false;
      } else if (!simple(word)) {
        return false;
      }
      // what it was the last of ends with it
      while (!open_.empty()) {
        const bool object = open_.back()->type == Json::Type::object;
        word = words_.read();
        if (word == Word::comma) {
          word = words_.read();
          if (object && !key(word)) return false;
          break;
        }
        if (word != Word::close || (words_.first == '}') != object || !close()) return false;
      }
      if (open_.empty()) return words_.read() == Word::end;
    }
  }

  // The key, the colon and the first word of the value.
  bool key(Word& word) {
    if (word != Word::string) return false;
    key_ = std::move(words_.text);
    if (words_.read() != Word::colon) return false;
    word = words_.read();
    return true;
  }

  bool simple(Word word) {
    Json value;
    if (word == Word::string) {
      value.type = Json::Type::string;
      value.text = std::move(words_.text);
    } else if (word == Word::literal) {
      if (words_.first != 'n') value = Json::truth(words_.first == 't');
    } else if (word == Word::number) {
      const std::string& written = words_.text;
      std::int64_t integer = 0;
      const char* end = written.data() + written.size();
      if (words_.whole && std::from_chars(written.data(), end, integer).ec == std::errc{}) {
        value = Json::number(integer);
      } else {
        if (!std::isfinite(read_decimal(written).value)) return wrong(Code::file_field_value);
        value.type = Json::Type::number;
        value.text = written;
      }
    } else {
      return false;
    }
    return add(std::move(value)) != nullptr;
  }

  // The place of the new value, null if there are too many. A pointer to an open value stays good:
  // its parent gets no other child before it is closed.
  Json* add(Json value) {
    if (++values_ > kMaxJsonValues) {
      refuse({Code::file_too_many, "file", {Arg::count(kMaxJsonValues)}});
      return nullptr;
    }
    if (open_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Json& parent = *open_.back();
    if (parent.type == Json::Type::object) value.key = std::move(key_);
    parent.children.push_back(std::move(value));
    return &parent.children.back();
  }
  bool open(Json value) {
    if (static_cast<int>(open_.size()) >= max_depth_) {
      return refuse({Code::file_too_deep, "file", {Arg::number(max_depth_)}});
    }
    Json* place = add(std::move(value));
    if (place) open_.push_back(place);
    return place != nullptr;
  }
  bool close() {
    Json& closed = *open_.back();
    open_.pop_back();
    if (closed.type != Json::Type::object) return true;
    std::vector<Json>& members = closed.children;
    heap_sort(members, [](const Json& a, const Json& b) { return a.key < b.key; });
    const auto twice =
        std::adjacent_find(members.begin(), members.end(),
                           [](const Json& a, const Json& b) { return a.key == b.key; });
    if (twice == members.end()) return true;
    const bool fits = !twice->key.empty() && twice->key.size() <= 40;
    const std::string shown = fits ? twice->key : "object";
    return refuse({Code::file_field_value, shown, {Arg::code(shown)}});
  }

  Words words_;
  int max_depth_;
  std::size_t values_ = 0;
  Json root_;
  std::string key_;
  std::vector<Json*> open_;
  std::optional<Problem> problem_;
};

}  // namespace

Result<Json> parse_json(std::string_view text, int max_depth) {
  if (auto problem = text_problem(text)) return *std::move(problem);
  return Reader(text, max_depth).read();
}

}  // namespace tallyblock
