"""Makes text-latin.woff2, text-rare.woff2, text-italic.woff2 and text-greek.woff2 from the files of Source Serif
4: the characters that the pages have, which global.css lists beside each, in the weights that are used. What
else there is stays in those files and loads where a reader types it. Not part of the build. Needs fonttools and
brotli.

    python cut-font.py <source-serif-4-latin-wght-normal.woff2> text-latin.woff2 400:700
    python cut-font.py <source-serif-4-latin-wght-normal.woff2> text-rare.woff2 400:700
    python cut-font.py <source-serif-4-latin-wght-italic.woff2> text-italic.woff2 400
    python cut-font.py <source-serif-4-greek-wght-normal.woff2> text-greek.woff2 400:700
"""

import re
import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter, load_font, parse_unicodes, save_font
from fontTools.ttLib.scaleUpem import scale_upem
from fontTools.varLib.instancer import instantiateVariableFont

# The licence keeps the first word of its name for the font as it was drawn.
NAME = "Bilayer Text"
# Units to the height of a letter's body, of which the source has 1000. A unit is then a thirtieth of a
# pixel in the text of the pages, and the file a tenth smaller.
UNITS = 500
# What a browser can work out of how a letter grows bold, to half a unit, is left out.
TOLERANCE = 0.5
# Copyright, family, style, full name, and the name for PostScript.
KEPT_NAMES = (0, 1, 2, 4, 6)

source, target, weights = sys.argv[1:]
style = Path(__file__).with_name("global.css").read_text()
listed = re.search(rf"{Path(target).name}[^}}]*unicode-range:([^;]*);", style).group(1)
characters = parse_unicodes(re.sub(r"\s|U\+", "", listed))

options = Options(
    layout_features=["kern", "liga", "lnum", "tnum"],
    drop_tables=["BASE", "STAT"],
    hinting=False,
    flavor="woff2",
)
subsetter = Subsetter(options)
subsetter.populate(unicodes=characters)
font = load_font(source, options)
subsetter.subset(font)
limits = tuple(map(float, weights.split(":")))
font = instantiateVariableFont(font, {"wght": limits if len(limits) > 1 else limits[0]})

# All weights take the kerning of the lightest: nobody sees the difference, which is a tenth of the file.
lookups = font["GPOS"].table.LookupList.Lookup
for form in (getattr(form, "ExtSubTable", form) for lookup in lookups for form in lookup.SubTable):
    if form.LookupType != 2:
        continue
    rows = form.PairSet if form.Format == 1 else form.Class1Record
    for row in rows:
        for pair in row.PairValueRecord if form.Format == 1 else row.Class2Record:
            for value in (pair.Value1, pair.Value2):
                if hasattr(value, "XAdvDevice"):
                    del value.XAdvDevice
    form.ValueFormat1 &= 0x0F
    form.ValueFormat2 &= 0x0F

scale_upem(font, UNITS)
if "gvar" in font:
    for glyph, variations in font["gvar"].variations.items():
        points, control = font["glyf"]._getCoordinatesAndControls(glyph, font["hmtx"].metrics)
        composite = font["glyf"][glyph].isComposite()
        for variation in variations:
            variation.calcInferredDeltas(points, control.endPts)
            variation.roundDeltas()
            variation.optimize(points, control.endPts, tolerance=TOLERANCE, isComposite=composite)

font["name"].names = [record for record in font["name"].names if record.nameID in KEPT_NAMES]
if "fvar" in font:
    # A name that is still there.
    font["fvar"].axes[0].axisNameID = KEPT_NAMES[1]
for record in font["name"].names:
    if record.nameID in (1, 4):
        record.string = NAME
    if record.nameID == 6:
        record.string = NAME.replace(" ", "")
save_font(font, target, options)
