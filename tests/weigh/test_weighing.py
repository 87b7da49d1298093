"""A few batches weighed end to end, against arithmetic that can be followed by hand."""

import json
from pathlib import Path

import pytest

from brimline.batch.models.values import NoFigure

FRUIT = "fruit      5 1/2 cup   strawberries, crushed"
PECTIN = "pectin     1 box of 1 3/4 oz   pectin, regular powdered"
SUGAR = "sweetener  1400 g      sugar, granulated"
LEMON = "acid       2 tbsp      lemon juice, bottled"


def flat(text: str) -> str:
    return " ".join(text.split())


def test_masses_by_weight_are_exact_and_cups_are_intervals(weigh) -> None:
    found = weigh("fruit  1 kg  strawberries, crushed", SUGAR, PECTIN)
    assert found.total.exact
    # 1 3/4 oz is 49.61 g (avoirdupois ounce of 28.3495 g).
    assert float(found.total.low) == pytest.approx(2449.61, abs=0.01)
    cups = weigh(FRUIT, SUGAR).total
    assert cups.low < cups.high


def test_soluble_solids_follow_the_standard_of_identity(weigh) -> None:
    # Strawberry: factor 12.5 in 21 CFR 150.140, so 8 % (read); 1 kg of it and 1 kg of sugar hold 1,080 g.
    found = weigh("fruit  1 kg  strawberries, crushed", "sweetener  1 kg  sugar, granulated")
    assert found.solids.exact
    assert found.solids.low == 1080
    assert found.sugar.low == 1000
    assert found.sugar_share is not None
    assert found.sugar_share.low == found.sugar_share.high == pytest.approx(0.5)
    # Of the 2 kg some is seed and skin, so the liquid part holds a little more than 54 %.
    assert found.solids_share is not None
    assert 0.54 < found.solids_share.low < 0.56


def test_solids_measured_in_a_juice_stand_before_those_of_the_table(weigh) -> None:
    assert weigh("juice 1 kg strawberry juice, strained, 6.4 Brix", SUGAR, kind="jelly").solids.low == 1464
    # 8 percent: 21 CFR 150.140(b)(1), factor 12.5; read.
    assert weigh("juice 1 kg strawberry juice, strained", SUGAR, kind="jelly").solids.low == 1480


def test_one_cup_weight_on_two_lines_is_one_unknown(weigh) -> None:
    once = weigh("fruit  1 kg  strawberries, crushed", "sweetener  5 cup  sugar, granulated")
    twice = weigh(
        "fruit  1 kg  strawberries, crushed",
        "sweetener  2 cup  sugar, granulated",
        "sweetener  3 cup  sugar, granulated",
    )
    assert (once.total, once.solids_share, once.sugar_share) == (twice.total, twice.solids_share, twice.sugar_share)


def test_no_batch_fills_more_than_all_that_is_in_the_pot(weigh) -> None:
    # An extraction table prints 7-8 half-pints of blackberry jelly from 4 cups of juice and 3 to 4 of sugar; with
    # nothing boiled off they fill 6.3 by the middle weights. The ceiling takes the heaviest cups.
    found = weigh(
        "juice  4 cup  blackberry juice", "sweetener  4 cup  sugar, granulated",
        kind="jelly", finish="gel point", jars="7 to 8 half-pint",
    )  # fmt: skip
    assert found.fill is not None
    assert found.fill.most is not None
    assert found.fill.beyond
    assert 6.3 <= found.fill.most <= 6.3 * 1.05
    assert not weigh(FRUIT, PECTIN, SUGAR).fill.beyond


def test_added_acid_is_counted_in_ml_grams_and_as_citric_acid(weigh) -> None:
    (acid,) = weigh(FRUIT, LEMON, PECTIN, SUGAR).acids
    assert float(acid.ml.low) == pytest.approx(29.57, abs=0.01)  # two tablespoons
    # 4.5 g in 100 g (21 CFR 146.114); 244 g a cup (SR28).
    assert acid.citric.low <= 244 / 8 * 0.045 <= acid.citric.high
    (vinegar,) = weigh("vegetable 1 kg onion, chopped", "acid 500 g white vinegar, 5 %", kind="pickle").acids
    # 25 g of acetic acid count as 25 / 0.938 g of citric acid.
    assert float(vinegar.citric.low) == pytest.approx(25 / 0.938, rel=0.001)


def test_acid_of_unstated_strength_has_no_figure(weigh) -> None:
    (vinegar,) = weigh("vegetable 1 kg onion, chopped", "acid 2 cup vinegar, home-made", kind="pickle").acids
    assert (vinegar.citric, vinegar.unknown) == (None, "its strength is not stated")


@pytest.mark.parametrize(
    ("take", "kind", "word", "why"),
    [
        ((FRUIT, PECTIN, SUGAR), "jam", "sets", "sour fruit"),
        ((FRUIT, LEMON, PECTIN, SUGAR), "jam", "doubtful", "bottled"),
        (("fruit 1 kg strawberries, crushed", "vegetable 200 g onion, chopped", SUGAR), "jam", "protects", "onion"),
        (("vegetable 1 kg onion, chopped", "acid 2 cup white vinegar, 5 %"), "relish", "protects", "a relish always"),
    ],
)
def test_the_acid_class_and_why(weigh, take: tuple[str, ...], kind: str, word: str, why: str) -> None:
    found = weigh(*take, kind=kind)
    assert found.acid_class == word
    assert why in found.acid_why


def test_gelled_and_pectin(weigh) -> None:
    assert (weigh(FRUIT, PECTIN, SUGAR).gelled, weigh(FRUIT, PECTIN, SUGAR).pectin) == (True, "pectin-powder")
    assert not weigh(FRUIT, "pectin 1 box of 1 3/4 oz low-sugar pectin", SUGAR).gelled


@pytest.mark.parametrize(
    ("jar", "at", "takes", "minutes"),
    [
        ("half-pint", 1000, "half-pint", 5),
        ("half-pint", 1001, "half-pint", 10),
        ("pint", 4200, "pint", 10),
        ("12 oz", 4200, "pint", 10),
        ("quart", 4200, "", None),
        ("pint", 6001, "pint", None),
    ],
)
def test_a_jar_takes_its_own_time_or_that_of_the_next_larger(weigh, jar, at, takes, minutes) -> None:
    (found,) = weigh(FRUIT, PECTIN, SUGAR, at=at, jar=jar).minutes
    assert (found.takes, found.minutes) == (takes, minutes)
    assert found.says == ("" if minutes else "no tested time")


def test_a_line_without_a_figure_is_said(weigh) -> None:
    found = weigh(FRUIT, SUGAR, "liquid some water")
    assert found.unweighed == ("water",)
    assert (found.solids_share, found.fill.most) == (None, None)


def test_the_gel_point_has_the_published_table_first(weigh) -> None:
    gel = weigh("juice 4 cup grape juice", SUGAR, kind="jelly", finish="gel point", at=4000).gel
    assert gel.used
    assert gel.published.low == gel.published.high == 212
    assert gel.model == pytest.approx(212.7, abs=0.05)  # computed elsewhere with a reference library
    high = weigh(FRUIT, SUGAR, at=12_000).gel
    assert (high.published, high.used) == (None, False)
    assert isinstance(high.model, NoFigure)
    assert "3600 m" in high.model.why


def test_a_reading_of_boiling_water_comes_before_the_altitude(weigh) -> None:
    jelly = ("juice 4 cup grape juice", SUGAR)
    gel = weigh(*jelly, kind="jelly", finish="gel point 9 F above", at=5000, water=201).gel
    # Water boils at 202.8 F at 5,000 ft on a standard day (IAPWS-95 by reference libraries, computed).
    assert (gel.read, gel.water, gel.model) == (True, pytest.approx(201), pytest.approx(210))
    assert gel.standard == pytest.approx(202.83, abs=0.04)
    alone = weigh(*jelly, kind="jelly", finish="gel point", water=201).gel
    assert (alone.published, alone.standard, alone.model) == (None, None, pytest.approx(209))


def test_a_batch_with_added_pectin_when_done(weigh) -> None:
    # Strawberry jam of 5 1/2 cups and 7 cups of sugar, worked by hand at the middle: berries 5.5 x 232 = 1276 g, 8 % of
    # them dissolved (21 CFR 150.140, read), a box of pectin 49.6 g; 4 % of 2725 g boils off.
    done = weigh(FRUIT, PECTIN, SUGAR).finished
    assert done.way == "boiled briefly"
    assert done.mass.middle == pytest.approx(2616, rel=0.01)
    assert done.solids_share.middle == pytest.approx((1400 + 102 + 22) / (2616 - 26), abs=0.01)
    assert done.sugar_share.middle == pytest.approx(1400 / 2616, abs=0.01)
    # USDA prints "9 or 10" half-pints for 5 1/2 cups and 8 cups of sugar, 200 g of sugar more; read.
    assert done.jars.low <= 9 <= done.jars.high
    assert (done.window.kind, done.stands) == ("high-methoxyl", "edge")
    assert weigh(FRUIT, PECTIN, "sweetener 1600 g sugar").finished.stands == "inside"
    # Cut to a quarter of the sugar, the solids are below 55 per cent however the cups were filled.
    assert weigh(FRUIT, PECTIN, "sweetener 400 g sugar").finished.stands == "below"


def test_a_batch_boiled_to_the_gel_point_when_done(weigh) -> None:
    take = ("fruit 1 kg apricots, crushed", "sweetener 900 g sugar, granulated")
    done, later = weigh(*take, finish="gel point").finished, weigh(*take, finish="gel point 9 F above").finished
    # Published: at 8 F over water about 65 per cent, from 62 to 68; a degree F is about 2 Brix.
    assert 0.60 <= done.solids_share.low <= 0.64 <= 0.66 <= done.solids_share.high <= 0.68
    assert later.solids_share.middle - done.solids_share.middle == pytest.approx(0.02, abs=0.006)
    assert later.jars.middle < done.jars.middle


def test_honey_is_done_at_fewer_solids(weigh) -> None:
    sugar = weigh("fruit 1 kg plums, crushed", "sweetener 900 g sugar", finish="gel point").finished
    honey = weigh("fruit 1 kg plums, crushed", "sweetener 900 g honey", finish="gel point").finished
    # The thermometer end point lies 4 to 7 Brix lower for a batch sweetened with honey alone (published models).
    assert 0.03 <= sugar.solids_share.middle - honey.solids_share.middle <= 0.08


def test_a_batch_stronger_than_its_end_is_not_boiled_down(weigh) -> None:
    take = ("fruit 800 g plums, crushed", "sweetener 1500 g sugar")
    done = weigh(*take, finish="60 Brix").finished
    assert done.unboiled
    assert done.mass.middle == pytest.approx(2300)
    assert isinstance(weigh("fruit 50 g plums, crushed", "sweetener 1500 g sugar", finish="60 Brix").finished, NoFigure)


@pytest.mark.parametrize(
    ("take", "finish", "why"),
    [
        ((FRUIT, SUGAR), "thick", "how much boils off"),
        ((FRUIT, SUGAR), "full rolling boil 4 min", "how much boils off"),
        ((FRUIT, SUGAR, "liquid some water"), "gel point", "no weight is known for water"),
        (("fruit 10 g plums", "sweetener 1 kg sugar"), "full rolling boil 1 min", "not so much water"),
    ],
)
def test_no_figure_says_why(weigh, take: tuple[str, ...], finish: str, why: str) -> None:
    found = weigh(*take, finish=finish).finished
    assert isinstance(found, NoFigure)
    assert why in found.why


def test_calcium_pectin_sets_at_any_solids_and_low_sugar_pectin_has_no_figure(weigh) -> None:
    calcium = weigh(FRUIT, "sweetener 200 g sugar", "pectin 4 tsp pectin, calcium-activated").finished
    assert isinstance(calcium, NoFigure) or calcium.window.kind == "low-methoxyl"
    low = weigh(FRUIT, "sweetener 200 g sugar", "pectin 1 box of 1 3/4 oz low-sugar pectin").finished
    assert low.window is None


def test_pulp_is_as_strong_as_what_went_into_it(weigh) -> None:
    # Sweet pepper is 94 % water and 5 % vinegar 95 % (USDA SR28; read): their juice holds no more than they do.
    take = ("juice 500 g pepper-vinegar juice, strained", "  from vegetable 5 cup bell peppers, red, chopped",
            "  from acid 1 1/2 cup vinegar, white, 5 %", "sweetener 500 g sugar")  # fmt: skip
    found = weigh(*take, kind="jelly")
    assert found.solids_share is not None
    assert found.solids_share.high <= (500 + 500 * 0.08) / 1000


def test_the_screen(run, formulas: Path) -> None:
    status, out, err = run("weigh", formulas / "tested" / "kv-101.formula", "--at", "4,200 ft")
    assert (status, err) == (0, "")
    assert max(map(len, out.splitlines())) <= 80
    for part in ("KV-101", "half-pint at 4,200 ft, boiling-water: 10 min", "211 to 212 F as published", "botulism",
                 "Not tested", "10 half-pint stated; estimated", "when done", "sugar solids"):  # fmt: skip
        assert part in flat(out)


def test_the_screen_says_when_thermometer_and_altitude_disagree(run, formulas: Path) -> None:
    file = formulas / "tested" / "kv-102.formula"
    status, out, _ = run("weigh", file, "--at", "4,200 ft", "--water", "210 F")
    assert status == 0
    assert "210.0 F as read" in flat(out)
    assert "check thermometer and altitude" in flat(out)
    assert "check thermometer" not in flat(run("weigh", file, "--at", "4,200 ft", "--water", "205 F")[1])


def test_no_screen_gives_a_verdict_or_a_ph(run, formulas: Path) -> None:
    for file in sorted(formulas.glob("*/*.formula"))[::5]:
        status, out, _ = run("weigh", file)
        assert status == 0
        # The title is the author's.
        words = flat(out.partition("\n")[2]).lower().split()
        assert not {"safe", "safe.", "safe,", "safely", "ph", "ph,"} & set(words)


def test_json_says_the_same(run, formulas: Path) -> None:
    file = formulas / "tested" / "kv-101.formula"
    status, out, _ = run("weigh", file, "--as", "json", "--at", "1280 m", "--jar", "quart")
    read = json.loads(out)
    assert (status, read["report"], read["code"], read["pectin"]) == (0, "weighing", "KV-101", "pectin-powder")
    assert read["altitude_ft"] == pytest.approx(1280 / 0.3048, abs=0.1)
    assert [one["says"] for one in read["minutes"]] == ["no tested time"]
    assert read["lines"][0]["g"]["low"] < read["lines"][0]["g"]["high"]
    done = read["finished"]
    assert done["jars"]["low"] < done["jars"]["middle"] < done["jars"]["high"] < read["jars"]["most"]
    assert read["soluble_solids_share"]["low"] < done["soluble_solids_share"]["middle"] < 0.7
    status, out, _ = run("weigh", file, "--as", "json", "--water", "95 C")
    gel = json.loads(out)["gel_point"]
    assert (status, gel["water_read"], gel["water_boils_f"], gel["model_f"]) == (0, True, 203.0, 211.0)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--at", "high up"), "4,200 ft or 1280 m"),
        (("--at", "4200"), "4,200 ft or 1280 m"),
        (("--water", "hot"), "204.5 F or 95.8 C"),
        (("--water", "96"), "204.5 F or 95.8 C"),
        (("--water", "220 F"), "check the thermometer"),
        (("--water", "85 C"), "check the thermometer"),
        (("--jar", "pnit"), "did you mean pint?"),
        (("--jar", "3 kg"), "pint"),
    ],
)
def test_what_cannot_be_meant_is_refused(run, formulas: Path, words: tuple[str, ...], says: str) -> None:
    status, out, err = run("weigh", formulas / "tested" / "kv-101.formula", *words)
    assert (status, out) == (2, "")
    assert says in flat(err)


def test_one_formula_at_a_time(run, formulas: Path, tmp_path: Path) -> None:
    assert "one formula" in flat(run("weigh", formulas / "tested")[2])
    assert run("weigh", tmp_path / "none.formula")[0] == 2


def test_what_could_not_be_read_is_said_first(run, tmp_path: Path) -> None:
    file = tmp_path / "xx-1.formula"
    head = "formula XX-1 Something\nproduct   jam\nstanding  draft\n\ntake\n"
    file.write_text(f"{head}  fruit  1 kg  strawberries, crushed\n  fruit  2 cupz  plums\n", "utf-8")
    status, out, _ = run("weigh", file)
    assert status == 0
    assert "1 thing in it could not be read" in flat(out)
    file.write_text(f"{head}  fruit  2 cupz  plums\n", "utf-8")
    status, out, err = run("weigh", file)
    assert (status, out) == (2, "")
    assert "nothing to weigh" in flat(err)
