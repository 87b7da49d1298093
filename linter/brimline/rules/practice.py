"""Unsafe habits in the prose of a formula: what a step tells the cook to do with jars, lids, bands, water and pots."""

from collections.abc import Iterator

from brimline._remember import remembered
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.additive import notes
from brimline.rules.contract import rule
from brimline.rules.habits import HABITS
from brimline.rules.prose import Habit, shown
from brimline.rules.standins import no_lid, other_container, replaces_process

OF_HEAT = (
    "cooling in water",
    "timing too early",
    "time not restarted",
    "too little water",
    "tilting",
    "retightened bands",
)


@rule("practice/habit", decides=("unsafe-habit",))
def no_step_teaches_an_unsafe_habit(case: Case) -> Iterator[Flag]:
    """No step or note tells the cook to reuse lids, retighten bands, cool jars in water or follow another unsafe habit.

    A tested process counts only when the jars, lids, bands, water and time are handled as they were in the test.
    """
    powder = any("preservative" in one.tags for one in case.batch.items)
    methods = {process.method for process in case.document.process}
    # What is kept in the freezer or refrigerator is not sealed by heat, and may be cooled as one likes.
    cold = bool(methods) and methods <= {"freezer", "refrigerator"}
    # A powder among the ingredients is already judged there; a second finding for its step would say it twice.
    judged = (*(("canning powder",) if powder else ()), *(OF_HEAT if cold else ()))
    for text, span in notes(case.document):
        if replaces_process(text) or no_lid(text) or other_container(text):
            continue
        habit = worst(text)
        if habit is not None and habit.name not in judged:
            says = f"{habit.name.capitalize()}: {habit.why}."
            yield Flag("unsafe-habit", span, says, level=habit.level, harm=habit.harm, source=habit.source)


@remembered
def worst(text: str) -> Habit | None:
    """The gravest habit that a step tells the cook to follow, the first of equals."""
    order = ("unsafe", "untested", "quality")
    return min(shown(HABITS, text), key=lambda one: order.index(one.level), default=None)
