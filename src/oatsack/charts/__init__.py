"""Our drawings as SVG text: given numbers and finished words, they know neither plan nor sentence.

`svg` holds the pieces, `need`, `meals` and `weight` a picture each. Only reports draw them.
"""
