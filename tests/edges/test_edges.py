"""Every change in the tables of this folder, through the whole pipeline: what is said of it, where, and nothing else."""

import pytest
from edge_cases import Edge, edges, reviewed, told_apart, told_more

# The entries of `tight_*.yaml` are there for one condition each; written in other words they would only take time.
COMPARED = [edge for edge in edges() if edge.adapted and not edge.name.startswith("tight_")]
PLAIN = [edge for edge in COMPARED if edge.plain]


@pytest.mark.parametrize("edge", edges(), ids=[edge.name for edge in edges()])
def test_edge(edge: Edge) -> None:
    """What is said, with its words and both lines, and what is listed, is what was worked out by hand."""
    assert reviewed(edge, edge.shelf()) == ([], [])


@pytest.mark.parametrize("edge", COMPARED, ids=[edge.name for edge in COMPARED])
def test_an_amount_in_two_lines_is_one_amount(edge: Edge) -> None:
    """Two half lines are one line: the same is said, at the first of them, here and in the tested formula."""
    assert told_apart(edge) == set()


@pytest.mark.parametrize("edge", PLAIN, ids=[edge.name for edge in PLAIN])
def test_what_is_in_both_formulas_changes_nothing(edge: Edge) -> None:
    """Spice and colour at the head of both lists is no reason to say more or less of the rest."""
    assert told_more(edge) == set()
