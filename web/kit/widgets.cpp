// Words and things to tap, put together from boxes and texts.
#include <algorithm>

#include "build_parts.h"
#include "frame.h"

namespace tallyblock {

using namespace parts;

void Kit::heading(std::string_view text, int level, std::string_view path) {
  Frame& f = *frame_;
  const float size = level <= 1   ? style::type_title
                     : level == 2 ? style::type_lead
                                  : style::type_body;
  TextLook look = words(f, size, f.colours().ink);
  look.middle = true;
  const int i = f.add_text(text, look);
  f.describe(i, AccessKind::heading, path.empty() ? f.unnamed(text) : id_of(path), text).level =
      static_cast<std::uint8_t>(std::clamp(level, 1, 3));
}

void Kit::caption(std::string_view text, std::string_view path) {
  Frame& f = *frame_;
  TextLook look = words(f, style::type_body, f.colours().ink);
  look.tight = look.single = true;
  f.describe(f.add_text(text, look), AccessKind::heading, id_of(path), text).level = 3;
}

void Kit::paragraph(std::string_view text, Tone tone, std::string_view path) {
  Frame& f = *frame_;
  if (text.empty()) return;
  TextLook look = words(f, tone == Tone::quiet ? style::type_small : style::type_body, f.ink(tone));
  look.middle = true;
  f.describe(f.add_text(text, look), AccessKind::text, path.empty() ? f.unnamed(text) : id_of(path),
             text);
}

void Kit::status(std::string_view path, std::string_view text, Tone tone) {
  Frame& f = *frame_;
  TextLook look = words(f, style::type_small, f.ink(tone));
  look.middle = true;
  f.describe(f.add_text(text, look), AccessKind::status, id_of(path), text);
}

void Kit::figure(std::string_view path, std::string_view label, std::string_view value,
                 const FigureOptions& options) {
  Frame& f = *frame_;
  const std::uint32_t id = id_of(path);
  const bool explains = !options.explain.empty();
  const int i = f.open_box(Flow::down);
  f.node(i).gap = f.px(2);
  bool open = false;
  if (explains) {
    if (f.make_target(i, id, true)) toggle(f.explained, id);
    open = std::find(f.explained.begin(), f.explained.end(), id) != f.explained.end();
    card(f, f.node(i), f.is_pressed(id));
  }
  const bool is_huge = options.size == FigureSize::huge;
  if (!label.empty()) {
    f.add_text(label, is_huge ? words(f, style::type_body, f.colours().ink)
                              : words(f, style::type_small, f.colours().quiet));
  }
  const bool is_key = options.size == FigureSize::key || is_huge;
  const float size = is_huge                             ? style::type_huge
                     : is_key                            ? style::type_key
                     : options.size == FigureSize::small ? style::type_lead
                                                         : style::type_title;
  TextLook look = words(f, size, f.ink(options.tone));
  look.figure = true;
  look.tight = label.empty();
  look.dotted = explains;
  const int v = f.add_text(value, look);
  f.node(v).suffix = f.arena.keep(options.unit);
  f.node(v).suffix_size = f.type(is_huge  ? style::type_key
                                 : is_key ? style::type_lead
                                          : style::type_body);
  const std::string shown = joined(value, " ", options.unit);
  if (explains) {
    AccessNode& a = f.describe(i, AccessKind::button, id, joined(label, ": ", shown));
    a.value = shown;
    a.expanded = open ? 1 : 0;
  } else {
    f.describe(i, AccessKind::value, id, label.empty() ? options.name : label, shown);
  }
  if (!options.doubt.empty()) {
    const int t = f.add_text(options.doubt, words(f, style::type_small, f.colours().warn));
    f.describe(t, AccessKind::text, id_of(joined(path, "/", "doubt")), options.doubt);
  }
  if (open) {
    const int t = f.add_text(options.explain, words(f, style::type_small, f.colours().ink));
    f.describe(t, AccessKind::text, id_of(joined(path, "/", "why")), options.explain);
  }
  f.close_box();
}

bool Kit::button(std::string_view path, std::string_view label, const ButtonOptions& options) {
  Frame& f = *frame_;
  const Palette& p = f.colours();
  const std::uint32_t id = id_of(path);
  const int i = f.open_box(Flow::down);
  const bool tapped = f.make_target(i, id, options.enabled);
  Node& n = f.node(i);
  n.middle = true;
  n.gap = 0;
  n.pad_x = f.px(style::pad);
  n.pad_y = f.px(style::gap);
  n.corner = f.px(style::corner);
  const bool held = f.is_pressed(id), on = options.pressed.value_or(false);
  Colour ink = p.ink;
  if (options.kind == ButtonKind::primary && options.enabled) {
    n.ground = held ? p.primary_pressed : p.primary;
    ink = p.on_notice;
  } else if (options.kind != ButtonKind::quiet || held || on) {
    n.ground = held ? p.pressed : on ? p.chosen : p.raised;
    n.border = on ? p.accent : options.enabled ? p.edge : p.edge_soft;
    n.border_w = f.px(on ? style::ring : style::edge);
  }
  if (!options.enabled) ink = p.disabled;
  if (options.size == ButtonSize::large) n.least_h = f.px(style::target_large);
  const bool usual = options.size == ButtonSize::usual;
  TextLook look = words(f, usual ? style::type_body : style::type_lead, ink);
  look.align = Align::middle;
  f.add_text(label, look);
  if (!options.detail.empty()) {
    TextLook small = words(f, style::type_small, options.enabled && ink == p.ink ? p.quiet : ink);
    small.align = Align::middle;
    f.add_text(options.detail, small);
  }
  AccessNode& a =
      f.describe(i, AccessKind::button, id,
                 options.name.empty() ? joined(label, ", ", options.detail) : options.name);
  a.enabled = options.enabled;
  if (options.pressed) a.pressed = on ? 1 : 0;
  if (options.expanded) a.expanded = *options.expanded ? 1 : 0;
  f.close_box();
  return tapped;
}

bool Kit::place(std::string_view path, std::string_view label, bool current) {
  Frame& f = *frame_;
  const Palette& p = f.colours();
  const std::uint32_t id = id_of(path);
  const int i = f.open_box(Flow::down);
  const bool tapped = f.make_target(i, id, true);
  Node& n = f.node(i);
  n.share = 1;
  n.middle = true;
  n.pad_x = f.px(style::grid);
  n.corner = f.px(style::corner);
  const bool held = f.is_pressed(id);
  n.ground = current ? p.primary : held ? p.pressed : 0;
  TextLook look = words(f, style::type_body, current ? p.on_notice : p.ink);
  look.align = Align::middle;
  f.add_text(label, look);
  f.describe(i, AccessKind::button, id, label).pressed = current ? 1 : 0;
  f.close_box();
  return tapped;
}

void Kit::link(std::string_view path, std::string_view label, std::string_view page) {
  button(path, label, {.kind = ButtonKind::quiet});
  AccessNode& a = frame_->access[frame_->access_used - 1];
  a.kind = AccessKind::link;
  a.value.assign(page);
}

int Kit::choice(std::string_view path, std::string_view label,
                const std::vector<std::string_view>& options, int chosen) {
  Frame& f = *frame_;
  int result = -1;
  f.node(f.open_box(Flow::down)).gap = f.px(style::grid);
  if (!label.empty()) {
    const int t = f.add_text(label, words(f, style::type_small, f.colours().quiet));
    f.describe(t, AccessKind::text, id_of(joined(path, "/", "label")), label);
  }
  const int cells = f.open_box(Flow::cells);
  f.node(cells).columns = static_cast<int>(options.size());
  for (std::size_t o = 0; o < options.size(); ++o) {
    const std::string at = joined(path, "/", std::to_string(o));
    const std::string name = label.empty() ? std::string() : joined(label, ": ", options[o]);
    if (button(at, options[o], {.pressed = static_cast<int>(o) == chosen, .name = name})) {
      result = static_cast<int>(o);
    }
  }
  f.close_box();
  f.close_box();
  return result;
}

bool Kit::tile(std::string_view path, std::string_view name, const TileOptions& options) {
  Frame& f = *frame_;
  const Palette& p = f.colours();
  const std::uint32_t id = id_of(path);
  const int i = f.open_box(Flow::across);
  const bool tapped = f.make_target(i, id, options.enabled);
  card(f, f.node(i), f.is_pressed(id));
  Node& n = f.node(i);
  n.rigid = true;
  n.least_h = f.px(style::target_tile);
  n.border = options.chosen || options.wanted ? p.accent : p.edge;
  n.border_w = f.px(options.chosen   ? style::edge_chosen
                    : options.wanted ? style::ring
                                     : style::edge);
  if (options.chosen && !f.is_pressed(id)) n.ground = p.chosen;
  n.pad_x = f.px(options.compact ? style::gap : style::pad);
  n.pad_y = f.px(style::tight_pad);
  const int texture = f.add_swatch(options.look, options.variant, false);
  if (options.compact) f.node(texture).least_w = f.px(style::swatch_band);
  const int words_box = f.open_box(Flow::down);
  f.node(words_box).gap = 0;
  f.node(words_box).middle = true;
  const Colour ink = options.enabled ? p.ink : p.disabled;
  TextLook name_look = words(f, style::type_body, ink);
  name_look.tight = true;
  f.add_text(name, name_look);
  if (!options.weight.empty()) {
    TextLook look = words(f, style::type_title, ink);
    look.figure = look.tight = true;
    look.least = style::shrink_most;  // pounds and ounces are long: two abreast all the same
    const int weight = f.add_text(options.weight, look);
    if (options.compact && !options.word.empty()) {
      f.node(weight).suffix = f.arena.keep(options.word);
      f.node(weight).suffix_size = f.type(style::type_small);
    }
  }
  const std::string second = joined(options.share, ", ", options.note);
  if (!second.empty() && !options.compact) {
    f.add_text(second, words(f, style::type_small, options.enabled ? p.quiet : p.disabled));
  }
  f.close_box();
  f.close_box();
  AccessNode& a = f.describe(
      i, AccessKind::button, id,
      joined(joined(joined(name, ", ", options.weight), ", ", second), ", ", options.act));
  a.enabled = options.enabled;
  a.pressed = options.chosen ? 1 : 0;
  return tapped;
}

}  // namespace tallyblock
