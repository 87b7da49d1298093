"""Edits of the process and the pack: method, minutes, lid, jars, fill, headspace, and where it is made."""

from fractions import Fraction

from msgspec.structs import replace

from brimline.batch.words import listed
from brimline.document.print_numbers import kept_for
from brimline.document.values import Band, Document, Header, Headspace, Keep, Prepare, Process, Step, Times
from brimline.review.suppose import speak
from brimline.review.suppose.lines import NOWHERE
from brimline.review.suppose.values import Asked, Made

HEAT = ("boiling-water", "steam", "pressure")
_WEEK = Fraction(168)
_MONTH = Fraction(36525, 100) * 24 / 12
_STEPS = {
    "oven": "Process the filled jars in the oven instead of the boiling-water canner.",
    "microwave": "Process the filled jars in the microwave instead of the boiling-water canner.",
    "dishwasher": "Process the filled jars in the dishwasher instead of the boiling-water canner.",
    "slow cooker": "Process the filled jars in the slow cooker instead of the boiling-water canner.",
    "inversion": "Turn the filled jars upside down to seal them instead of processing them.",
}


def method(document: Document, asked: Asked) -> Made:
    """Another process, or none."""
    word = asked.what
    heated = any(process.method in HEAT for process in document.process)
    said = {
        "none": "without processing the filled jars",
        "steam": "processed in a steam canner",
        "pressure": "processed in a pressure canner",
        "inversion": "with the filled jars turned upside down instead of processed",
        "freezer": "kept in the freezer instead of canned",
        "refrigerator": "kept in the refrigerator instead of canned",
    }
    phrase = said.get(word, f"with the jars processed in {'an' if word[0] in 'aeiou' else 'a'} {word}")
    if word in ("freezer", "refrigerator"):
        cold = _cold(document, word)
        new = cold.keep[-1]
        fact = f"up to {kept_for(new.low_h, new.high_h)}" if new.low_h is not None and new.high_h is not None else ""
        return Made(cold, phrase, fact, ("process", "keep"), ("method-cold",))
    if not heated and word in ("none", "inversion"):
        return Made(document, "", absent="this formula is kept cold and never processed by heat")
    if word == "boiling-water":
        return _canned(document)
    was = listed([process.method.replace("-", " ") for process in document.process]) or "no process"
    fact = f"the tested process is {was}"
    if word in ("steam", "pressure"):
        now = tuple(replace(one, method=word) for one in document.process if one.rows)
        if not now:
            return Made(document, "", absent="this formula is kept cold and has no time for any canner")
        if word == "pressure" and all(one.method == "pressure" for one in document.process):
            return Made(document, "", absent="the tested formula is processed in a pressure canner already")
        return Made(replace(document, process=now), phrase, fact, ("process",), ("method-steam",))
    steps = (*document.make, Step(_STEPS[word], NOWHERE)) if word in _STEPS else document.make
    return Made(replace(document, process=(), make=steps), phrase, fact, ("process",))


def _canned(document: Document) -> Made:
    """Processed in boiling water, to keep on a shelf: what was made for the cold gets no time with it."""
    if any(process.method == "boiling-water" for process in document.process):
        return Made(document, "", absent="the tested formula is processed in boiling water already, by its own times")
    phrase = "processed in boiling water, to keep on a shelf"
    timed = tuple(replace(one, method="boiling-water") for one in document.process if one.rows)
    if timed:
        fact = f"the tested process is {listed([one.method for one in document.process])}"
        return Made(replace(document, process=timed), phrase, fact, ("process",))
    keep = [row for row in document.keep if row.kind not in ("chilled", "frozen", "uncooked")]
    shelf = Keep("sealed", 12 * _MONTH, 12 * _MONTH, (), NOWHERE, "sealed 12 months")
    # Any time would do, for none was tested.
    times = Times(document.pack.jars, "", (Band(Fraction(10), None, NOWHERE),), NOWHERE)
    canned = replace(document, process=(Process("boiling-water", NOWHERE, (times,)),), keep=(*keep, shelf))
    return Made(canned, phrase, "the tested formula is kept cold", ("process", "keep"))


def _cold(document: Document, word: str) -> Document:
    """Kept cold for the time that guidance gives its kind; where it gives none, no time is written."""
    keep = [row for row in document.keep if row.kind not in ("sealed", "chilled", "frozen", "uncooked")]
    weeks = {"fruit curd": 1, "relish": 4}.get(document.product, 3)
    if word == "freezer":
        new = Keep("frozen", 12 * _MONTH, 12 * _MONTH, (), NOWHERE, "frozen 12 months")
    else:
        new = Keep("chilled", weeks * _WEEK, weeks * _WEEK, (), NOWHERE, f"chilled {weeks} weeks")
    return replace(document, process=(Process(word, NOWHERE),), keep=(*keep, new))


def time(document: Document, asked: Asked) -> Made:
    """Other minutes in the canner, at every altitude alike."""
    by = asked.number or Fraction(0)
    share = asked.share if asked.share is not None else Fraction(1, 2)
    change = {"less": -by, "more": by}.get(asked.what)
    if not any(process.rows for process in document.process):
        return Made(document, "", absent="this formula has no time in a canner")

    def minutes(was: Fraction) -> Fraction:
        if not asked.what:
            return was * share
        return max(by if change is None else was + change, Fraction(0))

    def row(one: Times) -> Times:
        return replace(one, bands=tuple(replace(band, minutes=minutes(band.minutes)) for band in one.bands))

    rows = tuple(replace(one, rows=tuple(map(row, one.rows))) for one in document.process)
    words = speak.number(by) + (" minute" if by == 1 else " minutes")
    said = {
        "": f"with {speak.share(share)} the time",
        "less": f"with {words} less in the canner",
        "more": f"with {words} more in the canner",
    }
    first = next(one for process in document.process for one in process.rows)
    fact = f"the tested time is {speak.times(first.bands)}"
    return Made(
        replace(document, process=rows),
        said.get(asked.what, f"processed for {words}"),
        fact,
        ("process",),
        ("time-longer",),
    )


def lid(document: Document, asked: Asked) -> Made:
    """Another lid."""
    said = {"wax": "sealed with wax", "used": "with flat lids used again", "none": "without lids"}
    pack = replace(document.pack, lid=Header(asked.what, NOWHERE))
    return Made(replace(document, pack=pack), said[asked.what], "", ("lid",))


def prepare(document: Document, asked: Asked) -> Made:
    """Jars washed and not sterilised."""
    if not any(one.kind == "sterile" for one in document.pack.prepare):
        return Made(document, "", absent="the tested formula asks for clean jars and not for sterile ones")
    pack = replace(document.pack, prepare=(Prepare(asked.what, (), NOWHERE),))
    return Made(replace(document, pack=pack), "in jars that are clean but not sterile", "", ("prepare",))


def fill(document: Document, asked: Asked) -> Made:
    """Jars filled raw or cold."""
    pack = document.pack
    if pack.fill is not None and pack.fill.value == asked.what:
        return Made(document, "", absent=f"the tested formula fills the jars {asked.what} already")
    made = replace(document, pack=replace(pack, fill=Header(asked.what, NOWHERE)))
    return Made(made, "packed raw or cold", "the tested formula is filled hot", ("fill",))


def headspace(document: Document, asked: Asked) -> Made:
    """Another gap under the lid."""
    inches = asked.number or Fraction(0)
    if document.pack.headspace and all(one.inches == inches for one in document.pack.headspace):
        return Made(document, "", absent="that is the headspace the tested formula has already")
    pack = replace(document.pack, headspace=(Headspace(inches, (), NOWHERE),))
    was = listed([f"{speak.number(one.inches)} {speak.unit('in', one.inches)}" for one in document.pack.headspace])
    gap = f"{speak.number(inches)} {speak.unit('in', inches)}"
    fact = f"{was} was tested" if was else ""
    return Made(replace(document, pack=pack), f"with {gap} of headspace", fact, ("headspace",))


def altitude(document: Document, asked: Asked) -> Made:
    """Where it is made: the formula stays as it is, and its own table gives the time."""
    high = asked.high if asked.high is not None else asked.number or Fraction(0)
    low = asked.number or Fraction(0)
    said = speak.altitude(high, asked.unit)
    if low != high:
        said = f"{speak.altitude(low, asked.unit).rpartition(' ')[0]} to {said}"
    return Made(document, f"at {said}", "", (), topics=("altitude",))
