"""Our drawings as SVG text: given numbers and finished words, they know neither plan nor sentence.

`svg` holds the pieces, `need`, `meals` and `weight` a picture each. The ribbon has five files:
`ribbon` and `ribbon_whole`, then `ribbon_rows`, `ribbon_axis` and `ribbon_data`. Only reports
draw them.
"""
