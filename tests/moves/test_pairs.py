"""Both sides of a pair in one measure: which lines, which ends, which unknown weights; and what is read of a batch alone."""

from fractions import Fraction

import pytest
from msgspec.structs import replace

from brimline.batch.add import add_up
from brimline.batch.values import Batch, Item
from brimline.document import read
from brimline.document.own import Own
from brimline.figures.values import Interval
from brimline.moves.contrast import classes, contrast
from brimline.moves.pair import CUP_ML, Unknowns, _weight, build, common, masses, weighed
from brimline.moves.values import Pair, grams

HEAD = "formula XX-1 Trial\nproduct jam\nstanding draft\nfinish full rolling boil 1 min\nyield 4 half-pint\n\ntake\n"


def batch(*lines: str, product: str = "jam") -> Batch:
    text = HEAD.replace("product jam", f"product {product}") + "".join(f"  {line}\n" for line in lines)
    document = read("t.formula", text.encode()).document
    assert document is not None
    return add_up(document)


def pair(was: tuple[str, ...], now: tuple[str, ...]) -> tuple[Pair, Unknowns]:
    unknowns = Unknowns()
    sides: list[tuple[Item, ...]] = [batch(*some).items if some else () for some in (was, now)]
    return build(("a pool", "kept"), sides[0], sides[1], unknowns)[0], unknowns


PLUMS = "fruit 2 cup plums, sliced"
BELL, HOT = "vegetable 1 cup bell pepper, chopped", "vegetable 3 cup jalapeno pepper, sliced"


def test_a_volume_is_so_many_cups_of_an_unknown_weight() -> None:
    found, unknowns = pair((PLUMS,), (PLUMS,))
    assert list(grams(found.was_most).values()) == [2]
    assert len(unknowns.bounds) == 1


def test_weight_comes_before_volume_where_both_sides_state_both() -> None:
    found, _ = pair(("fruit 2 cup = 300 g plums",), ("fruit 3 cup = 400 g plums",))
    assert (found.dim, grams(found.was_most), grams(found.now_most)) == ("mass", {"": 300}, {"": 400})


def test_cups_of_several_kinds_share_one_weight_and_without_a_shared_measure_each_has_its_own() -> None:
    found, unknowns = pair((BELL, HOT), (BELL, HOT))
    assert list(grams(found.was_most).values()) == [4]
    assert len(unknowns.bounds) == 1
    _, apart = pair((BELL, HOT), ("vegetable 2 each bell pepper",))
    assert len([name for name in apart.bounds if name.endswith("cup")]) == 2


def test_a_cup_without_a_state_has_the_weight_of_the_other_side() -> None:
    plain = "fruit 2 cup plums"
    for was, state in ((plain, ""), (PLUMS, "sliced")):
        _, unknowns = pair((was,), (PLUMS if was == plain else plain,))
        (bounds,) = unknowns.bounds.values()
        assert bounds == _weight("plum", state, "cup")


# A cup of unpacked brown sugar weighs 145 g, of packed 220 g (USDA household weights).
def test_a_cup_weighs_by_how_it_is_filled() -> None:
    packed = _weight("sugar, brown", "packed", "cup")
    assert packed is not None
    assert packed.middle == 220


# A clove of garlic weighs 3 g (USDA household weights), taken as 2.7 to 3.3.
def test_pieces_are_what_the_name_says() -> None:
    three = Interval(Fraction("2.7"), Fraction("3.3"))
    for said, known in (("6 each garlic cloves", True), ("6 clove garlic", True), ("1 each garlic", False)):
        _, unknowns = pair((f"vegetable {said}",), (f"vegetable {said}",))
        assert (list(unknowns.bounds.values()) == [three]) is known, said
        assert bool(unknowns.missing) is not known, said
    # A bunch or a head of cloves is no clove.
    for said in ("1 bunch garlic cloves", "1 head garlic cloves"):
        _, unknowns = pair((f"vegetable {said}",), (f"vegetable {said}",))
        assert unknowns.missing, said
        assert list(unknowns.bounds.values()) == [Interval(Fraction(1), Fraction(2000))]


@pytest.mark.parametrize("order", ["{cups} = {grams}", "{grams} = {cups}"])
def test_two_measures_of_one_line_are_read_where_they_are_worst(order: str) -> None:
    """500 for 450 g are 1.11 of the most, 3 for 3 cups 1; 330 for 300 g are 1.1 of the least, 2 for 2 cups 1."""
    was, now = (
        f"fruit {order.format(cups='2 to 3 cup', grams=grams_)} plums" for grams_ in ("300 to 450 g", "330 to 500 g")
    )
    (found,) = contrast(batch(was), batch(now)).pairs
    assert found.disagree == "volume and mass"
    ends = [list(grams(some).values()) for some in (found.was_least, found.now_least, found.was_most, found.now_most)]
    assert ends == [[2], [2], [450], [500]]


def test_a_pool_is_of_the_family_of_the_first_line_here() -> None:
    lemon, lime = "acid 1 tbsp lemon juice, bottled", "acid 1 tbsp lime juice, bottled"
    assert pair((lime,), (lemon, lime))[0].family == "lemon"
    assert pair((lime, lemon), ())[0].family == "lime"


def test_states_that_the_table_gives_one_weight_are_one() -> None:
    def measures(was: str, now: str) -> list[tuple[str, str]]:
        return common(batch(f"fruit 1 cup {was}").items, batch(f"fruit 1 cup {now}").items, pooled=False)

    assert measures("plums, sliced", "plums, pureed") == []
    # What the table does not know may weigh anything in another state.
    assert measures("wumpberries, sliced", "wumpberries, pureed") == []
    assert len(measures("wumpberries, sliced", "wumpberries, sliced")) == 1


def test_the_weight_of_a_food_that_only_one_formula_has_is_its_middle() -> None:
    found = contrast(batch("fruit 2 cup wumpberries", "fruit 1 cup zorkmelons"), batch("fruit 2 cup wumpberries"))
    # An unknown cup is 60 to 360 g, of which 210 is the middle.
    assert {name.split("|")[0]: (one.low, one.high) for name, one in found.bounds.items()} == {
        "wumpberries": (60, 360),
        "zorkmelons": (210, 210),
    }


def test_kinds_in_one_proportion_are_compared_by_the_most_of_them_and_stay_where_they_are() -> None:
    was = ("vegetable 2 to 3 cup bell pepper, green", "vegetable 1 to 2 cup jalapeno pepper")

    def kinds(*now: str) -> set[tuple[str, str]]:
        return {(one.name, one.stay) for one in contrast(batch(*was), batch(*now)).pairs}

    apart = {("bell pepper, green", "kept"), ("jalapeno pepper", "kept")}
    assert kinds("vegetable 2 to 6 cup bell pepper, green", "vegetable 2 to 4 cup jalapeno pepper") == apart
    pooled = {("peppers", "kept")}
    assert kinds("vegetable 4 to 6 cup bell pepper, green", "vegetable 2 to 5 cup jalapeno pepper") == pooled
    # 5 of 3 and 2 of 1 cups: not the first kind alone decides.
    assert kinds("vegetable 5 cup bell pepper, green", "vegetable 1 cup jalapeno pepper") == pooled


@pytest.mark.parametrize(
    ("lines", "wanted"),
    [
        (("salt 2 to 3 g salt, canning",), 3),
        (("salt 2 g salt, canning", "optional salt 3 g salt, canning"), 5),
        (("salt 2 g salt, canning", "salt 3 g salt, canning, to taste"), 2),
        (("salt 2 g salt, canning", "salt some salt, canning"), 2),
    ],
)
def test_a_batch_alone_weighs_its_most(lines: tuple[str, ...], wanted: int) -> None:
    assert masses(batch(*lines), Unknowns()) == {"salt, canning|kept": {"": wanted}}


def test_the_batch_asked_about_last_is_not_weighed_again_and_another_is() -> None:
    one, other = batch("salt 2 g salt, canning"), batch("salt 3 g salt, canning")
    assert weighed(one) == ({"salt, canning|kept": {"": 2}}, Unknowns())
    assert weighed(one)[0] is weighed(one)[0]
    assert weighed(other)[0] == {"salt, canning|kept": {"": 3}}


SWEET = ("fruit 4 cup peaches, chopped", "sweetener 4 cup sugar, granulated")
FRESH, BOTTLED = "acid 2 tbsp lemon juice", "acid 2 tbsp lemon juice, bottled"


@pytest.mark.parametrize(
    ("was", "now", "wanted"),
    [
        ((FRESH,), (FRESH,), "sets"),
        ((BOTTLED,), (BOTTLED,), "doubtful"),
        # What the adaptation no longer calls bottled, or calls so now, changes nothing.
        ((BOTTLED,), (FRESH,), "doubtful"),
        ((FRESH,), (BOTTLED,), "sets"),
        # Two cups of a low-acid vegetable make the acid protect, on whichever side they are.
        ((FRESH,), (FRESH, "vegetable 2 cup carrots, chopped"), "protects"),
        ((FRESH, "vegetable 2 cup carrots, chopped"), (FRESH,), "protects"),
    ],
)
def test_the_acid_protects_where_it_does_in_either_formula(
    was: tuple[str, ...], now: tuple[str, ...], wanted: str
) -> None:
    assert classes(batch(*SWEET, *was), batch(*SWEET, *now)) == (wanted, True, "")


def test_a_cup_is_a_us_cup() -> None:
    # 231 cubic inches in a gallon of 16 cups, 16.387064 ml each (NIST Handbook 44, Appendix C).
    assert Fraction(231, 16) * Fraction("16.387064") == CUP_ML


def test_a_food_of_the_collection_has_the_weight_it_gives_however_it_is_cut() -> None:
    own = Own(
        ("valleyberry",), "fruit", "high-acid", "read a leaflet", weights=(("cup", Fraction(140), Fraction(150)),)
    )
    document = read("t.formula", f"{HEAD}  fruit 2 cup valleyberries, crushed\n".encode()).document
    assert document is not None
    _, unknowns = weighed(add_up(replace(document, own=(own,))))
    assert list(unknowns.bounds.values()) == [Interval(Fraction(140), Fraction(150))]
