"""Makes stix-two-math.woff2 from STIX Two Math 2.12: only the characters that math.css lists, and what
they stretch to. Not part of the build. Needs fonttools and brotli.

    python cut-font.py <@fontsource/stix-two-math/files/stix-two-math-latin-400-normal.woff2> stix-two-math.woff2
"""

import re
import sys
from pathlib import Path

from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter, load_font, parse_unicodes, save_font

# Of each bracket there are 13 sizes, the larger half taller than any equation here.
SIZES = 7
# Browsers keep as much room for any root as the widest one needs: 1212 units, when √2 takes 794.
NARROWER = 0.72

source, target = sys.argv[1:]
style = Path(__file__).with_name("math.css").read_text()
listed = re.search(r"unicode-range:([^;]*);", style).group(1)
characters = parse_unicodes(re.sub(r"\s|U\+", "", listed))

options = Options(layout_features=["ssty"], hinting=False, flavor="woff2")
font = load_font(source, options)
variants = font["MATH"].table.MathVariants
for form in [*variants.VertGlyphConstruction, *variants.HorizGlyphConstruction]:
    form.MathGlyphVariantRecord = form.MathGlyphVariantRecord[:SIZES]
    form.VariantCount = len(form.MathGlyphVariantRecord)
subsetter = Subsetter(options)
subsetter.populate(unicodes=characters)
subsetter.subset(font)

root = font.getBestCmap()[ord("√")]
forms = variants.VertGlyphConstruction[variants.VertGlyphCoverage.glyphs.index(root)]
names = {record.VariantGlyph for record in forms.MathGlyphVariantRecord}
names |= {part.glyph for part in forms.GlyphAssembly.PartRecords}
glyphs = font.getGlyphSet()
for name in names - {root}:
    pen = TTGlyphPen(None)
    glyphs[name].draw(TransformPen(pen, (NARROWER, 0, 0, 1, 0, 0)))
    font["glyf"][name] = pen.glyph(round=round)
    font["glyf"][name].recalcBounds(font["glyf"])
    width, bearing = font["hmtx"][name]
    font["hmtx"][name] = (round(width * NARROWER), round(bearing * NARROWER))

save_font(font, target, options)
