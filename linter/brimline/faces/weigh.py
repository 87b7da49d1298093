"""`brimline weigh`: what a batch is: masses, sugar, solids, acid, jars, times."""

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from brimline.faces.declare import COLOUR, Arguments, Command, Given, Misuse, Option
from brimline.faces.review import BESIDE, look_at, shelved

if TYPE_CHECKING:
    from brimline.document.values import Jar
    from brimline.faces.console import Console

AS = Option("--as", "FORM", "text (tables), json, or page (HTML with charts)", ("text", "json", "page"), "text")
AT = Option("--at", "ALTITUDE", "where it is made (4,200 ft or 1280 m), else the altitude of its collection")
WATER = Option("--water", "DEGREES", "what a thermometer there shows in boiling water (204.5 F or 95.8 C)")
JAR = Option("--jar", "JAR", "the time for this jar (pint, 500 ml) instead of for all its jars")
_READING = re.compile(r"(\d{2,3}(?:\.\d{1,2})?) ?(F|C)", re.ASCII)
_ALTITUDE = re.compile(r"(\d{1,3}(?:,\d{3})+|\d{1,5})(\.\d{1,3})? ?(ft|m)", re.ASCII)


def run(arguments: Arguments, console: "Console") -> int:
    """Weigh one formula and print it. Raises Misuse for an altitude, reading or jar that is none, or if there is not one formula."""
    from brimline.review.weighing import weighing

    altitude, jar = _altitude(arguments["at"]), _jar(arguments["jar"])
    water = _reading(arguments["water"])
    shelf = shelved(arguments.given, "", arguments["beside"], console)
    look = look_at(shelf, arguments["color"], console)
    if shelf.refusals:
        from brimline.report.sink import paint
        from brimline.report.summary import refused

        console.note(paint(refused(shelf.refusals, look)))
        return 2
    if len(shelf.formulas) != 1:
        raise Misuse(f"weigh takes one formula, but there are {len(shelf.formulas):,} under {arguments.given[0]}")
    book = shelf.formulas[0]
    weighed = weighing(book, shelf.settings(book).altitude_ft if altitude is None else altitude, jar, water)
    if weighed is None:
        raise Misuse(f"{arguments.given[0]} cannot be read, so there is nothing to weigh\nbrimline review says more.")
    if arguments["as"] == "page":
        from brimline.faces.forms import program
        from brimline.report.weighing_page import weighing_page
        from brimline.review.beside import beside

        where = shelf.settings(book).altitude_ft if altitude is None else altitude, water
        made = weighing_page(beside(shelf, book, weighed, where, jar), look, program(), shelf.notices())
        console.hand_over(made)
    elif arguments["as"] == "json":
        from brimline.faces.forms import program, start
        from brimline.report.weighing_data import weighing_data

        console.hand_over(weighing_data(weighed, program(), start(shelf), shelf.notices()))
    else:
        from brimline.report.weighing import weighing_text

        console.say(weighing_text(weighed, look, shelf.notices()))
    return 0


def _altitude(word: str) -> Fraction | None:
    """An altitude in feet. Raises Misuse for one that is none."""
    if not word:
        return None
    found = _ALTITUDE.fullmatch(word.strip())
    if not found:
        raise Misuse(f"{AT.name} cannot be {word}; write an altitude as 4,200 ft or 1280 m")
    number = Fraction(found.group(1).replace(",", "") + (found.group(2) or ""))
    # One foot is 0.3048 m exactly (international foot).
    return number if found.group(3) == "ft" else number / Fraction("0.3048")


def _reading(word: str) -> Fraction | None:
    """What boiling water reads, in degrees F. Raises Misuse for what is no temperature or none of boiling water."""
    from brimline.batch.models import air
    from brimline.batch.models.values import NoFigure

    if not word:
        return None
    found = _READING.fullmatch(word.strip())
    if not found:
        raise Misuse(f"{WATER.name} cannot be {word}; write what the thermometer shows as 204.5 F or 95.8 C")
    number = Fraction(found.group(1))
    degrees = number if found.group(2) == "F" else number * 9 / 5 + 32
    if isinstance(air.pressure_of_reading(air.celsius(float(degrees))), NoFigure):
        raise Misuse(
            f"{WATER.name} cannot be {word}: water boils at 187 to 215 F (86 to 102 C) wherever an altitude up to"
            " 11,800 ft has weather; check the thermometer"
        )
    return degrees


def _jar(word: str) -> "Jar | None":
    """A jar by name or size. Raises Misuse for one that is none."""
    from brimline.document import units
    from brimline.document.values import Jar
    from brimline.findings import Span

    if not word:
        return None
    known = units.jar_named(word)
    if known is not None:
        return Jar(known.name, known.ml, Span(0, 0))
    sized = re.fullmatch(r"([1-9]\d{0,4}) ?(\D{1,8})", word, re.ASCII)
    measure = units.unit(sized.group(2)) if sized else None
    made = units.jar_sized(Fraction(sized.group(1)), measure) if sized and measure else None
    if made is None:
        near = units.nearest_jar(word)
        meant = f"; did you mean {near}?" if near else "; write a jar as pint or 500 ml"
        raise Misuse(f"{JAR.name} cannot be {word}{meant}")
    return Jar(*made, Span(0, 0))


COMMAND = Command(
    name="weigh",
    does="shows what a batch is: masses, sugar, acid, jars, minutes",
    example='brimline weigh formulas/tested/kv-101.formula --at "4,200 ft"',
    run=run,
    given=Given("PATH", "the formula, or - for a pipe", files=True),
    options=(AT, WATER, JAR, AS, COLOUR, BESIDE),
    more="It judges nothing; brimline review does. Ends with 0, or with 2 if something\ncould not be run.",
)
