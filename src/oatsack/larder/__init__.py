"""What is known of foods: whether a label can be true, what is at home, how to find one.

plausible.py   doubts about a label, each with the slip that would explain it
labels.py      how labels round and what their energy is made of
energy.py      energy from macronutrients where none is stated
stock.py       what is at home and still good on the day it is eaten
search.py      finding foods by words

Files are read elsewhere (oatsack.files.larder); classes of food stand in oatsack.values.classes.
"""
