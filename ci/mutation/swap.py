"""Changed code put into functions that are already there, so that nothing need be imported anew for a mutant."""

import gc
from collections.abc import Iterator
from types import CodeType, FunctionType

Where = tuple[str, int]


def swapped(file: str, before: str, code: str) -> bool:
    """Put the changed functions of a file in place; False, and nothing done, where more than functions changed."""
    old, new = compile(before, file, "exec"), compile(code, file, "exec")
    if not _same_frame(old, new):
        return False
    now = dict(_nested(new))
    live = [one for one in gc.get_objects() if isinstance(one, FunctionType) and one.__code__.co_filename == file]
    found = [(one, now.get(_where(one.__code__))) for one in live]
    if not live or any(to is None or len(to.co_freevars) != len(one.__code__.co_freevars) for one, to in found):
        return False
    for one, to in found:
        one.__code__ = to  # type: ignore[assignment]
    return True


def _where(code: CodeType) -> Where:
    return code.co_qualname, code.co_firstlineno


def _nested(code: CodeType) -> Iterator[tuple[Where, CodeType]]:
    for one in code.co_consts:
        if isinstance(one, CodeType):
            yield _where(one), one
            yield from _nested(one)


def _same_frame(old: CodeType, new: CodeType) -> bool:
    """Whether what runs on import is the same: the module's own code and that of its classes."""
    pairs = list(zip(old.co_consts, new.co_consts, strict=False))
    plain = [(was, now) for was, now in pairs if not (isinstance(was, CodeType) and isinstance(now, CodeType))]
    inner = [(was, now) for was, now in pairs if isinstance(was, CodeType) and isinstance(now, CodeType)]
    if old.co_code != new.co_code or old.co_names != new.co_names or len(old.co_consts) != len(new.co_consts):
        return False
    if any(was != now or type(was) is not type(now) for was, now in plain):
        return False
    # A class body has no name of its own to be called by and is run on import; 2 marks code with fast locals.
    return all(_where(was) == _where(now) and (was.co_flags & 2 or _same_frame(was, now)) for was, now in inner)
