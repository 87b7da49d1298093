"""Which statements of `rules/` and `moves/` are run: each is compiled with a note of its line in front."""

import ast
import builtins
import sys
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import CodeType

ROOT = Path(__file__).resolve().parents[2]
PARTS = tuple(str(ROOT / "linter" / "brimline" / part) for part in ("rules", "moves"))
JUDGING = ("brimline.rules", "brimline.moves", "brimline.review")
_NAME = "_lines_run"
_FILES: list[str] = []
_STEP = 1 << 16


def note() -> None:
    """From now on what is imported from the two packages notes its lines; each function only costs a little more."""
    setattr(builtins, _NAME, set[int]())
    whole = SourceFileLoader.get_code

    def noting(self: SourceFileLoader, name: str) -> CodeType | None:
        path = self.get_filename(name)
        if not path.startswith(PARTS):
            return whole(self, name)
        _FILES.append(Path(path).relative_to(ROOT).as_posix())
        tree = _Noting((len(_FILES) - 1) * _STEP).visit(ast.parse(Path(path).read_text(encoding="utf-8")))
        return compile(ast.fix_missing_locations(tree), path, "exec")

    SourceFileLoader.get_code = noting  # type: ignore[method-assign]


def start() -> None:
    """Forget what was noted."""
    getattr(builtins, _NAME).clear()


def take() -> dict[str, list[int]]:
    """The lines noted since the start, by file."""
    out: dict[str, list[int]] = {}
    for number in sorted(getattr(builtins, _NAME)):
        out.setdefault(_FILES[number // _STEP], []).append(number % _STEP)
    return out


class _Noting(ast.NodeTransformer):
    """Puts a note in front of each statement inside functions."""

    def __init__(self, first: int) -> None:
        self._first, self._inside = first, False

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        was, self._inside = self._inside, True
        node = self.generic_visit(node)  # type: ignore[assignment]
        self._inside = was
        return node

    def generic_visit(self, node: ast.AST) -> ast.AST:
        super().generic_visit(node)
        for name in ("body", "orelse", "finalbody") if self._inside else ():
            held = getattr(node, name, None)
            if isinstance(held, list):
                setattr(node, name, [new for one in held for new in self._noted(one)])
        return node

    def _noted(self, node: ast.stmt) -> list[ast.stmt]:
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            return [node]  # a docstring stays the first
        call = ast.parse(f"{_NAME}.add({self._first + node.lineno})").body[0]
        for one in ast.walk(call):
            ast.copy_location(one, node)
        return [call, node]


def forget() -> None:
    """Every answer that a function of the tool remembers of a formula, gone.

    Otherwise the first test to ask would be the only one to run the lines, and a mutant would answer as before it was.
    """
    for name, module in list(sys.modules.items()):
        if name.startswith(JUDGING):
            for one in list(vars(module).values()):
                # What is only imported there is the figures and words, which no formula changes.
                if hasattr(one, "cache_clear") and str(getattr(one, "__module__", name)).startswith(JUDGING):
                    one.cache_clear()
    for name in ("brimline.moves.pair", "brimline.rules.asides"):
        if name in sys.modules:
            sys.modules[name]._last.clear()
