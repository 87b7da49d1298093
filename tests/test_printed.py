"""No published number stands in rule code: the rules ask for it, and every number left in them is accounted for."""

import ast
from fractions import Fraction
from pathlib import Path

import pytest
from rule_cases import CASES, findings

from brimline.figures import published
from brimline.moves.printed import cup_grams, printed, printed_words, prints
from brimline.rules import MODULES
from brimline.rules.habits import HABITS
from brimline.rules.standins import SOURCES

FOLDER = Path(MODULES[0].__file__ or "").parent
# Numbers that say nothing about food, and may stand anywhere: nothing, one, a half, per cent and per thousand.
ANYWHERE = {-1, 0, 1, 2, 100, 1000}
# What else stands in rule code, and why it is not a published figure.
ACCOUNTED: dict[str, dict[int | str, str]] = {
    "acid_food.py": {95: "the sour part, to 5 %: the row fruit-watered says so"},
    "acid_jar.py": {
        200: "half a percent is one jar size",
        4: "pints of a quart",
    },
    "acid_kind.py": {96: "vinegar weighs about as much as water: grams to ml, judgement", 98: "same, of the table"},
    "acid.py": {102: "same, of the table"},
    "honey.py": {4: "a kitchen fraction", 101: "a count of jars, to rounding", 102: "same, of the table"},
    "jar.py": {16: "headspace, to a sixteenth: `same` of the table"},
    "jars_filled.py": {
        3: "a third beside, judgement",
        4: "a third beside, judgement",
        1025: "of the equation, judgement",
    },
    "keep.py": {60: "minutes in an hour", 102: "same, of the table"},
    "low_acid.py": {102: "same, of the table"},
    "method.py": {3: "of six conditions recorded", 15: "the row fill-cold says so"},
    "pectin.py": {
        10: "1.1 batches: the row batch-larger says so",
        11: "1.1 batches",
        95: "the row pectin-cut",
        105: "the row pectin-cut",
    },
    "spoken.py": {60: "minutes in an hour", 3048: "metres in a foot, exact", 10000: "metres in a foot, exact"},
    "steps.py": {60: "minutes in an hour"},
    "sugar_swap.py": {
        3: "a kitchen fraction",
        4: "a kitchen fraction",
        8: "a kitchen fraction",
        102: "same, of the table",
    },
    "thickness.py": {
        20: "a little tomato paste, a twentieth of the base, judgement",
        9: "grams to ml, judgement",
        10: "grams to ml, judgement",
        98: "same",
        102: "same",
    },
    "prose.py": {3: "words between, judgement", 4: "words between", 6: "words between", 7: "words between"},
    "voices.py": {3: "words between, judgement", 4: "digits of a year", 7: "words to the first behind, judgement"},
    "unfamiliar.py": {
        "0.6": "how alike two sentences are, judgement",
        6: "words of a bare sentence, judgement",
        10: "words of a short sentence, judgement",
    },
    "asides.py": {3: "words between, judgement", 7: "words between, judgement"},
    "measured.py": {
        3: "a kitchen fraction",
        4: "a kitchen fraction, or words between",
        7: "words between, judgement",
        8: "a kitchen fraction",
        9: "words between, judgement",
        98: "same, of the table",
    },
}


def numbers(text: str) -> set[Fraction]:
    """The number literals of a module, those inside Fraction("...") too; what a cache holds is left out."""
    tree = ast.parse(text)
    caches = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.keyword) and node.arg == "maxsize"}
    found: set[Fraction] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and type(node.value) in (int, float) and id(node) not in caches:
            found.add(Fraction(str(node.value)))
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Fraction" and len(node.args) == 1:
            argument = node.args[0]
            if isinstance(argument, ast.Constant) and isinstance(argument.value, str):
                found.add(Fraction(argument.value))
    return found


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.py")), ids=lambda path: path.name)
def test_every_number_of_a_rule_is_accounted_for(path: Path) -> None:
    allowed: set[int | str] = {*ANYWHERE, *ACCOUNTED.get(path.name, {})}
    assert numbers(path.read_text(encoding="utf-8")) - {Fraction(one) for one in allowed} == set()


def test_no_account_is_left_over() -> None:
    held = {path.name: numbers(path.read_text(encoding="utf-8")) for path in FOLDER.glob("*.py")}
    assert {
        name: left for name, said in ACCOUNTED.items() if (left := {Fraction(one) for one in said} - held[name])
    } == {}


def test_a_dose_put_back_into_rule_code_is_found() -> None:
    assert numbers('DOSE = Fraction("14.78676478125") * 7') == {Fraction("14.78676478125"), Fraction(7)}


def test_doses_limits_and_lives_come_in_the_units_of_the_rules() -> None:
    """Each beside what the publication prints: Guide 3 p. 3-5, Guide 1 p. 1-26, Michigan State 01600540."""
    tablespoon = Fraction("236.5882365") / 16
    assert printed("tomato_acid", "bottled lemon juice, per quart").low == 2 * tablespoon
    assert printed("sealed_shelf", "best").low == Fraction(36525, 100) * 24 * 60
    assert printed("honey_added_pectin_2_cups", "at most").low == 32 * tablespoon
    assert printed("vinegar_strength", "at least").low == 5
    assert printed_words("tomato_acid", "citric acid, per quart") == "1/2 tsp"
    assert printed_words("uncooked_jam_3_weeks", "refrigerated") == "3 weeks"
    # USDA nutrient database, release 28: one cup of honey is 339 g, packed brown sugar 220 g.
    assert (cup_grams("honey"), cup_grams("sugar, brown", "packed")) == (339, 220)


def test_vinegar_is_no_choice_for_figs_and_asian_pears() -> None:
    """Guide 2 p. 2-14 and 2-20 list no vinegar."""
    assert not prints("fig_acid", "vinegar of 5 %, per quart")
    assert not prints("asian_pear_acid", "citric acid, per quart")


def test_a_number_no_publication_gives_is_an_error() -> None:
    with pytest.raises(KeyError, match="no number called"):
        printed("fig_acid", "vinegar of 5 %, per quart")


@pytest.mark.parametrize("id_", sorted({*SOURCES.values(), *(habit.source for habit in HABITS if habit.source)}))
def test_every_habit_names_a_publication_that_was_read(id_: str) -> None:
    assert published(id_).source.how == "read"


@pytest.mark.parametrize(
    ("case", "id_"),
    [
        ("unsafe-habit/flagged-retighten.formula", "retighten"),
        ("unsafe-habit/flagged-mold.formula", "scoop_mold"),
        ("method-weaker/flagged-alone-step-inversion.formula", "inversion"),
        ("fruit-needs-acid/flagged-alone-figs.formula", "fig_acid"),
        ("not-its-kind/flagged-jelly-of-crushed-fruit.formula", "definitions"),
    ],
)
def test_the_publication_of_one_habit_is_the_first_source_of_its_finding(case: str, id_: str) -> None:
    found = [one for one in findings(CASES / case) if one.sources and one.sources[0] == published(id_).source]
    assert found
    # Our own judgement is not named beside a publication that says it.
    assert all(source.how != "judgement" for one in found for source in one.sources)
