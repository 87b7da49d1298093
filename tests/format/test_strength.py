"""The strength of a vinegar, however the blanks stand beside the sign."""

import pytest

from brimline.document import read

TEXT = """formula T-1 Pickle
product pickle
standing draft

take
  acid  1 cup  vinegar, white, {}
"""


@pytest.mark.parametrize("written", ["5 %", "5%", "5  %", "5 \t %", "5   % acidity", "5.0 %  acid"])
def test_a_strength_is_read_whatever_the_blanks(written: str) -> None:
    document = read("a.formula", TEXT.format(written).encode()).document
    assert document is not None
    assert document.take[0].strength == 5
