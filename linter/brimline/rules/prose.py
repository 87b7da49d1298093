"""Reading practice in prose: sentences, negation, report and question, and habits told by the words that show them."""

import re
from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from brimline._patterns import pattern
from brimline._remember import remembered
from brimline.made.habit_words import NEEDED


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


SENTENCE = pattern(r"(?<=[.!?])[\"'”’)]?\s+")
CLAUSE = pattern(r"[;:,(]|\bbut\b|\bthen\b| - ")
# These look like a denial and ask for the habit.
NO_DENIAL = pattern(
    r"\b(?:do not|don't|never|no need to|not) (?:hesitate|forget|be afraid|be shy|fear|worry|mind|fail|omit|avoid)\b|"
    r"\bnot only\b|\bwhether or not\b|\bif (?:you have|there is) no \w+|\bwithout (?:fail|delay|waiting)\b|"
    # A condition denies nothing: `if they aren't bent, use them`.
    r"\b(?:if|unless|when|where|as long as|so long as|provided|no matter)\b(?: \w+){1,3}? (?:not|\w+n't|no longer)\b|"
    r"\buntil (?:it|they|you|the \w+) (?:will not|won't|cannot|can't|do not|don't|does not|doesn't)\b|\bno matter\b"
)
DENIAL = pattern(
    r"\b(?:not|never|no|nor|neither|without|avoid|avoiding|rather than|instead of|don't|doesn't|won't|can't|cannot|"
    r"mustn't|shouldn't|refrain|stop|against|beware|resist|instead|nobody|no one)\b"
)
# Right before the habit's own words these deny it; further off they may speak of something else.
LEFT_OUT = pattern(
    r"\b(?:skip|omit|leave out|forget about|do without|pass over|put away)(?:ping|ting)?"
    r"(?:(?: \w+)?|(?: \w+){1,4} (?:and|or|nor) (?:the|any|your|all)) $"
)
DENIED_AFTER = pattern(
    r"\b(?:is|are|does|do|will|can|must|should|has|have) (?:no|not|never)\b(?! (?:needed|necessary|required|a problem))|"
    r"\b(?:cannot|can't|won't|doesn't|isn't|aren't)\b"
)
WARNING = pattern(
    r"\b(?:unsafe|dangerous|risky|not recommended|no substitute|not a substitute|withdrawn|a mistake|a fault|"
    r"(?:can|may|might|could|will) (?:grow|crack|break|shatter|cut the|loosen|weaken|let (?:the )?(?:food )?spoil)|"
    r"belongs? to the past|out of date|no longer (?:advised|recommended|used))\b"
)
# Someone's past or someone else's words. A cook's aside (`as my aunt did`) before an instruction is none.
REPORT = pattern(
    r"(?<!that )(?<!which )(?<!you )(?<!they )\b(?:was|were|had|used to|told|said|asked|grew up|did|recalls?|remembers?|remembered|believed|"
    r"swore|swears|recommended|advised|thought|wrote|tried|taught|showed|learned|"
    r"wondered|phoned|mentioned|reported|described|insisted|suggested|wanted to know|went|came|gave|broke|wrote|took|knew)\b|"
    # Who did something, and when it was done, tell a report from an order.
    r"(?:\b(?:she|he|i)|(?:^|[,;:] |\b(?:that|because|how) |^(?:at|in|on|last|during) (?:\w+ ){1,5}?)(?:people|(?:my|our|his|her|one|some|two|three|several|every|many) (?:\w+ )?\w+|"
    r"(?:grand)?(?:mothers?|fathers?|m[ao]m?m?a|pa|dad|grandpa|grandma))) "
    r"(?:just |only |never |always |often |once )?(?:(?!need|proceed|feed|speed)\w{2,}ed|sent|brought|made|kept|left|lost|found|got|sold|ate|stood|put)\b(?! (?:jars?|lids?|bands?|glasses|pints|quarts))|"
    # What somebody has heard or is told, and what an old paper says.
    r"\b(?:i|we)(?:'ve| have)? (?:often |sometimes |still |also |all |once )?(?:heard|hear|seen|see|known|know|met|meet|read)\b(?! (?:if|whether|the jars|bubbles))|"
    r"\b(?:tell|telling|ask|asking|write|writing|assure|assuring) (?:us|me|one another|each other)\b|"
    r"\b(?:his|her|their|(?:an?|the|one) old(?:er)?|an early|grand\w+'s) (?:\w+ )?(?:note|almanac|book|recipe|card|leaflet|page|letter|article|"
    r"magazine|clipping|label|text|version|edition|copy|pamphlet|cookbook|notebook|paper|manual) \w+s\b|"
    r"\b(?:in (?:the )?(?:old days|1[89]\d\ds?|forties|fifties|sixties|seventies|past)|a century ago|\w+ years ago|long ago|"
    r"back then|in (?:those|that) (?:days?|time)|during the war|of (?:that|those) days?)\b|"
    r"\b(?:people|callers|readers|visitors|families|neighbou?rs|cooks|books|leaflets|videos?|websites?|posts?|cards?|"
    r"members|folks?|households|recipes|versions|editions|pamphlets|magazines|directions|manuals|grandmothers|cards|notes|many|some|a few)(?: of \w+| in \w+| still| who| may| going \w+| sometimes| often)?"
    r" (?:still|ask|asks|use|uses|say|says|show|shows|tell|tells|reads?|claim|claims|turn|turns|remember|swear|do|like|call|calls|want|have|suggest|advise|recommend|describe|mention|end|ends|put|puts)\b|"
    r"\b(?:many|most|some|a few|other|several) (?:\w+ )?(?:think|thinks|believe|suppose|assume|imagine|hope|start|count|skip|insist|wonder|prefer|swear)\b|"
    r"\b(?:museum|exhibit|photographs?|survey|hotline)\b|\ban? \w+ once \w+|"
    r"\b(?:older|old|early|earlier|vintage) (?:recipe|version|edition|card|book|pamphlet|leaflet|page)\b(?! (?:aside|away))|"
    r"\bwe (?:are|get) (?:often |still |always )?asked\b|\b(?:there is|there's) a (?:story|tale|belief|myth)\b|\bit is (?:said|claimed|believed)\b|"
    r"\b(?:neighbou?r|relative|friend|judge|judges|reader|caller|somebody|someone) (?:will |may |might )?(?:says?|asks?|tells?|swears?)\b|"
    r"\baccording to an? (?:old|older|early)\b|\b(?:the|a) (?:common )?question\b|\bthe guide now\b|\b(?:common|frequent) (?:slip|mistake|error)\b|"
    r"\byou (?:may|might|will|could) (?:see|hear|read|find|meet|come across)\b|\bask every\b|\bas history\b|"
    r"\bhave (?:always )?been (?:told|taught)\b|\b(?:claims?|says|suggests?) that\b"
)
# A report that ends by telling the cook to do likewise is an instruction.
ORDERED = pattern(
    r"\b(?:(?:do|does) (?:the same|likewise|as (?:she|he|they|we) did)|follow (?:her|his|their) (?:way|example|lead)|so (?:can|should) you|"
    r"you (?:should|can|may) (?:too|as well)|try it|(?:so|and) (?:do|will|can) we|(?:it |that )?(?:still )?works?(?: just)? (?:fine|well|as well)|"
    r"go ahead|it (?:is|'s) (?:perfectly )?(?:fine|all right|ok|okay|enough)|does no harm)\b"
)
ASIDE = pattern(
    r"\b(?:as|like|the way) (?:my|our|your|his|her|the|they|we|grand\w+) ?[\w' ]{0,30} (?:did|used to|taught|said|showed|had)\b"
)


@remembered
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
    if LEFT_OUT.search(clear[:start]):
        return True
    if DENIAL.search(clear, edges[-1] if edges else 0, start) or DENIAL.search(clear[start:end]):
        return True
    after = CLAUSE.split(clear[end:], maxsplit=1)[0]
    return bool(DENIED_AFTER.search(after)) or bool(WARNING.search(sentence))


def could_show(habit: Habit, text: str) -> bool:
    """Whether a text in lower case holds the words without which the habit's patterns cannot match."""
    return all(_holds(NEEDED[one], text) for one in (habit.words, habit.also) if one in NEEDED)


def _holds(need: Any, text: str) -> bool:
    if isinstance(need, str):
        return need in text
    how, *parts = need
    return _HOW[how](_holds(one, text) for one in parts)


_HOW = {"|": any, "&": all}


def shows(habit: Habit, sentence: str) -> str:
    """The words of a sentence that tell a cook to follow the habit, or nothing."""
    if not could_show(habit, sentence):
        return ""
    found = list(re.finditer(habit.words, sentence))
    if not found or (habit.also and not re.search(habit.also, sentence)):
        return ""
    if (habit.unless and re.search(habit.unless, sentence)) or told(sentence):
        return ""
    said = (one for one in found if habit.bare or not denied(sentence, one.start(), one.end()))
    return next((one.group().strip() for one in said), "")


def shown(habits: tuple[Habit, ...], text: str) -> Iterator[tuple[Habit, str]]:
    """Every habit that a step tells the cook to follow, with the words that show it."""
    for sentence in sentences(text):
        for habit in habits:
            if words := shows(habit, sentence):
                yield habit, words
