// The piece from above as a widget: how high it is, and its handles.
#include "cut_drawing.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "build_parts.h"
#include "cut_paint.h"

namespace tallyblock {

FromAbove::FromAbove(const CutDrawing& d, bool small, bool leaders)
    : d_(d), plot_(d), small_(small), leaders_(leaders) {
  for (std::size_t i = 0; i < d_.blocks.size(); ++i) {
    const bool is_next = d_.blocks[i].state == CutState::next && is_drawn(d_.blocks[i]);
    if (is_next && next_ < 0) next_ = static_cast<int>(i);
  }
}

float FromAbove::height(Frame& f, float width) {
  if (!plot_.is_piece()) return 0;
  const float least = f.px(style::cut_height_least);
  const float most =
      std::max(least, f.in.height * (small_ ? style::cut_height_small : style::cut_height));
  plot_.fit(std::max(1.0F, width - 2 * f.px(style::cut_side)), most);
  band_ = std::max(least, std::ceil(plot_.high()));
  texture_ = f.px(1) * std::clamp(plot_.high() / f.px(style::piece_height), 1.0F, 2.0F);
  side_ = std::clamp(std::round(plot_.high() * style::piece_side), f.px(3), f.px(style::gap));
  head_ = f.px(style::edge_chosen);
  if (next_ >= 0) {
    const bool inside = fits_inside(f, d_.blocks[static_cast<std::size_t>(next_)]);
    head_ = inside ? f.px(style::pad) : std::ceil(next_size(f) * style::line_figure);
  }
  const bool any =
      std::any_of(d_.marks.begin(), d_.marks.end(), [](const auto& m) { return !m.empty(); });
  readings_ = any ? std::ceil(f.type(style::type_small) * style::line_text) + f.px(style::tick) : 0;
  // Nothing is read on a ruler without readings or stations, so it does not take room where there is
  // little.
  has_ruler_ = any || leaders_ || !small_;
  const float ruler = has_ruler_ ? f.px(style::grid) + f.px(style::tick_long) + f.px(2) : 0;
  return head_ + band_ + side_ + f.px(style::grid) + ruler + readings_ +
         (leaders_ ? f.px(style::leader) : 0);
}

int cut_drawing(Kit& kit, std::string_view path, const CutDrawing& drawing,
                const CutDrawingOptions& options) {
  Frame& f = kit.frame();
  const std::uint32_t id = Kit::id_of(path);
  const bool handles = options.handles && !drawing.stations.empty();
  auto column = kit.column();
  f.node(f.open.back()).gap = 0;
  auto painter = std::make_unique<FromAbove>(drawing, options.small, handles);
  FromAbove& above = *painter;
  const int i = f.add_painter(std::move(painter));
  f.describe(i, AccessKind::image, id, drawing.name);
  int tapped = -1;
  if (!handles) return tapped;
  auto cells = kit.grid(static_cast<int>(drawing.stations.size()));
  f.node(f.open.back()).by_column = true;
  for (std::size_t s = 0; s < drawing.stations.size(); ++s) {
    const CutStation& station = drawing.stations[s];
    const int handle = static_cast<int>(f.nodes.size());
    if (kit.button(parts::joined(path, "/", std::to_string(s)), station.label,
                   {.detail = station.detail,
                    .pressed = static_cast<int>(s) == drawing.chosen,
                    .name = station.name})) {
      tapped = static_cast<int>(s);
    }
    f.node(handle).pad_x = f.px(style::grid);  // many stand in a row
    above.add_handle(handle);
  }
  return tapped;
}

}  // namespace tallyblock
