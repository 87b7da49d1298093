"""What 21 CFR part 114 calls a food: 114.3 and 114.80(a), read; that states differ about spreads, read in a state's page."""

import json
from pathlib import Path

import pytest

SUGAR = "sweetener 1 kg sugar, granulated"
VINEGAR = "acid 500 ml vinegar, white, 5 %"


def test_peppers_in_vinegar_are_acidified_and_need_a_meter(weigh) -> None:
    # Peppers are low-acid, acid is added, pH 4.3 is at or below 4.6 and aw 0.95 above 0.85; above 4.0 a pH meter is used.
    take = ["vegetable 1 kg jalapeno peppers, chopped", VINEGAR]
    found = weigh(*take, kind="pickle", evidence=("reading pH 4.3, finished", "reading aw 0.95")).label.acidified
    assert found.state == "acidified"
    assert "jalapeno pepper" in found.says
    assert "above pH 4.0 it is measured with a pH meter" in found.says
    assert "does not say with what" in found.says
    meter = weigh(*take, kind="pickle", evidence=("reading pH 4.3, finished, meter",)).label.acidified
    assert "with what" not in meter.says
    assert "if its water activity" in meter.says
    # At 4.0 any suitable method does.
    sour = weigh(*take, kind="pickle", evidence=("reading pH 4.0",)).label.acidified
    assert (sour.state, "meter" in sour.says) == ("acidified", False)


def test_strawberry_jam_is_not_acidified(weigh) -> None:
    found = weigh(
        "fruit 1 kg strawberries, hulled", SUGAR, evidence=("reading pH 3.4", "reading aw 0.82")
    ).label.acidified
    assert found.state == "not acidified"
    assert "jams, jellies and preserves are left out" in found.says


@pytest.mark.parametrize(("ph", "state"), [("4.65", "not acidified"), ("4.69", "not acidified"), ("4.7", "low-acid")])
def test_tomatoes_below_4_7_are_not_low_acid(weigh, ph: str, state: str) -> None:
    found = weigh("vegetable 1 kg tomatoes, chopped", kind="tomato", evidence=(f"reading pH {ph}",)).label.acidified
    assert found.state == state
    # Home guidance adds acid to tomatoes all the same (USDA Complete Guide, Guide 3; memory).
    assert ("adds acid to them all the same" in found.says) is (state == "not acidified")


def test_pepper_jelly_is_for_the_state_to_say(weigh) -> None:
    found = weigh(
        "vegetable 100 g jalapeno peppers, chopped", VINEGAR, SUGAR, kind="jelly", evidence=("reading pH 3.3",)
    )
    assert found.label.acidified.state == "ask"
    # As a state's page has it: elderberry syrup.
    syrup = weigh("juice 1 kg elderberry juice", SUGAR, kind="fruit syrup", finish="boil 5 min").label.acidified
    assert syrup.state == "ask"


def test_the_limit_holds_for_every_container(weigh) -> None:
    take = ["vegetable 1 kg tomatoes, chopped", "vegetable 300 g onions, chopped", "acid 100 ml vinegar, white, 5 %"]
    found = weigh(*take, kind="salsa", evidence=("reading pH 4.4", "reading pH 4.5", "reading pH 4.7"))
    assert found.label.acidified.state == "above"
    assert "pH 4.7" in found.label.acidified.says
    within = weigh(*take, kind="salsa", evidence=("reading pH 4.4", "reading pH 4.5", "reading pH 4.6"))
    assert within.label.acidified.state == "acidified"


# 114.3(b) and (d): water activity above 0.85, acid added.
OTHERS = [
    (["vegetable 1 kg green beans, cut", "acid 1 l vinegar, white, 5 %"], "pickle", ("reading pH 3.5", "reading aw 0.85"),
     "not acidified"),
    (["vegetable 1 kg green beans, cut", "acid 1 l vinegar, white, 5 %"], "pickle", ("reading pH 3.5", "reading aw 0.86"),
     "acidified"),
    (["vegetable 1 kg green beans, cut"], "pickle", ("reading pH 5.5",), "low-acid"),
    (["vegetable 1 kg green beans, cut", VINEGAR], "pickle", (), "untold"),
    (["vegetable 1 kg cabbage, shredded"], "fermented pickle", ("reading pH 3.6",), "untold"),
    (["fruit 1 kg zanthum berries", SUGAR], "jam", (), "untold"),
]  # fmt: skip


@pytest.mark.parametrize(("take", "kind", "evidence", "state"), OTHERS)
def test_the_definitions(weigh, take: list[str], kind: str, evidence: tuple[str, ...], state: str) -> None:
    assert weigh(*take, kind=kind, evidence=evidence).label.acidified.state == state


def test_it_is_said_in_text_and_json_and_calls_nothing_safe(run, formulas: Path) -> None:
    for path in sorted((formulas / "tested").glob("*.formula")):
        data = json.loads(run("weigh", path, "--as", "json")[1])
        says = data["label"]["cfr_114"]["says"]
        assert data["label"]["cfr_114"]["state"]
        assert "safe" not in says
        assert says in " ".join(run("weigh", path)[1].split())


def test_refrigerated_food_is_left_out(run, formulas: Path) -> None:
    # 114.3(b): carbonated beverages, jams, and foods that are kept refrigerated.
    data = json.loads(run("weigh", formulas / "tested" / "kv-125.formula", "--as", "json")[1])
    assert data["label"]["cfr_114"]["state"] == "not acidified"
    assert "refrigerated and frozen food is left out (114.3(b))" in data["label"]["cfr_114"]["says"]
