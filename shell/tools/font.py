#!/usr/bin/python3
"""font.py OUTPUT: the app's font, cut from the system's Inter Medium (Debian's fonts-inter).

Keeps the characters of the languages written with Latin letters, and the signs the screens use.
Digits are replaced by Inter's tabular ones, which all have one width: Dear ImGui draws characters
as they are and applies no font features. What only a layout engine would read is dropped.
"""
import glob
import sys

from fontTools import subset
from fontTools.ttLib.scaleUpem import scale_upem

PLACES = ["/usr/share/fonts/opentype/inter/Inter-Medium.otf",
          "/usr/share/fonts/**/Inter-Medium.otf", "/usr/share/fonts/**/Inter-Medium.ttf"]

# Fine enough for figures 200 pixels high, and a quarter smaller than the original's 2816.
UNITS_PER_EM = 1024

RANGES = [
    (0x0020, 0x007E), (0x00A0, 0x017F),  # Latin
    (0x0218, 0x021B),  # Romanian letters
    (0x2007, 0x200A), (0x2010, 0x2015), (0x2018, 0x201E), (0x2020, 0x2022),  # spaces, dashes, quotes
    (0x202F, 0x2030), (0x2032, 0x2033), (0x2039, 0x203A),
]
SINGLE = [0x03BC, 0x2026, 0x2044, 0x2122, 0x2212, 0x221A, 0x2248, 0x2264, 0x2265]
CURRENCIES = "₡₦₩₪₫€₭₮₱₲₴₵₸₹₺₼₽₾"


def installed_font():
    for place in PLACES:
        found = sorted(glob.glob(place, recursive=True))
        if found:
            return found[0]
    sys.exit("Inter Medium is not installed: run shell/tools/toolchain.sh.")


def tabular_forms(font):
    """Glyph name -> name of its tabular form."""
    table = font["GSUB"].table
    forms = {}
    for record in table.FeatureList.FeatureRecord:
        if record.FeatureTag == "tnum":
            for index in record.Feature.LookupListIndex:
                for part in table.LookupList.Lookup[index].SubTable:
                    forms.update(getattr(part, "ExtSubTable", part).mapping)
    return forms


def use_tabular_digits(font):
    forms = tabular_forms(font)
    metrics = font["hmtx"]
    for table in font["cmap"].tables:
        for character in range(0x30, 0x3A):
            if character in table.cmap:
                table.cmap[character] = forms.get(table.cmap[character], table.cmap[character])
    characters = font.getBestCmap()
    digits = [characters[c] for c in range(0x30, 0x3A)]
    widths = [metrics[digit][0] for digit in digits]
    if max(widths) - min(widths) > font["head"].unitsPerEm / 500:
        sys.exit("The installed Inter Medium has no digits of one width.")
    # Inter 4.0's 5 is a thousandth narrower than the others; the figure space goes with the digits.
    for glyph in digits + [characters[0x2007]]:
        metrics[glyph] = (max(widths), metrics[glyph][1])


def main(output):
    options = subset.Options()
    options.layout_features = []
    options.hinting = False
    options.name_IDs = [0, 1, 2, 13, 14]  # keeps copyright and licence
    options.name_languages = [0x409]
    options.notdef_outline = True
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "STAT", "DSIG", "MVAR", "BASE"]
    font = subset.load_font(installed_font(), options)
    use_tabular_digits(font)
    characters = {c for first, last in RANGES for c in range(first, last + 1)} | set(SINGLE)
    characters |= set(map(ord, CURRENCIES))
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=characters)
    subsetter.subset(font)
    scale_upem(font, UNITS_PER_EM)
    font["head"].modified = font["head"].created  # the same bytes every time
    font.recalcTimestamp = False
    font.save(output)


main(sys.argv[1])
