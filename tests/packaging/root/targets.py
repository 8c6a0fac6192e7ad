"""Prints the targets of the displays whose files are named, one a line, with all digits."""
import sys

import samelight

for part in samelight.white(sys.argv[1:], "crt@0.3127,0.3290").parts:
    print(repr(float(part.x)), repr(float(part.y)))
