"""Published equations as pure functions: what a batch is, worked out and never judged.

Every function names its units, its range and its source; outside its range it gives a `NoFigure` that says why, and
never an extrapolation. There is no model of pH and none of lethality, because nobody may act on them.
"""
