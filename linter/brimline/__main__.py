"""Starts the command line for `python -m brimline`."""

import sys

from brimline.faces.cli import main

if __name__ == "__main__":
    sys.exit(main())
