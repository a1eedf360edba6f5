#!/usr/bin/env python3
"""Draws the icons of the app: a block cut in unequal slabs, each with its own texture.

    python3 shell/tools/icons.py shell

writes icon-192.png, icon-512.png and icon-maskable-512.png (the drawing inside the safe zone of 80 %).
The same drawing as icon.svg, by hand and without any library; run again only when the drawing
changes, the files are kept in the tree. Coordinates are those of icon.svg, 64 by 64.
"""
import struct
import sys
import zlib

GROUND = (0xF3, 0xEF, 0xE6)
TOP, GARNET, ROSE = (0x5E, 0x14, 0x20), (0x84, 0x20, 0x2E), (0xD9, 0x8F, 0x8A)
COPPER, BROWN = (0xB5, 0x65, 0x1D), (0x4A, 0x24, 0x03)
FAT, OLIVE, SIDE = (0xEA, 0xD9, 0xA8), (0x5A, 0x5A, 0x1E), (0xC4, 0xB2, 0x78)
SAMPLES = 4  # per pixel and direction


def block(x, y):
    """Colour of the drawing at a point, or None beside it."""
    if 14 <= y < 20 and 10 <= x + (y - 20) * 1.0 < 50:  # upper face, sheared
        return TOP
    if 50 <= x < 56 and 70 <= x + y < 100:  # side face
        return SIDE
    if not 20 <= y < 50:
        return None
    if 10 <= x < 31:
        line = min(abs(y - at) for at in (26, 32, 38, 44))
        return ROSE if line < 0.8 and 14 <= x < 27 else GARNET
    if 33 <= x < 42:
        return BROWN if abs((x + y - 62) % 9 - 4.5) > 3.4 else COPPER
    if 44 <= x < 50:
        near = min((x - 47) ** 2 + (y - at) ** 2 for at in (24.5, 30, 35.5, 41, 46))
        return OLIVE if near < 1.21 else FAT
    return None


def inside_rounded(x, y, radius):
    dx = max(radius - x, x - (64 - radius), 0)
    dy = max(radius - y, y - (64 - radius), 0)
    return dx * dx + dy * dy <= radius * radius


def pixel(px, py, size, maskable):
    total = [0, 0, 0, 0]
    for i in range(SAMPLES * SAMPLES):
        x = (px + (i % SAMPLES + 0.5) / SAMPLES) * 64 / size
        y = (py + (i // SAMPLES + 0.5) / SAMPLES) * 64 / size
        if not maskable and not inside_rounded(x, y, 12):
            continue
        if maskable:
            x, y = (x - 32) / 0.72 + 32, (y - 32) / 0.72 + 32
        for channel, part in enumerate((*(block(x, y) or GROUND), 255)):
            total[channel] += part
    covered = total[3] // 255
    if covered == 0:
        return bytes(4)
    return bytes([*(round(part / covered) for part in total[:3]),
                  round(total[3] / (SAMPLES * SAMPLES))])


def chunk(kind, data):
    body = kind + data
    return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))


def png(size, maskable):
    rows = b"".join(
        b"\0" + b"".join(pixel(x, y, size, maskable) for x in range(size)) for y in range(size))
    header = struct.pack(">IIBBBBB", size, size, 8, 6, 0, 0, 0)
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header)
            + chunk(b"IDAT", zlib.compress(rows, 9)) + chunk(b"IEND", b""))


def main(folder):
    for name, size, maskable in (("icon-192", 192, False), ("icon-512", 512, False),
                                 ("icon-maskable-512", 512, True)):
        with open(f"{folder}/{name}.png", "wb") as out:
            out.write(png(size, maskable))


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: icons.py FOLDER")
    main(sys.argv[1])
