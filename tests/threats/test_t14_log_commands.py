"""T14: a formula prints a command that the host of the build obeys: a forged mark, a hidden secret, an end of marks."""

import pytest
from hostile_run import FORMS, PLACES, run

ORDERS = (
    "::add-mask::jam",
    "::error file=kv-101.formula::forged",
    "::stop-commands::jam",
    "::set-output name=x::y",
    "plum\n::warning::forged",
    "plum\r\n::warning::forged",
    "##[error]forged",
    "##[add-mask]jam",
    "%0A::error::forged",
    "x,line=1,title=forged::forged",
)
OURS = ("::error file=", "::warning file=", "::notice file=", "::notice title=brimline::")


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("form", ["text", "lines", "annotations"])
def test_no_line_of_the_log_is_an_order_of_a_formula(form: str, place: str) -> None:
    for text in ORDERS:
        printed = FORMS[form](run(text, place))
        orders = [line for line in printed.splitlines() if line.lstrip().startswith("::")]
        assert "##[" not in printed
        if form != "annotations":
            assert orders == []
            continue
        assert orders
        assert all(line.startswith(OURS) for line in orders)
        # The end of the values is the first pair of colons after the start; nothing before it may be forged.
        for line in orders:
            values = line[2:].partition("::")[0]
            assert [part.partition("=")[0] for part in values.split(" ", 1)[1].split(",")] in (
                ["file", "line", "col", "title"],
                ["title"],
            )
