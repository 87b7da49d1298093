"""The reasons of what reading and looking up find by themselves, before any rule compares a formula."""

from brimline.findings import THE_FORMAT
from brimline.gate.own import KINDS, OURS
from brimline.report.why import Reason

_GATE = tuple(Reason(kind.rule, kind.must, kind.why, sources=(OURS,)) for kind in KINDS)

BEFORE_RULES = _GATE + tuple(
    Reason(name, must, why, sources=(THE_FORMAT,))
    for name, must, why in (
        (
            "evidence/register",
            "Every seal of the register belongs to a tested or retired formula of the collection",
            "Readers still hold printed copies of a formula that has gone.",
        ),
        (
            "evidence/variance",
            "Every variance is for one finding on one formula as it is, on evidence that reaches, for a year at most",
            "A permission without bounds or evidence lets a fault pass that can make someone ill.",
        ),
        (
            "evidence/successor",
            "What a retired formula names as its successor is a formula of the collection that can be used",
            "Whoever holds a printed copy looks for what to use instead.",
        ),
        (
            "evidence/tested",
            "An adaptation names a tested formula of its collection that can be read and compared with",
            "An adaptation can only be judged beside the formula that was tested.",
        ),
        (
            "writing/characters",
            "Every letter, figure and sign is what it looks like",
            "A reader sees one thing and a program reads another, so an amount could be other than it looks.",
        ),
        (
            "writing/code",
            "No two formulas of a collection have the same code",
            "With two formulas under one code nobody can tell which of them an adaptation departs from.",
        ),
        (
            "writing/file",
            "A formula is a plain text file that can be read",
            "What cannot be read cannot be compared with anything.",
        ),
        (
            "writing/name",
            "The name of a file can be kept on every common computer",
            "Otherwise the file cannot be kept, or is taken for another one, on some of them.",
        ),
        (
            "writing/shape",
            "A formula has the parts it needs, each once, and each in its section",
            "What is left out or said twice leaves the cook to guess.",
        ),
        (
            "writing/size",
            "A formula is at most 256 KiB, 5,000 lines, and 2,000 characters a line",
            "A formula is a page or two; what is far larger is something else.",
        ),
        (
            "writing/syntax",
            "Every line is written as the format says",
            "A line that can be read in two ways is cooked in two ways.",
        ),
        (
            "writing/title",
            "No two formulas of a collection have the same title, but for retired ones",
            "Readers ask for a formula by its title, and would be given the wrong one.",
        ),
        (
            "writing/unit",
            "Every unit is one of the list, by its own name",
            "The same letter stands for a teaspoon to one reader and for a tablespoon to another.",
        ),
    )
)
