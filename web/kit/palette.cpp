#include "palette.h"

#include <cmath>

namespace tallyblock {
namespace {

constexpr Palette light = {
    .page = rgb(0xF3EFE6),
    .raised = rgb(0xFFFDF8),
    .sunk = rgb(0xE8E2D4),
    .pressed = rgb(0xE0D9C8),
    .chosen = rgb(0xFBEDE3),
    .warn_ground = rgb(0xF9E8C2),
    .bad_ground = rgb(0xF8DFD8),
    .good_ground = rgb(0xE1EBD8),
    .notice = rgb(0x2A2722),
    .ink = rgb(0x1C1A16),
    .quiet = rgb(0x423E37),
    .disabled = rgb(0x736E64),
    .warn = rgb(0x5A3A00),
    .bad = rgb(0x7A1512),
    .good = rgb(0x23471F),
    .on_notice = rgb(0xFFFDF8),
    .primary = rgb(0x2A2722),
    .primary_pressed = rgb(0x4A453C),
    .edge = rgb(0x837C6E),
    .edge_soft = rgb(0xCFC7B6),
    .accent = rgb(0x84202E),
    .ring = rgb(0x0B5FA5),
    .looks =
        {
            {rgb(0x84202E), rgb(0xD98F8A), rgb(0x55101B), rgb(0x5E1420)},
            {rgb(0xB5651D), rgb(0x4A2403), rgb(0x6B3A0A), rgb(0x844510)},
            {rgb(0xEAD9A8), rgb(0x5A5A1E), rgb(0x6E6A2A), rgb(0xC4B278)},
            {rgb(0xD5D6D4), rgb(0x4A4F52), rgb(0x5D6265), rgb(0xA9ADAD)},
            {rgb(0xF3EFE6), rgb(0x3F7189), rgb(0x3F7189), rgb(0xC9D6DA)},
            {rgb(0xF3EFE6), rgb(0x837C6E), rgb(0x837C6E), rgb(0xE8E2D4)},
        },
};

constexpr Palette night = {
    .page = rgb(0x171614),
    .raised = rgb(0x24221F),
    .sunk = rgb(0x0E0D0C),
    .pressed = rgb(0x38342F),
    .chosen = rgb(0x36211F),
    .warn_ground = rgb(0x33270F),
    .bad_ground = rgb(0x3A1B18),
    .good_ground = rgb(0x1D2A1A),
    .notice = rgb(0xEFE9DC),
    .ink = rgb(0xF4EFE5),
    .quiet = rgb(0xCDC6B8),
    .disabled = rgb(0x8D877B),
    .warn = rgb(0xF5CC75),
    .bad = rgb(0xFFB8AC),
    .good = rgb(0xB5DBA3),
    .on_notice = rgb(0x1C1A16),
    .primary = rgb(0xEFE9DC),
    .primary_pressed = rgb(0xC4BDAE),
    .edge = rgb(0x857E72),
    .edge_soft = rgb(0x3B3732),
    .accent = rgb(0xE0707A),
    .ring = rgb(0x6FB7F2),
    .looks =
        {
            {rgb(0xCF5764), rgb(0x4E0F18), rgb(0xF0A0A5), rgb(0x8E323D)},
            {rgb(0xCB8434), rgb(0x3F2105), rgb(0xEBBE84), rgb(0x8C571C)},
            {rgb(0x3D3A22), rgb(0xDDD08F), rgb(0xC2B674), rgb(0x292716)},
            {rgb(0x2C2F31), rgb(0x9BA2A6), rgb(0x9BA2A6), rgb(0x1F2122)},
            {rgb(0x171614), rgb(0x76AFCB), rgb(0x76AFCB), rgb(0x22343D)},
            {rgb(0x171614), rgb(0x857E72), rgb(0x857E72), rgb(0x24221F)},
        },
};

double channel(std::uint32_t eight_bits) {
  const double c = eight_bits / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(Colour c) {
  return 0.2126 * channel(c & 0xFFU) + 0.7152 * channel((c >> 8U) & 0xFFU) +
         0.0722 * channel((c >> 16U) & 0xFFU);
}

}  // namespace

const Palette& palette(bool dark) { return dark ? night : light; }

double contrast(Colour a, Colour b) {
  const double la = luminance(a), lb = luminance(b);
  return la > lb ? (la + 0.05) / (lb + 0.05) : (lb + 0.05) / (la + 0.05);
}

}  // namespace tallyblock
