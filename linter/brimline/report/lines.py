"""A review as one line per finding, `file:line:column: message`, the form the GNU coding standards give for messages."""

from collections.abc import Iterator

from brimline.findings import Finding
from brimline.report.look import Look
from brimline.report.sink import Row, paint, plain
from brimline.report.words import gravest_first, sentence, stands_by
from brimline.review.values import Review


def lines(review: Review, look: Look) -> str:
    """Every finding on a line of its own; formulas held back come first, so that a cut-off log still shows them."""
    return paint(_rows(review, look))


def _rows(review: Review, look: Look) -> Iterator[Row]:
    for formula in (*gravest_first(review.formulas), *gravest_first(review.records)):
        for finding in formula.findings:
            yield plain(f"{_where(finding, look)}: {_message(finding)}")


def _where(finding: Finding, look: Look) -> str:
    path = finding.at.path if finding.at.path.startswith("<") else look.from_here(finding.at.path)
    # A name that starts with a colon would make the line look like something else.
    named = f"./{path}" if path.startswith((":", "-")) else path
    return f"{named}:{max(finding.line, 1)}:{max(finding.column, 1)}"


def _message(finding: Finding) -> str:
    unsure = "" if finding.certain else "may be "
    instead = f"Instead: {sentence(finding.instead)}" if finding.instead else ""
    write = f"Write: {finding.copy.strip()}" if finding.copy else ""
    stands = stands_by(finding.varied) if finding.varied else ""
    parts = [f"{unsure}{finding.level.word} {finding.rule}: {sentence(finding.says)}", stands, write, instead]
    return " ".join(filter(None, parts))
