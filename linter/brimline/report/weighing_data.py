"""A weighed batch as JSON."""

import json
from collections.abc import Iterable
from fractions import Fraction

from brimline.batch.models.values import Estimate, NoFigure
from brimline.figures.values import Interval
from brimline.report.label import claim_data, label_data
from brimline.report.sink import visible
from brimline.report.weighing import WHAT_IT_SAYS
from brimline.report.words import NOTICE
from brimline.review.weighed import Acid, Fill, Finished, Gel, Minutes, WeighedLine, Weighing

# Goes up when a key changes its meaning or goes away; new keys alone do not change it.
VERSION = 2

Value = str | int | float | bool | None | list["Value"] | dict[str, "Value"]


def weighing_data(weighed: Weighing, tool: str, root: str = "", notices: Iterable[str] = ()) -> str:
    """A weighing as one JSON text in ASCII: grams, ml, degrees F and feet, each with `low` and `high`."""
    fill, gel = weighed.fill, weighed.gel
    data: dict[str, Value] = {
        "report": "weighing",
        "version": VERSION,
        "tool": tool,
        "root": root or ".",
        "path": weighed.path.encode("utf-8", "replace").decode("utf-8"),
        "code": weighed.code,
        "title": visible(weighed.title),
        "standing": weighed.standing,
        "product": weighed.kind,
        "unread": weighed.unread,
        "lines": [_line_data(line) for line in weighed.lines],
        "total_g": _span(weighed.total),
        "sugar_g": _span(weighed.sugar),
        "sugar_share": _span(weighed.sugar_share, 4),
        "soluble_solids_g": _span(weighed.solids),
        "soluble_solids_share": _span(weighed.solids_share, 4),
        "without_weight": list(weighed.unweighed),
        "without_solids": list(weighed.no_solids),
        "alternatives": list(weighed.alternatives),
        "acids": [_acid_data(acid) for acid in weighed.acids],
        "base_g": _span(weighed.base),
        "sour_g": _span(weighed.sour),
        "sour_share": _span(weighed.sour_share, 4),
        "acid_class": weighed.acid_class,
        "acid_why": weighed.acid_why,
        "gelled": weighed.gelled,
        "pectin": weighed.pectin,
        "jars": None if fill is None else _fill_data(fill),
        "finished": _finished_data(weighed.finished),
        "altitude_ft": None if weighed.altitude_ft is None else round(float(weighed.altitude_ft), 1),
        "minutes": [_minutes_data(one) for one in weighed.minutes],
        "gel_point": None if gel is None else _gel_data(gel),
        "label": label_data(weighed.label),
        "sold_as": claim_data(weighed.claim),
        "sources": [{"id": s.id, "title": s.title, "section": s.section, "how": s.how} for s in weighed.sources],
        "notices": [WHAT_IT_SAYS, NOTICE, *notices],
    }
    return json.dumps(data, indent=2, ensure_ascii=True) + "\n"


def _span(span: Interval | None, places: int = 2) -> Value:
    if span is None:
        return None
    return {"low": round(float(span.low), places), "high": round(float(span.high), places)}


def _line_data(line: WeighedLine) -> Value:
    return {
        "role": line.role,
        "amount": line.amount,
        "item": line.item,
        "fate": line.fate,
        "g": _span(line.grams),
        "soluble_solids_g": _span(line.solids),
    }


def _acid_data(acid: Acid) -> Value:
    spans = {"ml": _span(acid.ml), "g": _span(acid.grams), "citric_g": _span(acid.citric)}
    return {"item": acid.item, "per": acid.per, "unknown": acid.unknown, **spans}


def _fill_data(fill: Fill) -> Value:
    most = None if fill.most is None else round(float(fill.most), 2)
    return {"jar": fill.jar, "stated": _span(fill.stated), "most": most, "beyond": fill.beyond, "says": fill.says}


def _minutes_data(one: Minutes) -> Value:
    bands: list[Value] = [
        {"up_to_ft": _number(b.up_to_ft), "minutes": _number(b.minutes), "psi": _number(b.psi)} for b in one.bands
    ]
    return {
        "method": one.method,
        "jar": one.jar,
        "takes": one.takes,
        "minutes": _number(one.minutes),
        "psi": _number(one.psi),
        "bands": bands,
        "says": one.says,
    }


def _number(value: Fraction | None) -> float | None:
    return None if value is None else round(float(value), 2)


def _gel_data(gel: Gel) -> Value:
    return {
        "published_f": _span(gel.published),
        "model_f": _degrees(gel.model),
        "water_boils_f": _degrees(gel.water),
        "water_read": gel.read,
        "water_of_a_standard_day_f": _degrees(gel.standard),
        "above_water_f": float(gel.above),
        "used": gel.used,
    }


def _degrees(value: float | NoFigure | None) -> Value:
    return round(value, 2) if isinstance(value, float) else None


def _finished_data(finished: Finished | NoFigure) -> Value:
    """The end of cooking: each figure with both ends and its middle, or why there is none."""
    if isinstance(finished, NoFigure):
        return {"no_figure": finished.why}
    window = finished.window
    return {
        "way": finished.way,
        "assumes": finished.assumes,
        "mass_g": _estimate(finished.mass, 1),
        "soluble_solids_share": _estimate(finished.solids_share, 4),
        "sugar_share": _estimate(finished.sugar_share, 4),
        "hot_ml": _estimate(finished.ml, 1),
        "jars": None if finished.jars is None else _estimate(finished.jars, 2),
        "starts_at_its_end": finished.unboiled,
        "set": None if window is None else {
            "pectin": window.kind,
            "solids_percent": _span(window.solids),
            "needs": window.needs,
            "stands": finished.stands,
        },
    }  # fmt: skip


def _estimate(value: Estimate, places: int) -> Value:
    return {"low": round(value.low, places), "middle": round(value.middle, places), "high": round(value.high, places)}
