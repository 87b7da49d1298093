"""What a step puts in place of the heat process, the lid or the canning jar, told by the words that show it."""

from brimline._remember import remembered
from brimline.rules.prose import Habit, shown

# Jars in an appliance: what shows that they are full, and what shows that they are still empty.
FULL = "guard duration temperature filled sealedby process canv sealv replaces lidson"
STILL_EMPTY = "-emptyjar -cookfood tocanner"

REPLACES = (
    Habit("open kettle", "oldway", ("canningw sealv",)),
    Habit("open kettle", "selfseal", ("jar lid jam band",), "<process tocanner canner guardcond"),
    Habit(
        "open kettle", "vacuum", ("<fill capw jamhot done", "jar lid jam"), "<process <tocanner canner sealcheck timeup"
    ),
    Habit(
        "open kettle",
        "done",
        ("<close lidson fill lid selfseal pinglid",),
        # Who checks the seals afterwards has not said that closing was all.
        "<process <tocanner canner -emptyjar opened newlid throwout sealcheck",
    ),
    Habit(
        "open kettle",
        "pinglid",
        ("fill close jamhot straight done self lidson storev",),
        "<process <tocanner canner -emptyjar sealcheck coolwait timeup",
    ),
    Habit(
        "open kettle",
        "capstore",
        ("<fill jamhot jar jam",),
        "<process <tocanner canner -emptyjar <coldkeep sealcheck coolwait",
    ),
    Habit("open kettle", "oneatatime", ("jar",), "<process <tocanner canner"),
    Habit(
        "open kettle",
        "putshelf",
        ("<fill hot jamhot", "<close lidson sealv"),
        "<process <tocanner canner -emptyjar <coldkeep sealcheck",
    ),
    Habit("open kettle", "toshelf", ("jar jam",), "<process <tocanner canner sealcheck coolwait"),
    Habit("inversion", "invert", ("=jar lid",), "-emptyjar =bowl =pan sealtest =labelw =flipfood"),
    # Who ladles jam into jars turns no pan over; a ladle is one.
    Habit("inversion", "invert", ("=jar lid", "=intojar"), "-emptyjar =bowl sealtest =labelw =flipfood"),
    Habit("inversion", "liddown", ("=jar lid",), "-emptyjar =bowl =pan sealtest =lidpressed"),
    *(
        Habit(name, name.replace(" ", ""), (where, FULL), STILL_EMPTY)
        # A pot of fruit has a lid as well, so only what cooks no fruit is told by one.
        for name, where in (
            ("oven", "=jar"),
            ("dishwasher", "=jar lidson"),
            ("microwave", "=jar lidson"),
            ("slow cooker", "=jar"),
        )
    ),
    *(
        Habit(name, name.replace(" ", ""), ("=replaces processing",), STILL_EMPTY)
        for name in ("oven", "dishwasher", "microwave", "slow cooker")
    ),
    *(
        Habit(name, name.replace(" ", ""), ("replaces", "processing"), STILL_EMPTY)
        for name in ("oven", "dishwasher", "microwave", "slow cooker")
    ),
    Habit("oven", "bakejar ovencan", (), "-emptyjar"),
    Habit("microwave", "zapjar", (), "-emptyjar"),
    Habit(
        "sun",
        "sun",
        ("=jar lid", "filled sealedby sealv lidson close duration"),
        "awayfrom -emptyjar -cookfood coldkeep",
    ),
    Habit("no process", "warmplace", ("=jar lid", "sealedby sealv replaces"), "awayfrom <process -emptyjar"),
    Habit("no process", "substitute"),
    Habit("no process", "dowithout", ("processing canner",), "<coldkeep"),
    Habit("no process", "leaveit", ("processing canner",), "<coldkeep"),
    Habit("no process", "noneed", ("=processing canner",), "<coldkeep =guard =emptyjar =cleanv", True),
    Habit("no process", "optionalw", ("=processing canner",), "<coldkeep"),
    Habit("no process", "noprocess", (), "<coldkeep =guard", True),
)
NO_LID = (
    Habit("wax", "wax", (), "waxoff waxedfood properlid throwout leaveaway"),
    Habit(
        "no lid",
        "coverstuff",
        ("=coverv close sealv closurew", "=jar jam rimtop"),
        "bowl pan spicebag giftish wipev steeping overlid =underneath guarding tiefood",
    ),
    Habit(
        "no lid",
        "coverstuff",
        ("overjar",),
        "fingertip bowl pan spicebag giftish wipev steeping overlid =underneath guarding tiefood",
    ),
    Habit("no lid", "potcover", ("closurew willdo coverv close putv",)),
    Habit("no lid", "lidfree", bare=True),
    Habit("no lid", "nolid", ("jar jam coverstuff",), "pan cook coldkeep", True),
)
OTHER = (
    Habit(
        "container",
        "intoother",
        ("fill storev putv sealv willdo canv goesw holdw",),
        "coldkeep afternight steeping -emptyjar",
    ),
    Habit(
        "container",
        "storejar",
        ("fill storev putv sealv willdo process canner use_ reusev cleanv",),
        "coldkeep afternight steeping otheruse",
    ),
)


# What guidance speaks of each stand-in for the process or the lid; the ones not named rest on the row's own sources.
SOURCES = {
    "open kettle": "open_kettle",
    "inversion": "inversion",
    "oven": "not_recommended/oven",
    "dishwasher": "not_recommended/dishwasher",
    "microwave": "not_recommended/microwave",
    "slow cooker": "slow_cooker",
    "sun": "slow_cooker",
    "wax": "paraffin",
}


def _first(habits: tuple[Habit, ...], text: str) -> str:
    return next((habit.name for habit in shown(habits, text)), "")


@remembered
def replaces_process(text: str) -> str:
    """What a step puts in place of the heat process (`oven`, `inversion`, `no process`), or nothing."""
    return _first(REPLACES, text)


@remembered
def no_lid(text: str) -> str:
    """What a step closes jars with where a lid belongs (`wax`, `no lid`), or nothing."""
    return _first(NO_LID, text)


@remembered
def other_container(text: str) -> str:
    """`container` where a step fills something other than a jar made for home canning, or nothing."""
    return _first(OTHER, text)
