"""What `compare` lists: every difference once, with both sides in words, where they stand, and whether it is declared."""

from fractions import Fraction

import pytest
from rule_cases import CASES

from brimline.batch.add import add_up
from brimline.document import read
from brimline.document.values import Document
from brimline.figures.values import Interval
from brimline.findings import Span
from brimline.moves.contrast import contrast
from brimline.moves.listing import _rounded, _same_dose, changed, moves
from brimline.moves.times import TEN_METRES_FT
from brimline.moves.values import Move, Pair

HEAD = "formula XX-1 Trial\nproduct jam\nstanding draft\nfinish full rolling boil 1 min\nyield 4 half-pint\n\n"
Changes = tuple[tuple[str, str], ...]


def parsed(text: str) -> Document:
    document = read("t.formula", text.encode()).document
    assert document is not None
    return document


def taking(*lines: str) -> Document:
    return parsed(HEAD + "take\n" + "".join(f"  {line}\n" for line in lines))


def between(tested: Document, adapted: Document) -> tuple[Move, ...]:
    return moves(tested, adapted, contrast(add_up(tested), add_up(adapted)))


def text_of(name: str, changes: Changes) -> str:
    """A tested formula with some words exchanged; a line whose words are exchanged for nothing is left out."""
    lines = [
        " ".join(line.split()) if line[:1] != " " else f"  {' '.join(line.split())}"
        for line in (CASES / "tested" / f"{name}.formula").read_text(encoding="utf-8").splitlines()
        if not line.startswith("#")
    ]
    for old, new in changes:
        (number,) = [number for number, line in enumerate(lines) if line.strip().startswith(old)]
        lines[number : number + 1] = [lines[number].replace(old, new)] if new else []
    return "\n".join(lines) + "\n"


def at(text: str, span: Span | None) -> str:
    """The words of the line where a place begins."""
    if span is None:
        return ""
    raw = text.encode()
    return raw[raw.rfind(b"\n", 0, span.start) + 1 :].split(b"\n")[0].decode().strip()


def listed(name: str, first: Changes, change: Changes) -> list[tuple[str, str, str, str, str]]:
    """Kind, both sides, and the lines where both stand."""
    was, now = text_of(name, first), text_of(name, change)
    return [
        (one.kind, one.was, one.now, at(now, one.at), at(was, one.before)) for one in between(parsed(was), parsed(now))
    ]


FINISH, PRODUCT = "finish simmer 10 min", "product salsa"
TIMES = "pint: 15 min to 1000 ft, 20 min to 6000 ft, 25 min above"
SAID = "pint: 15 min to 1,000 ft, 20 min to 6,000 ft, 25 min above"
METRES = "pint: 15 min to 305 m, 20 min to 1829 m, 25 min above"


@pytest.mark.parametrize(
    ("first", "change", "wanted"),
    [
        ((), (), []),
        ((), ((PRODUCT, "product relish"),), [("product", "salsa", "relish", "product relish", PRODUCT)]),
        (((PRODUCT, "product relish"),), (), [("product", "relish", "salsa", PRODUCT, "product relish")]),
        (
            (),
            ((FINISH, "finish boil 10 min"),),
            [("finish", "simmering 10 min", "boiling 10 min", "finish boil 10 min", FINISH)],
        ),
        (
            ((FINISH, "finish boil 10 min"),),
            (),
            [("finish", "boiling 10 min", "simmering 10 min", FINISH, "finish boil 10 min")],
        ),
        (
            (),
            ((FINISH, ""),),
            [("finish", "simmering 10 min", "not stated", "formula TF-SALSA Chile salsa", FINISH)],
        ),
        (((FINISH, ""),), (), [("finish", "not stated", "simmering 10 min", FINISH, "")]),
        # A sixteenth of an inch either way is the same headspace.
        ((), (("headspace 1/2", "headspace 9/16"),), []),
        ((), (("headspace 1/2", "headspace 7/16"),), []),
        ((), (("headspace 1/2", "headspace 0.53"),), []),
        # 0.566 is more than a sixteenth above it (0.0625), and less than a fifteenth (0.0667).
        (
            (),
            (("headspace 1/2", "headspace 0.566"),),
            [("headspace", "1/2 in", "0.57 in", "headspace 0.566 in", "headspace 1/2 in")],
        ),
        (
            (),
            (("headspace 1/2", "headspace 5/8"),),
            [("headspace", "1/2 in", "5/8 in", "headspace 5/8 in", "headspace 1/2 in")],
        ),
        (
            (),
            (("headspace 1/2", "headspace 3/8"),),
            [("headspace", "1/2 in", "3/8 in", "headspace 3/8 in", "headspace 1/2 in")],
        ),
        ((), (("headspace 1/2 in", ""),), [("headspace", "1/2 in", "not stated", "pack", "headspace 1/2 in")]),
        ((("headspace 1/2 in", ""),), (), [("headspace", "not stated", "1/2 in", "headspace 1/2 in", "")]),
        (
            (),
            (("fill hot", "fill raw"), ("lid two-piece", "lid one-piece"), ("prepare clean", "prepare sterile")),
            [
                ("prepare", "clean", "sterile", "prepare sterile", "prepare clean"),
                ("fill", "hot", "raw", "fill raw", "fill hot"),
                ("lid", "two-piece", "one-piece", "lid one-piece", "lid two-piece"),
            ],
        ),
        (
            (),
            (("fill hot", ""), ("lid two-piece", ""), ("prepare clean", "")),
            [
                ("fill", "hot", "not stated", "pack", "fill hot"),
                ("lid", "two-piece", "not stated", "pack", "lid two-piece"),
                ("prepare", "clean", "not stated", "pack", "prepare clean"),
            ],
        ),
        (
            (("fill hot", ""), ("lid two-piece", ""), ("prepare clean", "")),
            (),
            [
                ("prepare", "not stated", "clean", "prepare clean", ""),
                ("fill", "not stated", "hot", "fill hot", ""),
                ("lid", "not stated", "two-piece", "lid two-piece", ""),
            ],
        ),
        ((), (("jar pint", "jar 473 ml"),), []),
        (
            (),
            (("jar pint", "jar pint, half-pint"),),
            [("jar", "pint", "pint and half-pint", "jar pint, half-pint", "jar pint")],
        ),
        (
            (("jar pint", "jar pint, half-pint"),),
            (),
            [("jar", "pint and half-pint", "pint", "pack", "jar pint, half-pint")],
        ),
        # Times: the same in metres, another time, other altitudes, a pressure, a jar that went with its time.
        ((), ((TIMES, METRES),), []),
        (
            (),
            ((TIMES, TIMES.replace("20 min", "19 min")),),
            [("process", SAID, SAID.replace("20 min", "19 min"), TIMES.replace("20 min", "19 min"), TIMES)],
        ),
        (
            (),
            ((TIMES, METRES.replace("305 m", "411 m")),),
            # 411 m are 1,348.43 ft, 48 from the next round hundred; 1,829 m are 6,000.66 and within ten metres of it.
            [("process", SAID, SAID.replace("1,000 ft", "1,348 ft"), METRES.replace("305 m", "411 m"), TIMES)],
        ),
        (
            (),
            (("process boiling-water", "process steam"),),
            [
                ("process", "boiling-water", "steam", "process steam", "process boiling-water"),
            ],
        ),
        (
            (),
            ((TIMES, TIMES + "\n  quart: 30 min above"),),
            [("process", "not stated", "quart: 30 min above", "quart: 30 min above", "process boiling-water")],
        ),
        # A jar without a time of its own takes a listed one.
        ((), ((TIMES, TIMES + "\n  half-pint: 15 min to 1000 ft, 20 min to 6000 ft, 25 min above"),), []),
        (
            ((TIMES, TIMES + "\n  quart: 30 min above"),),
            (),
            [],
        ),
        (
            ((TIMES, TIMES + "\n  quart: 30 min above"), ("jar pint", "jar pint, quart")),
            (("jar pint", "jar pint, quart"),),
            [("process", "quart: 30 min above", "not stated", "process boiling-water", "quart: 30 min above")],
        ),
        # A life in other words is the same life; another time is another, and one that was not there is no move.
        ((), (("sealed 12 months, cool", "sealed 1 year, cool"),), []),
        (
            (),
            (("sealed 12 months, cool", "sealed 11 months, cool"),),
            [
                (
                    "keep",
                    "12 months, cool, dark, dry",
                    "11 months, cool, dark, dry",
                    "sealed 11 months, cool, dark, dry",
                    "sealed 12 months, cool, dark, dry",
                )
            ],
        ),
        ((), (("stand 12 h", "stand 12 h\n  opened 2 weeks, refrigerated"),), []),
        (
            (),
            (("stand 12 h", "stand 12 to 24 h"),),
            [("keep", "12 h", "12 to 24 h", "stand 12 to 24 h", "stand 12 h")],
        ),
    ],
)
def test_what_is_moved_beside_the_ingredients(first: Changes, change: Changes, wanted: list[tuple[str, ...]]) -> None:
    assert listed("tf-salsa", first, change) == wanted


PRESSURE = (
    ("process boiling-water", "process pressure"),
    (TIMES, "pint: 15 min at dial 6 psi to 2000 ft, 15 min at dial 8 psi above"),
)


def test_a_pressure_is_said_and_compared() -> None:
    said = "pint: 15 min to 2,000 ft at dial 6 psi, 15 min above at dial {} psi"
    line = "pint: 15 min at dial 6 psi to 2000 ft, 15 min at dial {} psi above"
    other = (PRESSURE[0], (TIMES, line.format(7)))
    assert listed("tf-salsa", PRESSURE, PRESSURE) == []
    assert listed("tf-salsa", PRESSURE, other) == [
        ("process", said.format(8), said.format(7), line.format(7), line.format(8))
    ]


@pytest.mark.parametrize(
    ("feet", "rounded"),
    [
        (Fraction(1000), Fraction(1000)),
        (Fraction("1000.66"), Fraction(1000)),
        (1000 + TEN_METRES_FT, Fraction(1000)),
        (1000 - TEN_METRES_FT, Fraction(1000)),
        (Fraction(1033), Fraction(1033)),
        (Fraction(967), Fraction(967)),
        (Fraction(1050), Fraction(1050)),
        (Fraction("9990"), Fraction(10000)),
        (Fraction(20), Fraction(0)),
    ],
)
def test_an_altitude_within_ten_metres_of_a_round_hundred(feet: Fraction, rounded: Fraction) -> None:
    assert _rounded(feet) == rounded


BOTH = "process boiling-water\n  pint: 15 min above\n\nprocess pressure"


def test_the_times_of_a_method_that_stayed_are_compared_and_those_of_others_are_not() -> None:
    """Boiling water stays and a pressure process goes: one move, of the method."""
    two = (("process boiling-water", BOTH), (TIMES, "pint: 10 min at weighted 10 psi above"))
    one = ((TIMES, "pint: 15 min above"),)
    assert [row[:3] for row in listed("tf-salsa", two, one)] == [
        ("process", "boiling-water and pressure", "boiling-water")
    ]
    assert [row[:3] for row in listed("tf-salsa", one, two)] == [
        ("process", "boiling-water", "boiling-water and pressure")
    ]
    # No method stayed, so all times are compared.
    assert [row[:3] for row in listed("tf-salsa", one, (PRESSURE[0], (TIMES, "pint: 15 min at dial 6 psi above")))] == [
        ("process", "boiling-water", "pressure"),
        ("process", "pint: 15 min above", "pint: 15 min above at dial 6 psi"),
    ]


def test_rows_are_told_apart_by_their_fill() -> None:
    hot, raw = "pint, hot: 15 min above", "pint, raw: 20 min above"
    first = ((TIMES, f"{hot}\n  {raw}"),)
    assert listed("tf-salsa", first, first) == []
    found = listed("tf-salsa", first, ((TIMES, f"{hot}\n  pint, raw: 25 min above"),))
    assert [row[:3] for row in found] == [("process", raw, "pint, raw: 25 min above")]
    # The time of a fill that went is told, for the jar is still in use.
    assert [row[:3] for row in listed("tf-salsa", first, ((TIMES, hot),))] == [("process", raw, "not stated")]


def test_what_is_declared_is_told_by_its_word_and_a_product_always() -> None:
    change = (
        ("fill hot", "fill raw"),
        ("lid two-piece", "lid one-piece"),
        (PRODUCT, "product relish"),
        ("take", "changes\n  fill as asked\n\ntake"),
    )
    found = between(parsed(text_of("tf-salsa", ())), parsed(text_of("tf-salsa", change)))
    assert {one.kind: one.declared for one in found} == {"product": True, "fill": True, "lid": False}


def told(was: tuple[str, ...], now: tuple[str, ...]) -> list[tuple[str, str, str, str, str]]:
    """Subject, kind, both sides and the change of every move of the ingredients."""
    return [(one.subject, one.kind, one.was, one.now, one.change) for one in between(taking(*was), taking(*now))]


SUGAR, SALT = "sweetener 900 g sugar, granulated", "salt 2 g salt, canning"
BASE = ("fruit 1000 g plums", "juice 500 g apple juice")


@pytest.mark.parametrize(
    ("was", "now", "wanted"),
    [
        ((SALT,), (SALT,), []),
        ((SALT,), ("salt 2.04 g salt, canning",), []),
        (
            (SALT,),
            ("salt 3 g salt, canning",),
            [("salt", "salt", "2 g salt, canning", "3 g salt, canning", "+50 %")],
        ),
        (
            (SALT,),
            (),
            [("salt", "salt", "2 g salt, canning", "none", "left out")],
        ),
        (
            (),
            (SALT,),
            [("salt", "salt", "none", "2 g salt, canning", "added")],
        ),
        (
            (SALT,),
            ("salt some salt, canning",),
            [("salt", "salt", "2 g salt, canning", "some salt, canning", "changed")],
        ),
        (
            ("salt some salt, canning",),
            (SALT,),
            [("salt", "salt", "some salt, canning", "2 g salt, canning", "changed")],
        ),
        (("salt some salt, canning",), ("salt some salt, canning",), []),
        (
            ("infused spice 2 g cloves, whole",),
            ("infused spice 3 g cloves, whole",),
            [("spice", "cloves, whole", "2 g cloves, whole", "3 g cloves, whole", "+50 %, infused")],
        ),
        (
            ("discarded spice 2 g cloves, whole",),
            (),
            [("spice", "cloves, whole", "2 g cloves, whole", "none", "left out, discarded")],
        ),
        # An option is a move whichever way it goes, and an option on both sides is none.
        (
            (SALT,),
            (f"optional {SALT}",),
            [("salt", "salt", "2 g salt, canning", "optional 2 g salt, canning", "no change")],
        ),
        (
            (f"optional {SALT}",),
            (SALT,),
            [("salt", "salt", "optional 2 g salt, canning", "2 g salt, canning", "no change")],
        ),
        ((f"optional {SALT}",), (f"optional {SALT}",), []),
        (
            (SALT, SALT),
            (SALT, f"optional {SALT}"),
            [
                (
                    "salt",
                    "salt",
                    "2 g salt, canning + 2 g salt, canning",
                    "2 g salt, canning + optional 2 g salt, canning",
                    "no change",
                )
            ],
        ),
        (
            (SALT, f"optional {SALT}"),
            (SALT, SALT),
            [
                (
                    "salt",
                    "salt",
                    "2 g salt, canning + optional 2 g salt, canning",
                    "2 g salt, canning + 2 g salt, canning",
                    "no change",
                )
            ],
        ),
        # Another kind is a move though it is as much; so is one kind of two, and two kinds of one.
        (
            ("salt 4 g salt, canning",),
            ("salt 4 g salt, table",),
            [("salt", "salt", "4 g salt, canning", "4 g salt, table", "no change")],
        ),
        (
            ("salt 4 g salt, canning",),
            (SALT, "salt 2 g salt, table"),
            [("salt", "salt", "4 g salt, canning", "2 g salt, canning + 2 g salt, table", "no change")],
        ),
        (
            (SALT, "salt 2 g salt, table"),
            ("salt 4 g salt, canning",),
            [("salt", "salt", "2 g salt, canning + 2 g salt, table", "4 g salt, canning", "no change")],
        ),
        # The role is that which the adaptation gives it.
        (
            ("spice 2 g vanilla extract",),
            ("flavouring 4 g vanilla extract",),
            [("flavouring", "vanilla extract", "2 g vanilla extract", "4 g vanilla extract", "+100 %")],
        ),
    ],
)
def test_what_is_moved_of_an_ingredient(
    was: tuple[str, ...], now: tuple[str, ...], wanted: list[tuple[str, ...]]
) -> None:
    assert told((*BASE, SUGAR, *was), (*BASE, SUGAR, *now)) == wanted


def test_a_ratio_is_that_at_the_scale() -> None:
    """Twice the batch, and 9 for 2 g of salt: 4.5 of the tested amount, 2.25 for the batch."""
    was = taking("fruit 1000 g plums", SUGAR, SALT)
    now = taking("fruit 2000 g plums", "sweetener 1800 g sugar, granulated", "salt 9 g salt, canning")
    assert [(one.kind, one.now, one.change, one.ratio) for one in between(was, now)] == [
        ("batch", "2 batch", "+100 %", Interval(Fraction(2), Fraction(2))),
        ("salt", "9 g salt, canning", "+125 %", Interval(Fraction(9, 4), Fraction(9, 4))),
    ]
    half = between(now, was)
    assert [(one.kind, one.now, one.change) for one in half] == [
        ("batch", "1/2 batch", "-50 %"),
        ("salt", "2 g salt, canning", "-56 %"),
    ]


def test_what_rules_ask_at_the_scale() -> None:
    """Twice the batch: 9 for 2 g of salt is 2.25 of it either way; per fruit too, of which there is twice as much."""
    was = add_up(taking("fruit 1000 g plums", SUGAR, SALT))
    both = contrast(
        was, add_up(taking("fruit 2000 g plums", "sweetener 1800 g sugar, granulated", "salt 9 g salt, canning"))
    )
    for per in (None, lambda pair: pair.sort == "fruit"):
        for asked in (both.floor, both.ceiling):
            assert asked(lambda pair: pair.sort == "salt", per) == Interval(Fraction(9, 4), Fraction(9, 4))


def test_what_came_went_or_is_left_open_has_no_ratio() -> None:
    was, now = taking(*BASE, SUGAR, SALT), taking(*BASE, SUGAR)
    some = taking(*BASE, SUGAR, "salt some salt, canning")
    for tested, adapted in ((was, now), (now, was), (was, some), (some, was)):
        assert [one.ratio for one in between(tested, adapted)] == [None]


def test_a_role_of_either_side_declares() -> None:
    was = taking(*BASE, SUGAR, "spice 2 g vanilla extract")
    for word, declared in (("spice", True), ("flavouring", True), ("salt", False)):
        lines = "".join(f"  {one}\n" for one in (*BASE, SUGAR, "flavouring 4 g vanilla extract"))
        now = parsed(f"{HEAD}changes\n  {word} as asked\n\ntake\n{lines}")
        assert [one.declared for one in between(was, now)] == [declared], word


def test_left_to_the_cook_on_both_sides_is_no_move() -> None:
    def pair(was: str, now: str) -> Pair:
        sides = [add_up(taking(*BASE, SUGAR, one)) for one in (was, now)]
        return next(one for one in contrast(*sides).pairs if one.sort == "salt")

    some = "salt some salt, canning"
    assert not changed(pair(some, some))
    assert changed(pair(some, SALT))
    assert changed(pair(SALT, some))
    assert changed(pair(SALT, "salt 3 g salt, canning"))


# A quart is two pints; 2 % of 100 ml is 2 ml.
@pytest.mark.parametrize(
    ("was", "now", "same"),
    [
        (("100 ml per quart jar",), ("100 ml per quart jar",), True),
        (("100 ml per quart jar",), ("50 ml per pint jar",), True),
        (("100 ml per quart jar",), ("102 ml per quart jar",), True),
        (("102 ml per quart jar",), ("100 ml per quart jar",), True),
        (("100 ml per quart jar",), ("103 ml per quart jar",), False),
        (("103 ml per quart jar",), ("100 ml per quart jar",), False),
        (("100 ml per quart jar",), ("100 ml per quart jar", "40 ml per pint jar"), False),
        (("100 ml per quart jar",), ("optional 100 ml per quart jar",), False),
        (("optional 100 ml per quart jar",), ("100 ml per quart jar",), False),
        (("optional 100 ml per quart jar",), ("optional 50 ml per pint jar",), True),
        # Spoons and grams do not add up, so there is no knowing how much it is.
        (("1 tbsp + 1 g per quart jar",), ("1 tbsp + 1 g per quart jar",), True),
        (("1 tbsp + 1 g per quart jar",), ("1 g per quart jar",), False),
        (("100 ml per quart jar",), (), False),
        ((), ("100 ml per quart jar",), False),
    ],
)
def test_doses_are_compared_by_the_jar(was: tuple[str, ...], now: tuple[str, ...], same: bool) -> None:
    def doses(amounts: tuple[str, ...]) -> list:
        lines = [f"acid {one} lemon juice" for one in amounts]
        lines = [f"optional {one.replace('optional ', '')}" if "optional" in one else one for one in lines]
        return list(add_up(taking(*BASE, *lines)).per_jar)

    assert _same_dose(doses(was), doses(now)) is same
    wanted = [] if same else [("acid", "lemon juice per jar")]
    lines = [
        tuple(f"{'optional ' * ('optional' in one)}acid {one.replace('optional ', '')} lemon juice" for one in side)
        for side in (was, now)
    ]
    assert [one[:2] for one in told((*BASE, *lines[0]), (*BASE, *lines[1]))] == wanted


def test_a_dose_that_came_or_went() -> None:
    dose, juice = "acid 2 tbsp per quart jar lemon juice, bottled", "juice 1 tbsp per pint jar lemon juice, bottled"
    name = "lemon juice, bottled per jar"
    assert told((*BASE, dose), BASE) == [("acid", name, "2 tbsp per quart jar", "none", "left out")]
    assert told(BASE, (*BASE, dose)) == [("acid", name, "none", "2 tbsp per quart jar", "added")]
    assert told((*BASE, dose), (*BASE, dose.replace("2 tbsp", "1 tbsp"))) == [
        ("acid", name, "2 tbsp per quart jar", "1 tbsp per quart jar", "changed")
    ]
    # The first line's role is told.
    assert told(BASE, (*BASE, dose, juice))[0][:2] == ("acid", name)


def test_moves_are_listed_in_the_order_of_the_text() -> None:
    found = told(
        (*BASE, SUGAR, SALT), ("salt 3 g salt, canning", "fruit 1200 g plums", "juice 500 g apple juice", SUGAR)
    )
    assert [one[0] for one in found] == ["salt", "fruit"]
