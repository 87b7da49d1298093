"""A formula restated for another batch or in other units, each amount rounded to its safe side."""
