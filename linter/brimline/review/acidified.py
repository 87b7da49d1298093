"""What 21 CFR part 114 calls a food of this formula, as far as formula and readings tell. Information, no verdict."""

from collections.abc import Sequence
from fractions import Fraction

from brimline import figures
from brimline.batch import words
from brimline.batch.classes import GELLED_KINDS, acid_lines, is_minor, is_tomato, stays_or_leaches
from brimline.batch.values import Batch, Group
from brimline.document.values import Document, Evidence
from brimline.review.weighed import Acidified

COLD = frozenset({"freezer", "refrigerator"})


def acidified(batch: Batch) -> Acidified:
    """The definition a formula falls under, in words.

    `state` is `acidified`, `not acidified`, `low-acid`, `above` (a reading is above the limit of acidified food), `ask`
    (states see such spreads differently) or `untold`.
    """
    ph, aw = _readings(batch.document, "ph"), _readings(batch.document, "aw")
    state, says = _class(batch, [value for value, _ in ph], [value for value, _ in aw])
    meter = _limit("cfr_114_meter", "ph")
    if ph and state in ("acidified", "above") and max(value for value, _ in ph) > meter:
        said = all("meter" in row.forms for _, row in ph)
        says += f"; above pH {float(meter):.1f} it is measured with a pH meter (114.80(a))"
        says += "" if said else ", and the reading does not say with what"
    named = ("cfr_114", "cfr_114_meter", *(("spreads_of_states",) if state == "ask" else ()))
    return Acidified(state, says, tuple(figures.published(id_).source for id_ in named))


def _class(batch: Batch, ph: Sequence[Fraction], aw: Sequence[Fraction]) -> tuple[str, str]:
    if batch.document.process and all(one.method in COLD for one in batch.document.process):
        return "not acidified", "not an acidified food: refrigerated and frozen food is left out (114.3(b))"
    low = [" ".join(reversed(g.name.split(", "))) for g in batch.groups if _is_low(g, batch)]
    tomato = any(is_tomato(g) and stays_or_leaches(g) for g in batch.groups)
    strange = [g.name for g in batch.groups if g.safety == "unknown" and g.kept and not is_minor(g, batch)]
    if not low and strange:
        return "untold", f"how sour {words.listed(strange)} is is not known here"
    if not low:
        return _without_low(batch, ph, tomato)
    line, dry = _limit("cfr_114", "ph"), _limit("cfr_114", "water activity")
    food = words.listed(low)
    if aw and max(aw) <= dry:
        return (
            "not acidified",
            f"not an acidified food: its water activity, {_figure(max(aw))}, is not above {_figure(dry)}",
        )
    if batch.kind in GELLED_KINDS | {"fruit butter", "fruit syrup"}:
        return "ask", (
            f"it holds food of little acid ({food}): jams, jellies and preserves are left out (114.3(b)), but some states take "
            "spreads and syrups like this for acidified foods, so ask the state"
        )
    if batch.kind == "fermented pickle":
        return "untold", "its acid comes from fermentation, of which part 114 says nothing here; ask the state"
    if not _sour(batch):
        return "low-acid", f"not an acidified food: it holds {food}, and no acid is added to it"
    if not ph:
        # Without a reading no line of acidity is named: nobody may take it for a figure of this food.
        says = (
            f"food of little acid ({food}) with acid: an acidified food (114.3(b)) if the finished food is sour enough"
        )
        return "untold", f"{says} and not dry; no reading is written"
    if max(ph) > line:
        return "above", (
            f"food of little acid ({food}) with acid, and a reading of pH {_figure(max(ph))}: above {_figure(line)}, which "
            "every container of an acidified food has to stay at or below (114.80(a))"
        )
    wet = f"; its water activity of {_figure(min(aw))} is above {_figure(dry)}" if aw else ""
    says = (
        f"an acidified food (114.3(b)): food of little acid ({food}) with acid; its pH of {_figure(max(ph))} is at or below "
        f"{_figure(line)}{wet}"
    )
    return "acidified", says + ("" if aw else f", if its water activity, which is not written, is above {_figure(dry)}")


def _without_low(batch: Batch, ph: Sequence[Fraction], tomato: bool) -> tuple[str, str]:
    """Nothing of little acid is in it: acid food, jam, or tomatoes, which have a line of their own."""
    line, exception = _limit("cfr_114", "ph"), _limit("cfr_114", "tomato exception ph below")
    if tomato:
        if ph and max(ph) >= exception:
            return (
                "low-acid",
                f"a reading of pH {_figure(max(ph))}: tomatoes are low-acid from {_figure(exception)} (114.3(d))",
            )
        below = f"below pH {_figure(exception)}" if ph else "of usual sourness"
        return "not acidified", (
            f"not an acidified food: tomatoes {below} are not low-acid by this definition (114.3(d)); home canning adds acid to "
            "them all the same"
        )
    if ph and max(ph) > line:
        return "untold", f"no food of little acid is in it that is known here, yet a reading is pH {_figure(max(ph))}"
    left_out = "jams, jellies and preserves are left out, and " if batch.kind in GELLED_KINDS else ""
    return "not acidified", f"not an acidified food (114.3(b)): {left_out}no food of little acid to speak of is in it"


def _is_low(group: Group, batch: Batch) -> bool:
    low = group.safety in ("low-acid", "borderline") and not is_minor(group, batch) and not is_tomato(group)
    return low and stays_or_leaches(group)


def _sour(batch: Batch) -> bool:
    """Whether acid or sour fruit is in it: acid food counts as well as acid."""
    if acid_lines(batch):
        return True
    return any(g.sort in ("fruit", "juice") and g.safety == "high-acid" and g.kept for g in batch.groups)


def _readings(document: Document, quantity: str) -> list[tuple[Fraction, Evidence]]:
    return [
        (row.value, row)
        for row in document.evidence
        if row.kind == "reading" and row.quantity.lower() == quantity and row.value is not None
    ]


def _limit(id_: str, name: str) -> Fraction:
    """One number of a published figure.

    Raises KeyError if the table has lost it.
    """
    found = figures.published(id_).number(name)
    if found is None:
        raise KeyError(name)
    return found.high


def _figure(value: Fraction) -> str:
    return words.decimal(value)
