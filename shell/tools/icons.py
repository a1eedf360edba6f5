#!/usr/bin/env python3
"""Makes the icons of the app from the block as the kit draws it (tests/kit/icon_test.cpp).

    TALLYBLOCK_PICTURES=FOLDER .build/native/bin/test_kit --gtest_filter='Icon.*'
    python3 shell/tools/icons.py FOLDER/icon.png shell

writes icon-192.png and icon-512.png with round corners, and icon-maskable-512.png with the drawing inside the
safe zone of 80 %. Run again only when the drawing changes: the files are kept in the tree.
"""
import collections
import struct
import sys
import zlib

CORNER = 12 / 64  # radius by side
SAFE = 0.78       # of the maskable one
COLOURS = 24


def read(path):
    """Rows of (r, g, b) of a PNG of 8-bit RGB without filters."""
    with open(path, "rb") as file:
        data = file.read()
    width, height = struct.unpack(">II", data[16:24])
    at, packed = 8, b""
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at:at + 8])
        if kind == b"IDAT":
            packed += data[at + 8:at + 8 + length]
        at += 12 + length
    raw = zlib.decompress(packed)
    stride = width * 3 + 1
    return [[tuple(raw[y * stride + 1 + 3 * x:y * stride + 4 + 3 * x]) for x in range(width)]
            for y in range(height)]


def covered(x, y):
    """Whether a point of the unit square lies within the round corners."""
    dx = max(CORNER - x, x - (1 - CORNER), 0)
    dy = max(CORNER - y, y - (1 - CORNER), 0)
    return dx * dx + dy * dy <= CORNER * CORNER


def pixel(drawing, px, py, size, maskable):
    side, samples = len(drawing), 4
    total, seen = [0, 0, 0], 0
    for i in range(samples * samples):
        x, y = (px + (i % samples + 0.5) / samples) / size, (py + (i // samples + 0.5) / samples) / size
        if maskable:
            x, y = (x - 0.5) / SAFE + 0.5, (y - 0.5) / SAFE + 0.5
        elif not covered(x, y):
            continue
        seen += 1
        part = drawing[min(max(int(y * side), 0), side - 1)][min(max(int(x * side), 0), side - 1)]
        total = [a + b for a, b in zip(total, part)]
    if seen == 0:
        return bytes(4)
    return bytes([*(round(part / seen) for part in total), round(255 * seen / (samples * samples))])


def chunk(kind, data):
    body = kind + data
    return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))


def palette_of(pixels):
    """The colours met most often, far enough from each other: a small file, and no edge that is seen."""
    counts = collections.Counter(pixels)
    chosen = []
    for apart in (24, 12, 0):
        for colour, _ in counts.most_common():
            if len(chosen) == COLOURS:
                return chosen
            if all(distance(colour, other) > apart for other in chosen):
                chosen.append(colour)
    return chosen


def distance(a, b):
    return max(abs(x - y) for x, y in zip(a, b))


def png(drawing, size, maskable):
    pixels = [[pixel(drawing, x, y, size, maskable) for x in range(size)] for y in range(size)]
    colours = palette_of([one for row in pixels for one in row])
    nearest = {one: min(range(len(colours)), key=lambda i: distance(one, colours[i]))
               for row in pixels for one in row}
    rows = b"".join(b"\0" + bytes(nearest[one] for one in row) for row in pixels)
    header = struct.pack(">IIBBBBB", size, size, 8, 3, 0, 0, 0)
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header)
            + chunk(b"PLTE", b"".join(bytes(c[:3]) for c in colours))
            + chunk(b"tRNS", bytes(c[3] for c in colours))
            + chunk(b"IDAT", zlib.compress(rows, 9)) + chunk(b"IEND", b""))


def main(source, folder):
    drawing = read(source)
    for name, size, maskable in (("icon-192", 192, False), ("icon-512", 512, False),
                                 ("icon-maskable-512", 512, True)):
        with open(f"{folder}/{name}.png", "wb") as out:
            out.write(png(drawing, size, maskable))


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit("usage: icons.py PICTURE FOLDER")
    main(sys.argv[1], sys.argv[2])
