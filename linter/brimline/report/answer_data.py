"""An answer to a caller as JSON, in the shape that `schema/answer.schema.json` publishes."""

from brimline.findings import Source
from brimline.report.data import VERSION, Value, as_text, reviewed_data, source_values
from brimline.report.words import NOTICE, WHAT_IT_DOES
from brimline.review.suppose.values import Answer, Asked, Call


def answer_data(call: Call, tool: str, root: str = "") -> str:
    """A whole call as one JSON text in ASCII; `tool` names program and version, `root` leads to where paths start."""
    return as_text(
        {
            "report": "answer",
            "version": VERSION,
            "tool": tool,
            "root": root or ".",
            "path": call.path,
            "code": call.code,
            "title": call.title,
            "standing": call.standing,
            "held_back": call.held_back,
            "answers": [_answer(one) for one in call.answers],
            "cautions": [WHAT_IT_DOES, NOTICE],
            "notices": list(call.notices),
        }
    )


def _answer(one: Answer) -> Value:
    return {
        "asked": [_asked(asked) for asked in one.asked],
        "verdict": one.verdict,
        "held_back": one.held_back,
        "says": list(one.says),
        "also": [{"level": level, "says": says} for level, says in one.also],
        "instead": one.instead,
        "measured": one.measured,
        "rule": one.rule,
        "row": one.row,
        "sources": _sources(one.sources),
        "text": one.text,
        "review": None if one.reviewed is None else reviewed_data(one.reviewed),
    }


def _asked(one: Asked) -> Value:
    return {"kind": one.kind, "said": one.said, "what": one.what, "of": one.of}


def _sources(sources: tuple[Source, ...]) -> Value:
    return source_values(sources)
