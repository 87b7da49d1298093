"""Documents at random: every section, every way of stating an amount, in any combination the format can write."""

import string
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st
from msgspec import Struct
from msgspec.structs import fields

from brimline.document import units
from brimline.document.values import (
    Amount,
    Band,
    Change,
    Document,
    Evidence,
    Finish,
    Header,
    Headspace,
    Jar,
    Keep,
    Line,
    Measure,
    Pack,
    Packing,
    Per,
    Prepare,
    Process,
    Start,
    Step,
    Times,
    Yield,
)
from brimline.findings import Span

NOWHERE = Span(0, 0)
ROLES = [
    "fruit",
    "juice",
    "peel",
    "vegetable",
    "dried-fruit",
    "nut",
    "sweetener",
    "acid",
    "pectin",
    "gelling",
    "firming",
    "thickener",
    "liquid",
    "spirit",
    "fat",
    "egg",
    "dairy",
    "meat",
    "salt",
    "spice",
    "herb",
    "condiment",
    "flavouring",
    "colour",
]
SUBJECTS = (*ROLES, "jar", "fill", "prepare", "headspace", "lid", "process", "finish", "keep", "batch", "product")
PRODUCTS = ("jelly", "jam", "fruit butter", "pie filling", "fermented pickle", "pickle", "tomato")
FOOD = ("mass", "volume", "count", "package")
KITCHEN = ("1/2", "1/3", "2/3", "1/4", "3/4", "1/5", "4/5", "1/6", "5/6", "1/8", "7/8", "1/16", "15/16")
# Words with which an amount goes on, so that no name can start with them.
OF_AN_AMOUNT = frozenset(
    [
        "of",
        "per",
        "plus",
        "jar",
        "jars",
        "finished",
        "fruit",
        "juice",
        "pulp",
        "puree",
        "sauce",
        "vegetable",
        "peel",
        "mixture",
        "strained",
    ]
)
LETTERS = string.ascii_letters + "éèüñ"
# What prose may hold besides letters; a number sign behind one blank is text.
MARKS = string.digits + "#'\"()%&:;,.!?/+-=–…"
FOOT = Fraction("0.3048")

kitchen_parts = st.sampled_from(KITCHEN).map(Fraction)
small = st.integers(1, 30).map(Fraction)
decimals = st.builds(lambda n, places: Fraction(n, 10**places), st.integers(1, 99_999), st.integers(0, 4))
numbers = st.one_of(small, kitchen_parts, st.builds(lambda a, b: a + b, small, kitchen_parts), decimals)
plain_numbers = st.one_of(st.integers(1, 99_999).map(Fraction), decimals)
words = st.text(LETTERS, min_size=1, max_size=9)


def ranged(one: st.SearchStrategy[Fraction]) -> st.SearchStrategy[tuple[Fraction, Fraction]]:
    """A number twice, or two numbers in order."""
    return st.one_of(one.map(lambda n: (n, n)), st.tuples(one, one).map(lambda pair: (min(pair), max(pair))))


@st.composite
def prose(draw: st.DrawFn, most: int = 8) -> str:
    """Words and signs of any kind, one blank between them."""
    said = draw(st.lists(st.text(LETTERS + MARKS, min_size=1, max_size=9) | st.just("5½"), min_size=1, max_size=most))
    return " ".join(said)


@st.composite
def names(draw: st.DrawFn) -> str:
    """The name of a thing: words of letters, none of which belongs to an amount."""
    said = draw(st.lists(st.one_of(words, st.just("bay-leaf"), st.just("baker's")), min_size=1, max_size=4))
    return " ".join(f"{word}s" if word in OF_AN_AMOUNT else word for word in said)


def unit_names(*dimensions: str) -> st.SearchStrategy[str]:
    return st.sampled_from([name for name, one in units.units().items() if one.dimension in dimensions])


@st.composite
def measures(draw: st.DrawFn) -> Measure:
    low, high = draw(ranged(numbers))
    pack = None
    if draw(st.integers(0, 3)) == 0:
        pack = Pack(draw(numbers), draw(unit_names("mass", "volume", "length")))
    return Measure(low, high, draw(unit_names(*FOOD)), pack)


@st.composite
def per_whats(draw: st.DrawFn) -> Per:
    many = draw(st.one_of(st.just(Fraction(1)), numbers))
    if draw(st.booleans()):
        lettered = [jar.name for jar in units.jars() if jar.name[0].isalpha()]
        return Per(many, draw(st.sampled_from([*lettered, "ml", "l", "oz", "fl oz"])), "jar")
    of = draw(st.sampled_from(("", "finished", "fruit", "juice", "pulp", "puree", "sauce", "peel", "mixture")))
    # A dose for each jar names the size of the jar.
    return Per(many, draw(unit_names(*FOOD).filter(lambda unit: unit != "jar")), of)


@st.composite
def amounts(draw: st.DrawFn) -> Amount:
    if draw(st.integers(0, 9)) == 0:
        return Amount((), some=True)
    sums = st.lists(measures(), min_size=1, max_size=3).map(tuple)
    also = draw(st.lists(sums, max_size=2).map(tuple))
    return Amount(draw(sums), also, draw(st.none() | per_whats()))


@st.composite
def items(draw: st.DrawFn) -> tuple[str, tuple[str, ...], Fraction | None]:
    """A name, its forms, and the strength if one of the forms states it."""
    forms = draw(st.lists(st.one_of(words, st.just("at least 2 days old"), st.just("1 in.")), max_size=3))
    strength = draw(st.none() | st.integers(1, 99).map(Fraction))
    if strength is not None:
        forms.append(f"{strength} %")
    return draw(names()), tuple(forms), strength


@st.composite
def lines(draw: st.DrawFn, role: str = "", mixable: bool = False) -> Line:
    """An ingredient line, or with the role of the line above it one that stands under it."""
    under = role
    if under and mixable and draw(st.integers(0, 3)) == 0:
        return Line(under, None, draw(names()), (), NOWHERE, NOWHERE, NOWHERE, any_mix=True)
    role = draw(st.sampled_from(ROLES)) if not under or draw(st.booleans()) else under
    item, forms, strength = draw(items())
    said: dict[str, Any] = {"strength": strength}
    if not under:
        flags = [draw(st.sampled_from(("", "optional"))), draw(st.sampled_from(("", "infused", "discarded")))]
        said["flags"] = tuple(filter(None, flags))
        said["other"] = tuple(draw(st.lists(lines(role, True), max_size=3)))
        said["made_of"] = tuple(draw(st.lists(lines(role), max_size=2)))
        said["note"] = tuple(draw(st.lists(prose(), max_size=2)))
    return Line(role, draw(amounts()), item, forms, NOWHERE, NOWHERE, NOWHERE, **said)


@st.composite
def jars(draw: st.DrawFn) -> Jar:
    """A jar of the table, or one of a size the table does not know."""
    if draw(st.booleans()):
        known = draw(st.sampled_from(units.jars()))
        return Jar(known.name, known.ml, NOWHERE)
    size = draw(st.integers(60, 3000).filter(lambda ml: ml not in {125, 250, 500, 1000}))
    return Jar(f"{size} ml", Fraction(size), NOWHERE)


some_jars = st.lists(jars(), min_size=1, max_size=3).map(tuple)
any_jars = st.lists(jars(), max_size=2).map(tuple)


@st.composite
def finishes(draw: st.DrawFn) -> Finish:
    kind = draw(
        st.sampled_from(("rolling", "gel", "brix", "temperature", "simmer", "boil", "reduce", "thick", "none", "other"))
    )
    if kind in ("thick", "none"):
        return Finish(kind, NOWHERE)
    if kind == "other":
        return Finish(kind, NOWHERE, text=draw(prose()))
    low, high = draw(ranged(numbers)) if kind in ("rolling", "simmer", "boil") else (draw(plain_numbers),) * 2
    if kind == "gel" and draw(st.booleans()):
        low = high = Fraction(8)
    return Finish(kind, NOWHERE, low, high)


def headers(*values: str) -> st.SearchStrategy[Header | None]:
    return st.none() | (st.sampled_from(values) if values else prose()).map(lambda said: Header(said, NOWHERE))


@st.composite
def packings(draw: st.DrawFn) -> Packing:
    inches = st.one_of(numbers, st.integers(1, 60).map(lambda mm: Fraction(mm * 5, 127)))
    prepared = st.builds(Prepare, st.sampled_from(("sterile", "clean")), any_jars, st.just(NOWHERE))
    spaces = st.builds(Headspace, inches, any_jars, st.just(NOWHERE))
    return Packing(
        draw(any_jars),
        draw(st.lists(prepared, max_size=2).map(tuple)),
        draw(headers("hot", "raw")),
        draw(st.lists(spaces, max_size=2).map(tuple)),
        draw(headers()),
        NOWHERE,
    )


@st.composite
def bands(draw: st.DrawFn) -> tuple[Band, ...]:
    """Times at rising altitudes, in feet or metres, the last one open or not."""
    ups = sorted(set(draw(st.lists(plain_numbers, min_size=1, max_size=4))))
    metres = draw(st.booleans())
    gauge = draw(st.sampled_from(("", "dial", "weighted")))
    made = []
    for place, up in enumerate(ups):
        psi = draw(plain_numbers) if gauge else None
        minutes = draw(st.one_of(numbers, st.integers(1, 5).map(lambda h: Fraction(60 * h))))
        if place == len(ups) - 1 and draw(st.booleans()):
            made.append(Band(minutes, None, NOWHERE, gauge, psi))
        else:
            made.append(Band(minutes, up / FOOT if metres else up, NOWHERE, gauge, psi, "m" if metres else "ft"))
    return tuple(made)


@st.composite
def processes(draw: st.DrawFn) -> Process:
    method = draw(st.sampled_from(("boiling-water", "steam", "pressure", "freezer", "refrigerator")))
    rows = st.builds(Times, some_jars, st.sampled_from(("", "hot", "raw")), bands(), st.just(NOWHERE))
    warmth = st.one_of(plain_numbers, st.integers(1, 120).map(lambda c: Fraction(c * 9, 5) + 32))
    starts = st.builds(
        lambda water, minutes: Start(water, *minutes, NOWHERE), warmth, ranged(st.integers(1, 90).map(Fraction))
    )
    return Process(method, NOWHERE, tuple(draw(st.lists(rows, max_size=3))), draw(st.none() | starts))


@st.composite
def keeps(draw: st.DrawFn) -> Keep:
    kind = draw(st.sampled_from(("stand", "sealed", "opened", "chilled", "frozen", "uncooked")))
    hours = units.units()[draw(st.sampled_from(("h", "day", "week", "month", "year", "min")))].factor / 60
    low, high = draw(ranged(small))
    where = tuple(draw(st.lists(st.one_of(words, st.just("in a dark place")), min_size=1, max_size=3)))
    if draw(st.booleans()):
        return Keep(kind, None, None, where, NOWHERE)
    return Keep(kind, low * hours, high * hours, where[1:], NOWHERE)


@st.composite
def evidences(draw: st.DrawFn) -> Evidence:
    kind = draw(st.sampled_from(("tested", "reading", "source", "review-by")))
    day = draw(st.dates()).isoformat()
    forms = tuple(draw(st.lists(st.one_of(words, st.just("3 batches"), st.just("#7")), max_size=3)))
    tail = "".join(f", {form}" for form in forms)
    if kind == "source":
        return Evidence(kind, f"source {draw(prose())}", NOWHERE)
    if kind == "review-by":
        return Evidence(kind, f"review-by {day}", NOWHERE, day)
    if kind == "tested":
        return Evidence(kind, f"tested {day}{tail}", NOWHERE, day, forms=forms)
    shown = draw(st.sampled_from(("3.1", "4", "59.25", "0.9")))
    quantity = draw(st.sampled_from(("pH", "aw", "Brix")))
    stated = f"{shown} Brix" if quantity == "Brix" else f"{quantity} {shown}"
    text = f"reading {stated} on {day}{tail}"
    return Evidence(kind, text, NOWHERE, day, quantity, Fraction(shown), forms)


@st.composite
def documents(draw: st.DrawFn) -> Document:
    """A formula with its headers, and each section there or not."""
    codes = st.from_regex(r"[A-Z0-9]{1,6}(-[A-Z0-9]{1,4}){1,3}", fullmatch=True)
    maybe = st.booleans()
    retired = f"{draw(st.dates()).isoformat()}, {draw(prose())}"
    return Document(
        "a.formula",
        code=draw(codes),
        title=draw(prose()),
        product=draw(st.sampled_from(("", *PRODUCTS))),
        standing=draw(st.sampled_from(("tested", "adapted", "draft", "retired"))),
        adapts=draw(st.just("") | codes),
        finish=draw(st.none() | finishes()),
        yields=draw(st.none() | st.builds(lambda n, jar: Yield(*n, jar, NOWHERE), ranged(numbers), jars())),
        sold_as=draw(st.just("") | prose()),
        retired=retired if draw(maybe) else "",
        successor=draw(st.just("") | codes),
        take=tuple(draw(st.lists(lines(), max_size=5))),
        make=tuple(Step(text, NOWHERE) for text in draw(st.lists(prose(50), max_size=3))),
        pack=draw(st.one_of(st.just(Packing()), packings())),
        process=tuple(draw(st.lists(processes(), max_size=2))),
        keep=tuple(draw(st.lists(keeps(), max_size=3))),
        changes=tuple(
            draw(
                st.lists(
                    st.builds(Change, st.sampled_from(SUBJECTS), st.just("") | prose(), st.just(NOWHERE)), max_size=3
                )
            )
        ),
        evidence=tuple(draw(st.lists(evidences(), max_size=3))),
    )


def bare(value: Any) -> Any:
    """A value without the places it was read from and its comments.

    The text of a row of `keep` repeats its parts; that of `evidence`, and of `retired`, is kept with its blanks.
    """
    if isinstance(value, Struct):
        skipped = {"span", "amount_span", "item_span", "path", "headers", "sections", "comments", "at", "index"}
        if isinstance(value, Keep):
            skipped |= {"text"}
        as_written = {"text"} if isinstance(value, Evidence) else {"retired"}
        return {
            one.name: spaced(said) if one.name in as_written else bare(said)
            for one in fields(value)
            if one.name not in skipped
            for said in [getattr(value, one.name)]
        }
    return [bare(one) for one in value] if isinstance(value, tuple) else value


def spaced(text: str) -> str:
    """A text with one blank for each run of blanks, also behind a comma."""
    return ", ".join(" ".join(part.split()) for part in text.split(","))
