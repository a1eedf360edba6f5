// The keypad, its display, and boxes for names and notes.
#include "build_parts.h"
#include "frame.h"

namespace tallyblock {

using namespace parts;

namespace {

// What the digits are of, at their left.
void display_label(Frame& f, std::string_view path, std::string_view label,
                   const DisplayOptions& options) {
  const Palette& p = f.colours();
  const int said = f.open_box(Flow::down);
  f.node(said).share = options.done ? 0.9F : 0.62F;
  f.node(said).middle = true;
  f.node(said).gap = 0;
  TextLook small = words(f, style::type_body, options.done ? p.ink : p.quiet);
  small.tight = true;
  const int spoken = f.add_text(label, small);
  if (!options.said.empty()) {
    f.describe(spoken, AccessKind::status, Kit::id_of(joined(path, "/", "said")), options.said);
  }
  if (!options.note.empty()) {
    TextLook note = words(f, style::type_small, p.quiet);
    note.tight = note.single = true;
    f.add_text(options.note, note);
  }
  f.close_box();
}

}  // namespace

bool Kit::keypad_display(std::string_view path, std::string_view label, std::string_view digits,
                         const DisplayOptions& options) {
  Frame& f = *frame_;
  const Palette& p = f.colours();
  const std::uint32_t id = id_of(path);
  const int outer = f.open_box(Flow::down);
  f.node(outer).gap = f.px(style::grid);
  const int i = f.open_box(Flow::across);
  f.node(i).stretch = true;
  const bool tapped = options.opens && f.make_target(i, id, true);
  card(f, f.node(i), f.is_pressed(id));
  Node& n = f.node(i);
  n.rigid = true;
  n.pad_y = f.px(style::tight_pad);
  const bool waits = options.active && !options.done;
  n.border = !options.problem.empty() ? p.bad : waits ? p.accent : p.edge;
  n.border_w = f.px(waits ? style::ring : style::edge);
  n.least_h = f.px(style::target_display);
  display_label(f, path, label, options);
  const bool is_empty = digits.empty();
  TextLook look =
      words(f, is_empty ? style::type_body : style::type_display, is_empty ? p.quiet : p.ink);
  look.align = Align::right;
  look.figure = !is_empty;
  look.middle = true;
  look.caret = waits;
  // Before the first digit the unit stands alone, so that one knows what is asked for.
  const bool unit_alone = is_empty && options.hint.empty();
  const int d = f.add_text(!is_empty ? digits : unit_alone ? options.unit : options.hint, look);
  if (!unit_alone) {
    f.node(d).suffix = f.arena.keep(options.unit);
    f.node(d).suffix_size = f.type(style::type_lead);
  }
  const std::string shown =
      joined(joined(is_empty ? options.hint : digits, " ", options.unit), ", ", options.note);
  if (options.opens) {
    f.describe(i, AccessKind::button, id, joined(label, ": ", shown), shown);
  } else {
    f.describe(i, AccessKind::value, id, label, shown);
  }
  f.close_box();
  if (!options.problem.empty()) {
    const int t = f.add_text(options.problem, words(f, style::type_small, p.bad));
    f.describe(t, AccessKind::status, id_of(joined(path, "/", "problem")), options.problem);
  }
  f.close_box();
  return tapped;
}

namespace {

struct Pad {
  Frame& f;
  std::string_view path;
  const KeypadOptions& options;

  // One key. Its name for who does not see it is its label, unless the label is a sign.
  int key(std::string_view key_name, std::string_view label, std::string_view said, float size,
          bool enabled = true, bool loud = false, bool on = false, std::optional<Look> look_of = {},
          std::uint8_t variant = 0) {
    const Palette& p = f.colours();
    const std::uint32_t id = Kit::id_of(joined(path, "/", key_name));
    const int i = f.open_box(Flow::down);
    if (f.make_target(i, id, enabled)) f.keypad_key.assign(key_name);
    Node& n = f.node(i);
    n.middle = true;
    n.gap = look_of ? f.px(style::grid) : 0;
    n.least_h = f.px(style::target_key);
    n.pad_x = f.px(style::grid);
    n.corner = f.px(style::corner);
    const bool held = f.is_pressed(id);
    n.ground = loud && enabled ? (held ? p.primary_pressed : p.primary)
               : held          ? p.pressed
               : on            ? p.chosen
                               : p.raised;
    n.border = on ? p.accent : loud && enabled ? 0 : enabled ? p.edge : p.edge_soft;
    n.border_w = f.px(on ? style::ring : style::edge);
    if (look_of) {
      const int swatch = f.add_swatch(*look_of, variant, false);
      if (loud) f.node(swatch).border = p.on_notice;
    }
    TextLook look = words(f, size, !enabled ? p.disabled : loud ? p.on_notice : p.ink);
    look.align = Align::middle;
    look.figure = size > style::type_body;
    f.add_text(label, look);
    AccessNode& a = f.describe(i, AccessKind::button, id, said.empty() ? label : said);
    a.enabled = enabled;
    if (key_name.substr(0, 5) == "unit:") a.pressed = on ? 1 : 0;
    f.close_box();
    return i;
  }

  void digit(char d) {
    const std::string_view one(&d, 1);
    key(one, one, {}, style::type_title);
  }

  // Units, marks and signs, in a row above the digits.
  void extras() {
    const bool some =
        options.units.size() > 1 || !options.marks.empty() || options.fractions || options.minus;
    if (!some) return;
    const int row = f.open_box(Flow::cells);
    f.node(row).columns = 6;
    for (const std::string_view unit : options.units) {
      if (options.units.size() < 2) break;
      key(joined("unit:", "", unit), unit, {}, style::type_body, true, false, unit == options.unit);
    }
    for (const std::string_view mark : options.marks) key(mark, mark, {}, style::type_body);
    if (options.fractions) {
      key("space", options.space_label, options.space_name, style::type_body);
      key("/", "/", options.slash_name, style::type_title);
    }
    if (options.minus) key("minus", options.minus_label, {}, style::type_body);
    f.close_box();
  }

  void digits() {
    const int cells = f.open_box(Flow::down);
    f.node(cells).share = 3;
    const auto row = [&] {
      Node& n = f.node(f.open_box(Flow::across));
      n.rigid = n.stretch = true;
    };
    constexpr std::string_view rows[] = {"789", "456", "123"};
    for (const std::string_view r : rows) {
      row();
      for (const char d : r) digit(d);
      f.close_box();
    }
    row();
    const std::string_view mark(&options.decimal, 1);
    key(".", mark, options.decimal_name, style::type_title);
    digit('0');
    key("back", options.back_label, options.back_name, style::type_body);
    f.close_box();
    f.close_box();
  }

  // Beside the digits: the side key above, if any, and the enter key.
  void beside() {
    if (options.side_label.empty()) return enter();
    const int column = f.open_box(Flow::down);
    f.node(column).share = 1.2F;
    const int side = key("side", options.side_label, options.side_name, style::type_body);
    f.node(side).ground = options.side_open ? f.colours().chosen : f.colours().raised;
    f.access[static_cast<std::size_t>(f.node(side).access)].expanded = options.side_open ? 1 : 0;
    enter();
    f.close_box();
  }

  // The enter key is as high as the digits: it is found without looking.
  void enter() {
    if (options.enter_label.empty()) return;
    const std::string said = joined(options.enter_label, ", ", options.enter_detail);
    const int i = key("enter", options.enter_label, said, style::type_body, options.enter_enabled,
                      options.enter_enabled, false, options.enter_look, options.enter_variant);
    f.node(i).share = 1.2F;
    f.node(i).stretch = true;
    if (options.enter_detail.empty()) return;
    f.open.push_back(i);
    TextLook look = words(f, style::type_body,
                          options.enter_enabled ? f.colours().on_notice : f.colours().disabled);
    look.align = Align::middle;
    f.add_text(options.enter_detail, look);
    f.open.pop_back();
  }
};

// What a key of a keyboard means to the keypad; empty: nothing.
std::string_view meaning(std::string_view key, const KeypadOptions& options) {
  constexpr std::string_view digits = "0123456789";
  if (key.size() == 1 && digits.find(key[0]) != std::string_view::npos) return key;
  if (key == "." || key == ",") return ".";
  if (key == "/" && options.fractions) return "/";
  if (key == " " && options.fractions) return "space";
  if (key == "-" && options.minus) return "minus";
  if (key == "Backspace") return "back";
  if (key == "Enter" && !options.enter_label.empty() && options.enter_enabled) return "enter";
  return {};
}

}  // namespace

std::string_view Kit::keypad(std::string_view path, const KeypadOptions& options) {
  Frame& f = *frame_;
  f.keypad_key.assign(meaning(f.key, options));
  Pad pad = {f, path, options};
  Node& whole = f.node(f.open_box(Flow::down));
  whole.turn = static_cast<std::uint8_t>(options.turn);
  whole.grow_by = 4 * f.px(options.grow_by);
  pad.extras();
  const int body = f.open_box(Flow::across);
  f.node(body).rigid = f.node(body).stretch = true;
  f.node(body).reversed = f.in.left_hand;
  pad.digits();
  pad.beside();
  f.close_box();
  f.close_box();
  return f.keypad_key;
}

std::optional<TextChange> Kit::text_box(std::string_view path, std::string_view label,
                                        std::string_view value, const TextBoxOptions& options) {
  Frame& f = *frame_;
  const Palette& p = f.colours();
  const std::uint32_t id = id_of(path);
  f.node(f.open_box(Flow::down)).gap = f.px(style::grid);
  f.add_text(label, words(f, style::type_small, p.quiet));
  const int i = f.open_box(Flow::down);
  f.make_target(i, id, options.enabled);
  card(f, f.node(i), false);
  Node& n = f.node(i);
  n.border = options.enabled ? p.edge : p.edge_soft;
  n.pad_y = f.px(style::pad);
  n.least_h = f.px(options.multiline ? 2 * style::target : style::target);
  n.middle = !options.multiline;
  const Colour ink = !options.enabled ? p.disabled : value.empty() ? p.quiet : p.ink;
  TextLook look = words(f, style::type_body, ink);
  look.stand_in = true;
  look.single = value.empty() && !options.multiline;
  f.add_text(value.empty() ? options.hint : value, look);
  AccessNode& a = f.describe(i, AccessKind::textbox, id, label, value);
  a.enabled = options.enabled;
  a.multiline = options.multiline;
  a.max_length = options.max_length;
  a.hint.assign(options.hint);
  f.close_box();
  f.close_box();
  if (f.typed.id == id) return f.typed;
  return std::nullopt;
}

}  // namespace tallyblock
