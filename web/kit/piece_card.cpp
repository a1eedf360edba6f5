#include "piece_card.h"

#include <algorithm>

#include "build_parts.h"
#include "piece_block.h"

namespace tallyblock {

using namespace parts;

namespace {

// The shape alone, at the left of its room: small, or across it.
class SmallBlock final : public Painter {
 public:
  SmallBlock(Frame& f, const Piece& piece, std::uint32_t id, bool across)
      : block_(f, piece, id), across_(across) {}

  float height(Frame& f, float width) override {
    const float least = f.px(style::piece_height_tiny);
    const float h =
        across_ ? std::clamp(std::round(width / style::piece_tiny_wide), least, 2 * least) : least;
    const float most = std::floor(h * style::piece_tiny_wide);
    block_.plan(f, std::min(width, most), h, LabelSide::below, false, false);
    return block_.full_height() + f.px(style::grid);
  }
  void paint(Frame& f, const Rect& r) override { block_.paint(f, r.x, r.y + f.px(style::grid)); }

 private:
  PieceBlock block_;
  bool across_;
};

void line(Frame& f, std::string_view text, float size, Colour colour, Align align = Align::left) {
  if (text.empty()) return;
  TextLook look = words(f, size, colour);
  look.align = align;
  f.add_text(text, look);
}

}  // namespace

bool piece_card(Kit& kit, std::string_view path, std::string_view title, const Piece& piece,
                const PieceCardOptions& options) {
  Frame& f = kit.frame();
  const Palette& p = f.colours();
  const std::uint32_t id = Kit::id_of(path);
  const int i = f.open_box(Flow::down);
  const bool tapped = f.make_target(i, id, true);
  card(f, f.node(i), f.is_pressed(id));
  f.node(i).border = p.edge;
  f.node(i).gap = 0;
  line(f, title, style::type_body, p.ink);
  line(f, options.detail, style::type_small, p.quiet);
  line(f, options.note, style::type_small,
       options.tone == Tone::normal ? p.quiet : f.ink(options.tone));
  {
    auto sides = kit.row();
    {
      auto left = kit.column();
      f.node(f.open.back()).middle = true;
      f.add_painter(std::make_unique<SmallBlock>(f, piece, id, false));
    }
    auto right = kit.column();
    f.node(f.open.back()).gap = 0;
    f.node(f.open.back()).middle = true;
    if (!options.figure.empty()) {
      TextLook look = words(f, style::type_title, p.ink);
      look.figure = true;
      look.align = Align::right;
      f.add_text(options.figure, look);
    }
    line(f, options.of, style::type_small, p.quiet, Align::right);
  }
  const std::string right = joined(options.figure, " ", options.of);
  f.describe(i, AccessKind::button, id,
             joined(title, ", ", joined(joined(options.detail, ", ", options.note), ", ", right)));
  f.close_box();
  return tapped;
}

void piece_strip(Kit& kit, std::string_view path, const Piece& piece, std::string_view sentence) {
  Frame& f = kit.frame();
  const std::uint32_t id = Kit::id_of(path);
  const int i = f.add_painter(std::make_unique<SmallBlock>(f, piece, id, true));
  f.describe(i, AccessKind::image, id, sentence);
}

}  // namespace tallyblock
