"""What a product ends at, and whether its soluble solids are those that the standard of its name asks for."""

from collections.abc import Sequence
from fractions import Fraction

from brimline.batch import words
from brimline.batch.linear import total, value
from brimline.batch.values import Item
from brimline.document.values import Document
from brimline.figures.identity import Limit, Standard
from brimline.figures.values import Interval
from brimline.findings import Source
from brimline.moves.claim import MAY, MET, SHORT, UNTOLD, Check, single
from brimline.review.counting import spread
from brimline.review.sums import WHOLE, Sums


def remembered(*sources: Source | None) -> str:
    """What stands behind a figure that was not seen in the publication."""
    return " (from memory)" if any(one is not None and one.how == "memory" for one in sources) else ""


def ends_at(document: Document) -> tuple[Fraction | None, str]:
    """The soluble solids of the finished product in per cent, and who says so; the lowest reading counts."""
    readings = [row for row in document.evidence if row.kind == "reading" and row.quantity == "Brix" and row.value]
    if readings:
        row = min(readings, key=lambda one: one.value or 0)
        when = f" on {row.date}" if row.date else ""
        return row.value, f"was read at {words.decimal(row.value or Fraction(0))} %{when}"
    if document.finish is not None and document.finish.kind == "brix" and document.finish.low:
        return document.finish.low, f"is boiled to {words.decimal(document.finish.low)} % as its finish says"
    return None, ""


def _asked(limit: Limit) -> str:
    """What the standard asks for, in words: `at least 60 %`, or a band."""
    memory = remembered(limit.source)
    if limit.most is not None:
        return f"{words.decimal(limit.least)} to {words.decimal(limit.most)} %{memory}"
    if limit.sure != limit.least:
        between = f"{words.decimal(limit.least)} to {words.decimal(limit.sure)} %"
        return f"at least {between}, as the country of sale decides{memory}"
    return f"at least {words.decimal(limit.least)} %{memory}"


def solids_check(
    pot: Sequence[Item], standard: Standard, sums: Sums, document: Document, unweighed: Sequence[str]
) -> Check:
    """Soluble solids of the finished product; `unweighed` are lines that matter and have no weight."""
    limit = standard.solids
    solids = [sums.solids(one) for one in pot]
    known = value(total(one for one in solids if one), sums.bounds)
    brix, told = ends_at(document)
    asked = _asked(limit)
    ends = Interval(limit.least, limit.most or limit.sure)
    if brix is not None:
        most = Interval(known.low / limit.least * WHOLE, known.high / limit.least * WHOLE)
        least = words.decimal(limit.least)
        weight = f"; it holds {spread(known)} of soluble solids, which is {least} % of {spread(most)}"
        weight = weight if not unweighed and limit.sure == limit.least and limit.most is None else ""
        state = MET if brix >= limit.sure else MAY if brix >= limit.least else SHORT
        state = SHORT if limit.most is not None and brix > limit.most else state
        says = f"It {told}; the standard asks for {asked}{weight}."
        return Check("solids", state, says, single(brix), ends, "%", (limit.source,))
    if unweighed:
        lines = words.listed(list(unweighed))
        says = f"What it ends at is not written, and what {lines} weighs is not known; the standard asks for {asked}."
        return Check("solids", UNTOLD, says, None, ends, "%", (limit.source,))
    if limit.most is not None:
        says = (
            f"What it ends at is not written; the standard asks for {asked}. A reading in Brix under `evidence` tells."
        )
        return Check("solids", UNTOLD, says, None, ends, "%", (limit.source,))
    raw = sums.share(solids, [sums.liquid(one) for one in pot])
    if raw is not None and raw.low * WHOLE >= limit.sure:
        found = Interval(raw.low * WHOLE, raw.high * WHOLE)
        uncooked = document.finish is not None and document.finish.kind == "none"
        when = "As mixed it holds" if uncooked else "Before boiling it holds already"
        says = f"{when} {_percent(found)}; the standard asks for {asked}."
        return Check("solids", MET, says, found, ends, "%", (limit.source,))
    most = Interval(known.low / limit.sure * WHOLE, known.high / limit.sure * WHOLE)
    whole = value(total(one for one in (sums.grams(one) for one in pot) if one), sums.bounds)
    says = (
        f"What it ends at is not written. The standard asks for {asked}: with {spread(known)} of soluble "
        f"solids, boiled from {spread(whole)} down to {spread(most)} or less. A reading in Brix under `evidence` tells."
    )
    return Check("solids", UNTOLD, says, None, ends, "%", (limit.source,))


def _percent(span: Interval) -> str:
    low, high = f"{float(span.low):.1f}", f"{float(span.high):.1f}"
    return f"{low} %" if low == high else f"{low} to {high} %"
