"""Every change in the tables of this folder, through the whole pipeline: what is said of it, where, and nothing else."""

import pytest
from edge_cases import Edge, edges, reviewed


@pytest.mark.parametrize("edge", edges(), ids=[edge.name for edge in edges()])
def test_edge(edge: Edge) -> None:
    """What is said, with its words and both lines, and what is listed, is what was worked out by hand."""
    assert reviewed(edge, edge.shelf()) == ([], [])
