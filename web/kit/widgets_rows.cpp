// Rows of lists, notices, swatches.
#include "build_parts.h"
#include "frame.h"

namespace tallyblock {

using namespace parts;

RowTap Kit::list_row(std::string_view path, std::string_view title, const ListRowOptions& options) {
  Frame& f = *frame_;
  const Palette& p = f.colours();
  const std::uint32_t id = id_of(path);
  RowTap result = RowTap::none;
  const int outer = f.open_box(Flow::across);
  f.node(outer).least_h = f.px(style::target);
  const int i = f.open_box(Flow::across);
  Node& n = f.node(i);
  n.least_h = f.px(style::target);
  if (options.opens) {
    f.node(i).least_h = f.px(style::target_key);
    if (f.make_target(i, id, true)) result = RowTap::row;
    card(f, f.node(i), f.is_pressed(id));
    f.node(i).border = options.chosen ? p.accent : p.edge;
    if (options.chosen) f.node(i).border_w = f.px(style::ring);
  }
  if (options.look) f.add_swatch(*options.look, options.variant, true);
  const int texts = f.open_box(Flow::down);
  f.node(texts).gap = 0;
  f.node(texts).middle = true;
  f.add_text(title, words(f, style::type_body, options.struck ? p.quiet : p.ink));
  if (!options.detail.empty()) f.add_text(options.detail, words(f, style::type_small, p.quiet));
  f.close_box();
  if (!options.value.empty()) {
    TextLook look = words(f, style::type_lead, options.struck ? p.quiet : p.ink);
    look.figure = look.middle = true;
    look.align = Align::right;
    look.struck = options.struck;
    f.node(f.add_text(options.value, look)).share = 0;
  }
  f.close_box();
  const std::string what = joined(title, ", ", joined(options.value, ", ", options.detail));
  const std::string said = options.opens ? joined(options.act, ": ", what) : what;
  AccessNode& a = f.describe(i, options.opens ? AccessKind::button : AccessKind::text, id, said);
  if (options.folds) {
    a.expanded = options.chosen ? 1 : 0;
  } else if (options.opens && options.chosen) {
    a.pressed = 1;
  }
  const auto act = [&](std::string_view label, std::string_view tail, RowTap tap) {
    if (label.empty()) return;
    const std::string at = joined(path, "/", tail);
    if (button(at, label, {.name = joined(joined(label, ": ", title), ", ", options.value)}))
      result = tap;
    for (int c = f.node(outer).first; c >= 0; c = f.node(c).next) {
      if (c != i) f.node(c).share = 0;
    }
  };
  act(options.action, "action", RowTap::action);
  act(options.action2, "action2", RowTap::action2);
  f.close_box();
  return result;
}

bool Kit::chapter(std::string_view path, std::string_view title, const ChapterOptions& options) {
  Frame& f = *frame_;
  const Palette& p = f.colours();
  const std::uint32_t id = id_of(path);
  const int i = f.open_box(Flow::across);
  const bool tapped = f.make_target(i, id, true);
  card(f, f.node(i), f.is_pressed(id));
  Node& n = f.node(i);
  n.pad_y = f.px(style::tight_pad);
  n.border = options.open ? p.accent : p.edge_soft;
  n.border_w = f.px(options.open ? style::ring : style::edge);
  TextLook name = words(f, style::type_body, p.ink);
  name.middle = name.tight = true;
  f.add_text(title, name);
  if (!options.value.empty()) {
    TextLook look = words(f, style::type_title, f.ink(options.tone));
    look.figure = look.middle = look.tight = true;
    look.align = Align::right;
    f.node(f.add_text(options.value, look)).share = 0;
  }
  f.close_box();
  f.describe(i, AccessKind::button, id, joined(title, ", ", options.value)).expanded =
      options.open ? 1 : 0;
  return tapped;
}

NoticeTap Kit::notice_bar(std::string_view path, std::string_view text,
                          const NoticeOptions& options) {
  Frame& f = *frame_;
  const Palette& p = f.colours();
  NoticeTap result = NoticeTap::none;
  const int i = f.open_box(Flow::across);
  Node& n = f.node(i);
  n.ground = options.is_error ? p.bad_ground : p.notice;
  n.border = options.is_error ? p.bad : 0;
  n.border_w = f.px(style::edge);
  n.corner = f.px(style::corner);
  n.pad_x = f.px(style::pad);
  n.pad_y = f.px(style::grid);
  n.least_h = f.px(style::target_key);
  n.snug = true;
  TextLook look = words(f, style::type_body, options.is_error ? p.bad : p.on_notice);
  look.middle = true;
  const int t = f.add_text(text, look);
  f.describe(t, AccessKind::status, id_of(path), text);
  if (!options.undo.empty() && button(joined(path, "/", "undo"), options.undo))
    result = NoticeTap::undo;
  if (!options.close.empty() && button(joined(path, "/", "close"), options.close))
    result = NoticeTap::close;
  f.close_box();
  return result;
}

void Kit::swatch(std::string_view path, std::string_view label, Look look, std::uint8_t variant) {
  Frame& f = *frame_;
  const int i = f.open_box(Flow::across);
  f.add_swatch(look, variant, true);
  TextLook text = words(f, style::type_small, f.colours().ink);
  text.middle = true;
  f.add_text(label, text);
  f.describe(i, AccessKind::text, id_of(path), label);
  f.close_box();
}

}  // namespace tallyblock
