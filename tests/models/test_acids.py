"""Milliequivalents of acids against what their molar mass and basicity give, and the published tomato alternatives.

Molar masses from the standard atomic weights (IUPAC, as in the CRC Handbook of Chemistry and Physics; memory): C 12.011,
H 1.008, O 15.999. Alternatives per quart of tomatoes: USDA Complete Guide to Home Canning, Guide 3 p. 3-5 (read).
"""

import pytest

from brimline.batch.models.acid import MEQ

# Carbon, hydrogen and oxygen atoms, and the acid groups.
FORMULAS = {
    "citric": (6, 8, 7, 3),
    "malic": (4, 6, 5, 2),
    "tartaric": (4, 6, 6, 2),
    "acetic": (2, 4, 2, 1),
    "lactic": (3, 6, 3, 1),
}
TABLESPOON_ML = 14.78676478125


@pytest.mark.parametrize("acid", sorted(FORMULAS))
def test_milliequivalents_follow_from_the_molar_mass(acid: str) -> None:
    carbon, hydrogen, oxygen, groups = FORMULAS[acid]
    mass = carbon * 12.011 + hydrogen * 1.008 + oxygen * 15.999
    assert float(MEQ[acid]) == pytest.approx(1000 * groups / mass, rel=0.001)


def test_every_acid_of_the_table_is_checked() -> None:
    assert set(MEQ) - {"citric monohydrate"} == set(FORMULAS)


def test_the_published_tomato_alternatives_are_not_equal_in_acid() -> None:
    citric = 2.4 * float(MEQ["citric"])
    vinegar = 4 * TABLESPOON_ML * 0.05 * float(MEQ["acetic"])
    lemon = [2 * TABLESPOON_ML * strength / 1000 * float(MEQ["citric"]) for strength in (34.1, 39.2)]
    assert citric == pytest.approx(37.5, rel=0.001)
    assert vinegar == pytest.approx(49.2, rel=0.001)
    assert lemon == pytest.approx([15.7, 18.1], rel=0.005)
