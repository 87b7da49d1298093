"""An answer to a caller as text: two sentences to read out, the choices, the sources, the cautions."""

from collections.abc import Iterator

from brimline.report.look import Look, wrapped
from brimline.report.sink import Row, paint, plain
from brimline.report.words import NOTICE, WHAT_IT_DOES, cited, sentence
from brimline.review.suppose.values import Answer, Call

_LABEL = 10
# What a verdict is called above the sentences; none of them says that anything may be done.
WORDS = {
    "matches": "as tested",
    "silent": "no finding",
    "quality": "quality",
    "untested": "untested",
    "unsafe": "unsafe",
    "unreadable": "unreadable",
    "talk": "asked",
}
_STYLES = {"matches": "strong", "talk": "strong"}


def answer_text(call: Call, look: Look) -> str:
    """A whole call as it is printed for the person at the desk."""
    return paint(_rows(call, look), look.colour)


def _rows(call: Call, look: Look) -> Iterator[Row]:
    path = look.from_here(call.path)
    head = f"{call.code}  {call.title}"
    gap = look.width - len(head) - len(path)
    yield (("strong", head), ("faint", f"{' ' * gap}{path}")) if gap > 1 else (("strong", head),)
    for answer in call.answers:
        yield plain("")
        yield from _answer(answer, look)
    yield plain("")
    for text in (WHAT_IT_DOES, NOTICE, *call.notices):
        for line in wrapped(text, look.width):
            yield (("faint", line),)


def _answer(answer: Answer, look: Look) -> Iterator[Row]:
    asked = "; ".join(one.said for one in answer.asked)
    word = WORDS[answer.verdict]
    style = _STYLES.get(answer.verdict, answer.verdict)
    first, *rest = wrapped(asked, look.width - _LABEL - 2, look.width - _LABEL - 4)
    yield ((style, f"  {word.ljust(_LABEL)}  "), ("", first))
    for line in rest:
        yield plain(" " * (_LABEL + 4) + line)
    yield plain("")
    for line in wrapped(" ".join(answer.says), look.width - 4):
        yield (("strong", f"    {line}"),)
    yield plain("")
    for level, text in answer.also:
        yield from _hung(f"Also ({level})" if level else "Also", text, look)
    yield from _hung("Instead", sentence(answer.instead), look)
    yield from _hung("Measured", answer.measured, look)
    yield from _hung("Source", sentence("; ".join(cited(answer.sources))), look)


def _hung(label: str, text: str, look: Look) -> Iterator[Row]:
    if not text:
        return
    for line in wrapped(f"{label}: {text}", look.width - 4):
        yield plain(f"    {line}")
