"""What a step puts in place of the heat process, the lid or the canning jar, told by the words that show it."""

from brimline._remember import remembered
from brimline.rules.prose import Habit, shown

FILLED = (
    r"\b(?:filled|capped|closed|sealed|lidded|full|packed|finished|tightly)\b[\w ,-]{0,20}\b(?:jars?|pints|half-pints|quarts|"
    r"glasses)\b|\b(?:jars|pints|half-pints|quarts) (?:of|filled)\b|\b(?:process|seal|can|finish)\b[^.;]{0,30}\b(?:jars|them|"
    r"pints|half-pints|quarts|lids)\b|\b(?:instead of|in place of|in lieu of|no|without a|replaces?) (?:\w+ )?(?:\w+ )?"
    r"(?:canner|processing|boiling)\b|\b(?:cap|close|seal|lid|fill) (?:the|all the|your|each) [^.]{0,90}\b(?:oven|dishwasher|"
    r"microwave|cooker|crock[- ]?pot)\b|\blids? (?:seal|pop|ping|draw)\b"
)
# The jars themselves are said to go where they belong.
TO_CANNER = (
    r"\b(?:go|goes|process|processing|processed|happens?|finish|put|place)\b(?:(?!instead|rather than|in place|\bnot?\b|\bnever\b|"
    r"without|\boven|microwave|dishwasher|cooker|crock)[^.;]){0,40}\b(?:in|into|through) (?:the |a |your )?(?:boiling[- ]water |water[- ]bath )?"
    r"(?:canner|bath)\b"
)
EMPTY = (
    TO_CANNER
    + r"|\b(?:empty|warm the (?:clean )?jars|kept? (?:them |the jars )?hot|keep (?:them|the jars) hot|straight from)\b"
)
JAR = r"(?:jars?|pints?|half-pints?|quarts?|glasses|bottles?|them)"

# Jars that get a time or a seal in an appliance, filled or not said to be empty.
IN_JARS = rf"^(?=.*\b{JAR}\b)(?=.*\b(?:minutes?|min|hours?|cycle|seals?|sealed|process\w*|until the (?:jam|jelly|contents) bubbles?)\b)"
BEFORE_FILLING = (
    EMPTY
    + r"|\b(?:before (?:you |they are )?fill\w*|until (?:you|they are|needed|it is time)|clean|washed|warm|sterili\w+|dry|dried|ready to|"
    r"puree|juice|pulp|apples|thaw\w*|soften\w*|melt\w*|roast|toast)\b"
)

REPLACES = (
    Habit(
        "open kettle",
        r"\bopen[- ]kettle (?:canning|method|pack|style|way)|\b(?:can|seal)\w* [\w ]{0,20}\bopen[- ]kettle",
    ),
    Habit(
        "open kettle",
        r"\blids? (?:will )?(?:\w+ )?(?:ping|pop|seal|click|suck|snap)\b",
        r"\b(?:finished|done|on the shelf|nothing more|no more|by themselves|themselves|no canner|straight into hot jars)\b",
        r"\bprocess\w*\b(?! (?:is|are) (?:not|un))|\bafter\b[^.]{0,20}\bcanner\b",
    ),
    Habit(
        "open kettle",
        r"\b(?:you(?:'re| are)|that(?:'s| is)|it(?:'s| is)|they(?:'re| are)|jars are) (?:all )?(?:done|finished|ready|set|it|all)\b|"
        r"\bseals? (?:\w+ )?(?:by (?:themselves|itself)|themselves|itself|on (?:their|its) own)\b",
        r"\b(?:lids?|caps?|cover|covers|close|closed|cap|screw|jars?)\b[^.]{0,80}\b(?:done|finished|ready|seal|set|it|all)\b",
        r"\b(?:process\w*|canner|bath|boiling water|bubbles?|steril\w+|wash\w*|clean|until|when|rest of|if)\b",
    ),
    Habit(
        "open kettle",
        r"\b(?:heat|hot|warmth)\b[^.;]{0,40}\b(?:will seal|does the sealing|seals? (?:the|them|itself|it)|is enough)\b",
        r"\b(?:lids?|jars?|seal)\b",
    ),
    Habit(
        "inversion",
        r"\b(?:invert|upend|flip)(?:ing)?\b(?! (?:a|the|your) (?:plate|saucer|bowl|sieve|colander|lid|tray|cake))",
        rf"\b{JAR}\b",
        r"\b(?:empty|drain|drying|to dry|washed|clean|bag)\b|\bair bubbles\b",
    ),
    Habit(
        "inversion",
        rf"\b(?:turn|stand|stood|set|store|rest|put|place|leave|cool|tip|lay|keep)(?:ing)?\b[^.;]{{0,30}}\b{JAR}\b[^.;]{{0,40}}"
        r"(?:upside[- ]down|\bon (?:their|its) (?:heads?|lids?|tops?)\b|\blids? down\b|\bhead down\b|\bover(?: (?:for|on|onto|and|until|till|to|while)\b| ?(?:$|[.,;!])))",
        "",
        r"\b(?:empty|drain|drying|to dry|washed|clean)\b|\bslices?\b|\bfruit over\b",
    ),
    Habit(
        "inversion",
        r"\bupside[- ]down\b|\b(?:wrong|other) way up\b|\b(?:lids?|caps?|tops?|head)(?: side)? down(?:wards?)?\b|\bbottoms? up\b",
        rf"\b{JAR}\b",
        r"\b(?:empty|drain|drying|to dry|washed|clean|slices?|fruit|cake|halves|peaches|pears|screw|push|press)\b",
    ),
    Habit("oven", r"\b(?:oven|baking (?:tray|sheet)|roasting tin|bake)\b", FILLED, EMPTY),
    *(
        Habit(name, words, IN_JARS, BEFORE_FILLING)
        for name, words in (
            ("oven", r"\boven\b"),
            ("dishwasher", r"\bdish ?washer\b"),
            ("microwave", r"\bmicrowav(?:e|ing)\b"),
            (
                "slow cooker",
                r"\b(?:slow[- ]cooker|crock[- ]?pot|multi-?\s?cooker|rice cooker|air fryer|steam oven|roaster)\b",
            ),
        )
    ),
    Habit("oven", rf"\b(?:bake|roast) (?:the |your )?(?:\w+ )?{JAR}\b|\boven[- ]can", "", r"\bempty\b"),
    Habit("dishwasher", r"\bdish ?washer\b", FILLED, EMPTY),
    Habit("microwave", r"\bmicrowav(?:e|ing)\b", FILLED, EMPTY),
    Habit(
        "slow cooker",
        r"\b(?:slow[- ]cooker|crock[- ]?pot|multi-?\s?cooker|pressure multicooker|rice cooker|air fryer|electric pressure cooker|sous vide)\b",
        FILLED,
        EMPTY + r"|\bfill the (?:hot )?jars\b",
    ),
    Habit(
        "sun",
        r"\b(?:sun|sunshine|sunlight|sunny)\b",
        r"\b(?:cap|capped|filled|closed|sealed|lids?|seal)\b",
        r"\b(?:away from|out of|sun-dried)\b",
    ),
    Habit(
        "no process",
        r"\b(?:no need to|need not|needn't|never mind|don't bother(?: with)?|do not bother(?: with)?|do not|don't|skip(?: the)?|omit(?: the)?|"
        r"leave out(?: the)?|without(?: any)?|forget(?: about)?(?: the)?|dispense with(?: the)?|no|instead of|save yourself the) "
        r"(?:further |more |extra )?(?:heating|heat treatment|process|processing|canner|canning(?! (?:powders?|compounds?|salt|jars?|lids?))|water bath|water-bath|boiling-water bath|boiling the jars|"
        r"heat processing|boil the jars|to process)\b",
        "",
        r"\b(?:freez\w+|refrigerat\w+|fridge|chill\w*|cold shelf|until|before|unless|if the|any jar|jars? (?:that|which))\b",
        True,
    ),
    Habit(
        "no process",
        r"\b(?:processing|canner|water bath|boiling-water bath) (?:is|are) (?:not|un)\s?(?:needed|necessary|required)\b|"
        r"\b(?:leave out|skip|save) the boiling\b|\bno boiling\b",
        "",
        r"\b(?:freez\w+|refrigerat\w+|fridge)\b",
        True,
    ),
)
NO_LID = (
    Habit(
        "wax",
        r"\b(?:paraffin|bees ?wax|wax)\b",
        r"\b(?:pour|spoon|seal|melt|melted|cover|swirl|cap|layer|coat|dip|float|top|run|close|film)\w*",
        r"\bwax(?:ed)? paper\b|\b(?:scrub|wash|rinse|wipe|scrape)\b[^.]{0,40}\bwax\b|\bunwaxed\b",
    ),
    Habit(
        "no lid",
        r"\b(?:cellophane|brandied paper|brandy paper|parchment|muslin|paper (?:disc|circle|round)s?|cloth|plastic wrap|foil)\b",
        rf"\b(?:tie|seal|close|cover|cap|stretch)\b[^.;]{{0,30}}\b(?:{JAR}|rims?|tops?)\b",
        r"\b(?:bowl|pan|overnight|crock|wipe|towel|fruit|instead of lids is)\b",
    ),
    Habit(
        "no lid",
        r"\b(?:no lids? (?:is|are)? ?(?:needed|necessary|required)|need no lids?|without (?:a lid|lids|any lids?))\b",
        "",
        r"\b(?:boil|simmer|cook|pan|pot)\b",
        True,
    ),
)
OTHER = (
    Habit(
        "container",
        r"\b(?:fill|pour|ladle|pack|funnel|decant|spoon|store|put|seal|bottle|transfer)\b[^.;]{0,50}\b(?:in|into|with)\b[^.;]{0,30}"
        r"\b(?:wine bottles?|bottles?|plastic (?:\w+ )?(?:tubs?|containers?|jars?|bottles?|bags?)|pouch(?:es)?|crocks?|tins?|milk cartons?|mason bags|"
        r"zip bags?|tin cans|coffee cans?|mayonnaise jars?)\b",
        "",
        r"\b(?:freez\w+|refrigerat\w+|fridge|overnight|salt|brine|jelly bag|muffin|cake|stand|weigh|ferment\w*)\b",
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
    return next((habit.name for habit, _ in shown(habits, text)), "")


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
