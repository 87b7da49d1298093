"""Reading practice in prose: sentences, negation, report and question, and habits told by the words that show them."""

import re
from collections.abc import Iterator
from functools import lru_cache

from msgspec import Struct


class Habit(Struct, frozen=True):
    """A habit and the words that show it.

    `words` and `also` must both occur in one sentence (an empty `also` always does), `unless` must not. `bare` holds
    where the words are themselves a negation (`do not process`), so that a `not` before them is no denial. `why` is
    one sentence, `source` the id of the guidance it rests on, empty for common practice without a source.
    """

    name: str
    words: str
    also: str = ""
    unless: str = ""
    bare: bool = False
    level: str = "unsafe"
    harm: str = "illness"
    why: str = ""
    source: str = ""


SENTENCE = re.compile(r"(?<=[.!?])[\"'”’)]?\s+")
CLAUSE = re.compile(r"[;:,(]|\bbut\b|\bthen\b| - ")
# These look like a denial and ask for the habit.
NO_DENIAL = re.compile(
    r"\b(?:do not|don't|never|no need to|not) (?:hesitate|forget|be afraid|be shy|fear|worry|mind|fail|omit|avoid)\b|"
    r"\bnot only\b|\bwhether or not\b|\bif (?:you have|there is) no \w+|\bwithout (?:fail|delay|waiting)\b"
)
DENIAL = re.compile(
    r"\b(?:not|never|no|nor|neither|without|avoid|avoiding|rather than|instead of|don't|doesn't|won't|can't|cannot|"
    r"mustn't|shouldn't|refrain|stop|against|beware|resist|instead|nobody|no one)\b"
)
DENIED_AFTER = re.compile(
    r"\b(?:is|are|does|do|will|can|must|should|has|have) (?:no|not|never)\b(?! (?:needed|necessary|required|a problem))|"
    r"\b(?:cannot|can't|won't|doesn't|isn't|aren't)\b"
)
WARNING = re.compile(
    r"\b(?:unsafe|dangerous|risky|not recommended|no substitute|not a substitute|withdrawn|a mistake|a fault|"
    r"(?:can|may|might|could|will) (?:grow|crack|break|shatter|cut the|loosen|weaken|let (?:the )?(?:food )?spoil)|"
    r"belongs? to the past|out of date|no longer (?:advised|recommended|used))\b"
)
# Someone's past or someone else's words. A cook's aside (`as my aunt did`) before an instruction is none.
REPORT = re.compile(
    r"(?<!that )(?<!which )(?<!you )(?<!they )\b(?:was|were|had|used to|told|said|asked|grew up|did|recalls?|remembers?|remembered|believed|"
    r"swore|swears|recommended|advised|thought|wrote|tried|taught|showed|learned)\b|"
    r"\b(?:people|callers|readers|visitors|families|neighbou?rs|cooks|books|leaflets|videos?|websites?|posts?|cards?|"
    r"members|folks?|households|many|some|a few)(?: of \w+| in \w+| still| who| may| going \w+| sometimes| often)?"
    r" (?:still|ask|asks|use|uses|say|says|show|shows|tell|tells|reads?|claim|claims|turn|remember|swear|do|like|call)\b|"
    r"\b(?:neighbou?r|relative|friend|judge|judges|reader|caller|somebody|someone) (?:will |may |might )?(?:says?|asks?|tells?|swears?)\b|"
    r"\baccording to an? (?:old|older|early)\b|\b(?:the|a) (?:common )?question\b|\bthe guide now\b|\b(?:common|frequent) (?:slip|mistake|error)\b|"
    r"\byou (?:may|might|will|could) (?:see|hear|read|find|meet|come across)\b|\bask every\b|\bas history\b|"
    r"\bhave (?:always )?been (?:told|taught)\b|\b(?:claims?|says|suggests?) that\b"
)
# A report that ends by telling the cook to do likewise is an instruction.
ORDERED = re.compile(
    r"\b(?:(?:do|does) (?:the same|likewise|as (?:she|he|they|we) did)|follow (?:her|his|their) (?:way|example|lead)|so (?:can|should) you|"
    r"you (?:should|can|may) (?:too|as well)|try it)\b"
)
ASIDE = re.compile(
    r"\b(?:as|like|the way) (?:my|our|your|his|her|the|they|we|grand\w+) ?[\w' ]{0,30} (?:did|used to|taught|said|showed|had)\b"
)

FILLED = (
    r"\b(?:filled|capped|closed|sealed|lidded|full|packed|finished|tightly)\b[\w ,-]{0,20}\b(?:jars?|pints|half-pints|quarts|"
    r"glasses)\b|\b(?:jars|pints|half-pints|quarts) (?:of|filled)\b|\b(?:process|seal|can|finish)\b[^.;]{0,30}\b(?:jars|them|"
    r"pints|half-pints|quarts|lids)\b|\b(?:instead of|in place of|in lieu of|no|without a|replaces?) (?:\w+ )?(?:\w+ )?"
    r"(?:canner|processing|boiling)\b|\b(?:cap|close|seal|lid|fill) (?:the|all the|your|each) [^.]{0,90}\b(?:oven|dishwasher|"
    r"microwave|cooker|crock-?pot)\b|\blids? (?:seal|pop|ping|draw)\b"
)
EMPTY = r"\b(?:empty|warm the (?:clean )?jars|kept? (?:them |the jars )?hot|keep (?:them|the jars) hot|straight from)\b"
JAR = r"(?:jars?|pints?|half-pints?|quarts?|glasses|bottles?|them)"

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
        r"(?:upside[- ]down|\bon (?:their|its) (?:heads?|lids?|tops?)\b|\blids? down\b|\bhead down\b|\bover (?:for|on|and)\b)",
        "",
        r"\b(?:empty|drain|drying|to dry|washed|clean)\b|\bslices?\b|\bfruit over\b",
    ),
    Habit("oven", r"\b(?:oven|baking (?:tray|sheet)|roasting tin|bake)\b", FILLED, EMPTY),
    Habit("oven", rf"\b(?:bake|roast) (?:the |your )?(?:\w+ )?{JAR}\b|\boven[- ]can", "", r"\bempty\b"),
    Habit("dishwasher", r"\bdish ?washer\b", FILLED, EMPTY),
    Habit("microwave", r"\bmicrowav(?:e|ing)\b", FILLED, EMPTY),
    Habit(
        "slow cooker",
        r"\b(?:slow[- ]cooker|crock-?pot|multi-?\s?cooker|pressure multicooker|rice cooker|air fryer|electric pressure cooker|sous vide)\b",
        FILLED,
        r"\b(?:empty|fill the (?:hot )?jars)\b",
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
        r"(?:further |more |extra )?(?:heating|heat treatment|process|processing|canner|canning|water bath|water-bath|boiling-water bath|boiling the jars|"
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


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a step in lower case with straight quotes."""
    plain = " ".join(text.lower().replace("’", "'").split())
    return tuple(one for one in SENTENCE.split(plain) if one)


def told(sentence: str) -> bool:
    """Whether a sentence only reports or asks: nobody is told to do anything."""
    if sentence.rstrip("\"'”’) ").endswith("?"):
        return True
    return not ORDERED.search(sentence) and bool(REPORT.search(ASIDE.sub(" ", sentence)))


def denied(sentence: str, start: int, end: int) -> bool:
    """Whether the words from start to end (offsets into the sentence) are spoken against."""
    clear = NO_DENIAL.sub(lambda found: " " * len(found.group()), sentence)
    edges = [found.end() for found in CLAUSE.finditer(clear, 0, start)]
    if DENIAL.search(clear, edges[-1] if edges else 0, start) or DENIAL.search(clear[start:end]):
        return True
    after = CLAUSE.split(clear[end:], maxsplit=1)[0]
    return bool(DENIED_AFTER.search(after)) or bool(WARNING.search(sentence))


def shows(habit: Habit, sentence: str) -> str:
    """The words of a sentence that tell a cook to follow the habit, or nothing."""
    if (habit.also and not re.search(habit.also, sentence)) or (habit.unless and re.search(habit.unless, sentence)):
        return ""
    for found in re.finditer(habit.words, sentence):
        if habit.bare or not denied(sentence, found.start(), found.end()):
            return found.group().strip()
    return ""


def shown(habits: tuple[Habit, ...], text: str) -> Iterator[tuple[Habit, str]]:
    """Every habit that a step tells the cook to follow, with the words that show it."""
    if not _any_of(tuple(habit.words for habit in habits)).search(" ".join(text.lower().replace("’", "'").split())):
        # Most steps hold none of the words at all; one search says so.
        return
    for sentence in sentences(text):
        if not told(sentence):
            for habit in habits:
                if words := shows(habit, sentence):
                    yield habit, words


@lru_cache(maxsize=16)
def _any_of(words: tuple[str, ...]) -> re.Pattern[str]:
    """One pattern for all the words of some habits."""
    return re.compile("|".join(f"(?:{one})" for one in words))


def _first(habits: tuple[Habit, ...], text: str) -> str:
    return next((habit.name for habit, _ in shown(habits, text)), "")


@lru_cache(maxsize=4096)
def replaces_process(text: str) -> str:
    """What a step puts in place of the heat process (`oven`, `inversion`, `no process`), or nothing."""
    return _first(REPLACES, text)


@lru_cache(maxsize=4096)
def no_lid(text: str) -> str:
    """What a step closes jars with where a lid belongs (`wax`, `no lid`), or nothing."""
    return _first(NO_LID, text)


@lru_cache(maxsize=4096)
def other_container(text: str) -> str:
    """`container` where a step fills something other than a jar made for home canning, or nothing."""
    return _first(OTHER, text)
