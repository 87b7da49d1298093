"""Requests made at random: a collection, and the same collection after a few edits of every kind."""

import re
from random import Random

from repositories import FORMULAS

from brimline.gate import Leaf, Snapshot

_AMOUNT = re.compile(r"(?m)^  ((?:optional |infused )*[a-z-]+ +)(\d+)( )")


def collection(most: int = 44) -> dict[str, bytes]:
    """Formulas of the demonstration collection by path: every adaptation, and the tested formulas."""
    files = sorted(FORMULAS.rglob("*.formula"), key=lambda file: ("tested" in file.parts, file.name))
    return {file.relative_to(FORMULAS).as_posix(): file.read_bytes() for file in files[:most]}


def snapshot(formulas: dict[str, bytes], links: tuple[str, ...] = (), **records: bytes) -> Snapshot:
    """A snapshot of formulas; `records` are named with an underscore in place of the point."""
    return Snapshot(
        {path: Leaf(data, size=len(data)) for path, data in formulas.items()},
        {name.replace("_", "."): Leaf(data, size=len(data)) for name, data in records.items()},
        dict.fromkeys(links, "elsewhere"),
    )


def edited(formulas: dict[str, bytes], random: Random) -> dict[str, bytes]:
    """The formulas after one to five edits."""
    after = dict(formulas)
    for _ in range(random.randint(1, 5)):
        path = random.choice(sorted(after))
        random.choice(EDITS)(after, path, random)
    return after


def _amount(after: dict[str, bytes], path: str, random: Random) -> None:
    text = after[path].decode()
    found = list(_AMOUNT.finditer(text))
    if found:
        one = random.choice(found)
        after[path] = (text[: one.start(2)] + str(random.randint(1, 9)) + text[one.end(2) :]).encode()


def _line_gone(after: dict[str, bytes], path: str, random: Random) -> None:
    lines = after[path].split(b"\n")
    del lines[random.randrange(len(lines))]
    after[path] = b"\n".join(lines)


def _line_broken(after: dict[str, bytes], path: str, random: Random) -> None:
    lines = after[path].split(b"\n")
    at = random.randrange(len(lines))
    lines[at] = lines[at][: len(lines[at]) // 2] + b" ??"
    after[path] = b"\n".join(lines)


def _gone(after: dict[str, bytes], path: str, _: Random) -> None:
    if len(after) > 1:
        del after[path]


def _renamed(after: dict[str, bytes], path: str, random: Random) -> None:
    after[f"{random.choice(('new', 'tested', 'x/y'))}/{random.randrange(99)}.formula"] = after.pop(path)


def _capitals(after: dict[str, bytes], path: str, random: Random) -> None:
    copy = after[path]
    if random.randrange(2):
        copy = re.sub(rb"(?m)^formula [A-Z0-9-]+", b"formula KV-8%02d" % random.randrange(99), copy)
    after[path.replace("kv-", "KV-")] = copy


def _copied(after: dict[str, bytes], path: str, random: Random) -> None:
    code = b"KV-9%02d" % random.randrange(99)
    after[f"new/{random.randrange(99)}.formula"] = re.sub(rb"(?m)^formula [A-Z0-9-]+", b"formula " + code, after[path])


def _other_code(after: dict[str, bytes], path: str, random: Random) -> None:
    other = random.choice(sorted(after))
    code = re.search(rb"(?m)^formula ([A-Z0-9-]+)", after[other])
    if code:
        after[path] = re.sub(rb"(?m)^formula [A-Z0-9-]+", b"formula " + code.group(1), after[path])


def _other_parent(after: dict[str, bytes], path: str, random: Random) -> None:
    other = random.choice(sorted(after))
    code = re.search(rb"(?m)^formula ([A-Z0-9-]+)", after[other])
    if code:
        after[path] = re.sub(rb"(?m)^adapts +[A-Z0-9-]+", b"adapts    " + code.group(1), after[path])


def _retired(after: dict[str, bytes], path: str, random: Random) -> None:
    other = random.choice(sorted(after))
    code = re.search(rb"(?m)^formula ([A-Z0-9-]+)", after[other])
    if code:
        words = b"standing  retired\nretired   2026-01-15, superseded\nsuccessor " + code.group(1)
        after[path] = re.sub(rb"(?m)^standing +[a-z]+", words, after[path], count=1)


def _title(after: dict[str, bytes], path: str, random: Random) -> None:
    other = random.choice(sorted(after))
    title = re.search(rb"(?m)^formula [A-Z0-9-]+ (.*)$", after[other])
    if title:
        after[path] = re.sub(rb"(?m)^(formula [A-Z0-9-]+) .*$", rb"\1 " + title.group(1), after[path])


def _standing(after: dict[str, bytes], path: str, random: Random) -> None:
    word = random.choice((b"tested", b"draft", b"adapted"))
    after[path] = re.sub(rb"(?m)^standing +[a-z]+", b"standing  " + word, after[path])


def _layout(after: dict[str, bytes], path: str, _: Random) -> None:
    after[path] = b"# a remark\n" + after[path].replace(b"\ntake\n", b"\n\n\ntake\n")


EDITS = (
    _amount,
    _amount,
    _amount,
    _line_gone,
    _line_broken,
    _gone,
    _renamed,
    _capitals,
    _copied,
    _other_code,
    _other_parent,
    _standing,
    _retired,
    _title,
    _layout,
)
