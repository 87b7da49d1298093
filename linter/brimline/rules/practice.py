"""Unsafe habits in the prose of a formula: what a step tells the cook to do with jars, lids, bands, water and pots."""

from collections.abc import Iterator

from brimline._remember import remembered
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.additive import notes
from brimline.rules.contract import rule
from brimline.rules.prose import Habit, shown
from brimline.rules.standins import no_lid, other_container, replaces_process

# Levels: unsafe where guidance names illness or the heat process falls short; untested where a seal may fail;
# quality where only the jar or the food suffers. An empty source is common practice, no source.
HABITS = (
    Habit(
        "used lids",
        "usedlid",
        (),
        "newlid throwout bandmay otheruse =tightenonly =bandoff",
        level="untested",
        harm="spoilage",
        why="A used flat lid fails more often",
        source="reused_lids",
    ),
    Habit(
        "used lids",
        "used reuse again",
        ("~lid",),
        "newlid throwout bandmay otheruse =tightenonly =bandoff",
        level="untested",
        harm="spoilage",
        why="A used flat lid fails more often",
        source="reused_lids",
    ),
    Habit(
        "old closure",
        "oldclosure",
        ("coverv putv close willdo sealv use_",),
        "newlid throwout otheruse properlid leaveaway",
        level="untested",
        harm="spoilage",
        why="Such closures are not recommended, for nobody can tell whether they have sealed",
        source="old_closures",
    ),
    Habit(
        "overtight bands",
        "nevertight",
        ("band lid",),
        bare=True,
        level="untested",
        harm="spoilage",
        why="A band that is too tight keeps the air in and can buckle the lid",
        source="band_too_tight",
    ),
    Habit(
        "overtight bands",
        "force forcepast",
        ("=band lid jar", "tightenv tightw"),
        "fingertip openv",
        level="untested",
        harm="spoilage",
        why="A band that is too tight keeps the air in and can buckle the lid",
        source="band_too_tight",
    ),
    Habit(
        "retightened bands",
        "retightenv",
        ("band lid jar",),
        "",
        level="untested",
        harm="spoilage",
        why="Tightening after the process can cut the gasket and break the seal",
        source="retighten",
    ),
    Habit(
        "retightened bands",
        "tightact",
        ("=band lid jar", "afterprocess slack slackstate again"),
        "-removev",
        level="untested",
        harm="spoilage",
        why="Tightening after the process can cut the gasket and break the seal",
        source="retighten",
    ),
    Habit(
        "retightened bands",
        "tightenv",
        ("=band lid", "again"),
        "-removev fingertip newlid bandmay",
        level="untested",
        harm="spoilage",
        why="Tightening after the process can cut the gasket and break the seal",
        source="retighten",
    ),
    Habit(
        "cold jars",
        "coldjar",
        ("hot jamhot",),
        "=tocool coolwait",
        level="quality",
        harm="record",
        why="Glass that changes from cold to boiling can break",
    ),
    Habit(
        "cold jars",
        "nowarm",
        ("jar",),
        "",
        bare=True,
        level="quality",
        harm="record",
        why="Glass that changes from cold to boiling can break",
    ),
    Habit(
        "cooling in water",
        "coldwater",
        ("=jar", "plungev coolv quick tocool overjar"),
        "-cleanv food opened -emptyjar unsealed",
        why="Cooling jars in water may let the food spoil",
        source="cool_in_water",
    ),
    Habit(
        "cooling in water",
        "coldplace",
        ("=jar", "quick tocool hot afterprocess"),
        "food opened unsealed freezejam -emptyjar",
        why="Cooling jars in water may let the food spoil",
        source="cool_in_water",
    ),
    Habit(
        "cooling in water",
        "leavein",
        ("=jar othercontainer", "tillcold"),
        "-emptyjar food unsealed opened",
        why="Cooling jars in water may let the food spoil",
        source="cool_in_water",
    ),
    Habit(
        "timing too early",
        "earlycount",
        (),
        "atboil restartv pressurepoint",
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "timing too early",
        "earlyboil",
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "timing too early",
        "noearly",
        ("clock",),
        "restartv",
        bare=True,
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "timing too early",
        "heatup",
        ("clock timecounts",),
        "",
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "time not restarted",
        "nevermind",
        ("<lostboil",),
        "restartv",
        bare=True,
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "time not restarted",
        "keepon",
        ("<lostboil",),
        "restartv",
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "time not restarted",
        "norestart",
        ("<lostboil clock",),
        "",
        bare=True,
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "too little water",
        "partcover",
        ("=water canner", "jar lid band rimtop"),
        "steamish overtops",
        why="Jars that stand out of the water are heated too little",
        source="water_depth",
    ),
    Habit(
        "too little water",
        "partcover",
        ("submerge", "jar lid band rimtop"),
        "steamish overtops airbubble =fill =wipev",
        why="Jars that stand out of the water are heated too little",
        source="water_depth",
    ),
    Habit(
        "too little water",
        "partcover",
        ("coverv pan", "jar lid band rimtop"),
        # What stands so far below the rim may be the food.
        "steamish overtops headroom airbubble =fill =wipev",
        why="Jars that stand out of the water are heated too little",
        source="water_depth",
    ),
    Habit(
        "too little water",
        "lidsout",
        ("jar water canner pan",),
        "steamish overtops mold",
        why="Jars that stand out of the water are heated too little",
        source="water_depth",
    ),
    Habit(
        "too little water",
        "nocover",
        ("water", "jar lid"),
        "steamish",
        bare=True,
        why="Jars that stand out of the water are heated too little",
        source="water_depth",
    ),
    Habit(
        "tilting",
        "tiltjar",
        ("waterlid afterprocess canner liftv cleanlid",),
        "=pan =bowl steamish opened openv",
        level="quality",
        harm="spoilage",
        why="Tilting can wet the sealing rim before the lid has set",
    ),
    Habit(
        "canning powder",
        "powder",
        (),
        "pectin leaveaway gapneg",
        why="Such powders do not preserve; the heat process is still needed",
        source="canning_powder",
    ),
    Habit(
        "scraped mold",
        "liftoff eatrest moldoff",
        ("<mold moldyw",),
        "throwout rindish outsidew",
        why="Poisons of the mold may remain in what is left",
        source="scoop_mold",
    ),
    Habit(
        "squeezed bag",
        "squeezebag",
        ("juiceout",),
        "spicebag tiefood squeezefood",
        level="quality",
        harm="flavour",
        why="Squeezing the bag clouds the jelly",
        source="squeeze_bag",
    ),
    Habit(
        "copper or galvanised pot",
        "metalpot",
        (),
        "canner wateronly stainless carryv",
        level="untested",
        why="Acid food takes up metal from the pot",
    ),
)


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
    for text, span in notes(case.document):
        if replaces_process(text) or no_lid(text) or other_container(text):
            continue
        habit = worst(text)
        # A powder among the ingredients is already judged there; a second finding for its step would say it twice.
        if (
            habit is not None
            and not (habit.name == "canning powder" and powder)
            and not (cold and habit.name in OF_HEAT)
        ):
            says = f"{habit.name.capitalize()}: {habit.why}."
            yield Flag("unsafe-habit", span, says, level=habit.level, harm=habit.harm, source=habit.source)


@remembered
def worst(text: str) -> Habit | None:
    """The gravest habit that a step tells the cook to follow, the first of equals."""
    order = ("unsafe", "untested", "quality")
    return min(shown(HABITS, text), key=lambda one: order.index(one.level), default=None)
