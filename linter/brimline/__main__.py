"""Starts the command line for `python -m brimline`."""

import sys

from brimline.faces.start import start

if __name__ == "__main__":
    sys.exit(start())
