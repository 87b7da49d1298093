"""A review as JSON Lines: one object a line, each of the shape `record` in `schema/findings.schema.json`."""

import json
from collections.abc import Iterator

from brimline.report.data import (
    VERSION,
    Value,
    counts_data,
    finding_data,
    formula_data,
    refusal_data,
    whole,
)
from brimline.report.handed import Handed, ranked
from brimline.report.words import gravest_first


def jsonl(handed: Handed) -> str:
    """The review, every finding (unsafe ones first), every formula, every refusal, and the end, in ASCII."""
    return "".join(json.dumps(whole(record), ensure_ascii=True) + "\n" for record in _records(handed))


def _records(handed: Handed) -> Iterator[dict[str, Value]]:
    review = handed.review
    yield {
        "record": "review",
        "version": VERSION,
        "tool": handed.program,
        "root": handed.start or ".",
        "collections": list(review.collections),
        "notices": list(handed.notices),
    }
    for one, finding in ranked(review):
        whose: dict[str, Value] = {"path": one.path, "code": one.code, "title": one.title, "held_back": one.held_back}
        yield {"record": "finding", **whose, "finding": finding_data(one.code, finding)}
    for kind, several in (("formula", review.formulas), ("file", review.records)):
        for one in gravest_first(several):
            yield {"record": kind, **formula_data(one), "findings": len(one.findings)}
    for refusal in review.refusals:
        yield {"record": "refusal", **refusal_data(refusal)}
    yield {
        "record": "end",
        "formulas": len(review.formulas),
        "held_back": review.held_back,
        "counts": counts_data(review),
        "refusals": len(review.refusals),
    }
