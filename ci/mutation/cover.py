"""Which lines of `rules/` and `moves/` each item and each file of tests runs, written as JSON.

python ci/mutation/cover.py items OUT          every item of items.py, by name
python ci/mutation/cover.py TESTS OUT          a file or folder of tests, in one run

What does not run a changed line cannot notice the change. Answers that functions remember are forgotten before each
item; otherwise the first one to ask would be the only one to run the lines.
"""

import json
import sys
import threading
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))
from items import ROOT, items

PARTS = tuple(str(ROOT / "linter" / "brimline" / part) for part in ("rules", "moves"))


class Lines:
    """Notes every line run in the two packages since it was cleared."""

    def __init__(self) -> None:
        self.seen: set[tuple[CodeType, int]] = set()
        self._wanted: dict[CodeType, bool] = {}

    def start(self) -> None:
        """Note from now on, in every thread."""
        threading.settrace(self._call)
        sys.settrace(self._call)

    def take(self) -> dict[str, list[int]]:
        """What was noted, by file, and forget it."""
        out: dict[str, set[int]] = {}
        for code, line in self.seen:
            out.setdefault(Path(code.co_filename).relative_to(ROOT).as_posix(), set()).add(line)
        self.seen.clear()
        return {file: sorted(lines) for file, lines in sorted(out.items())}

    def _call(self, frame: FrameType, _event: str, _arg: object) -> Any:
        code = frame.f_code
        wanted = self._wanted.get(code)
        if wanted is None:
            wanted = self._wanted[code] = code.co_filename.startswith(PARTS)
        if not wanted:
            return None
        self.seen.add((code, frame.f_lineno))
        return self._line

    def _line(self, frame: FrameType, event: str, _arg: object) -> Any:
        if event == "line":
            self.seen.add((frame.f_code, frame.f_lineno))
        return self._line


def forget() -> None:
    """Every answer that a function of the tool remembers of a formula, gone."""
    for name, module in list(sys.modules.items()):
        if name.startswith(("brimline.rules", "brimline.moves", "brimline.review")):
            for one in list(vars(module).values()):
                if hasattr(one, "cache_clear"):
                    one.cache_clear()
    for name in ("brimline.moves.pair", "brimline.rules.asides"):
        sys.modules[name]._last.clear()


def main(what: str, out: str) -> int:
    """Write the lines; the tests' own status, or 1 if an item fails with nothing changed."""
    lines = Lines()
    found: dict[str, dict[str, list[int]]] = {}
    status = 0
    if what == "items":
        every = list(items())
        for name, notices in every:
            forget()
            lines.start()
            failed = notices()
            sys.settrace(None)
            found[name] = lines.take()
            if failed:
                print(f"{name} fails with nothing changed.", file=sys.stderr)
                status = 1
    else:
        import pytest

        lines.start()
        status = int(pytest.main(["-x", "-q", "-p", "no:cacheprovider", what]))
        sys.settrace(None)
        found[what] = lines.take()
    Path(out).write_text(json.dumps(found), encoding="utf-8")
    return status


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
