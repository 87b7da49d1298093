"""Compiles `schema/formula.schema.json` into a plain Python function that needs no library to run."""

import json
import re
from pathlib import Path

_DECIMAL = "from decimal import Decimal"  # for multipleOf, which the schema does not use

_WORDS = re.compile(r"raise JsonSchemaValueException\(.*\)$")
_WAY = re.compile(
    r', custom_formats, \(name_prefix or "data"\) \+ ".*"\.format\(\*\*locals\(\)\)\)$|, custom_formats, \(name_prefix or "data"\) \+ "[^"]*"\)$'
)

MADE = "linter/brimline/made/shape_check.py"

_HEAD = '''"""Whether a document has the shape that schema/formula.schema.json defines; written by ci/make.py, not by hand."""

# ruff: noqa
# mypy: ignore-errors
# fmt: off

import re


class JsonSchemaValueException(ValueError):
    """Raised for the first thing in a document that the schema does not allow; the schema's own validator says what."""


# Never raised: the check stops at the first fault. The code below names it.
JsonSchemaValuesException = JsonSchemaValueException


'''


def make(root: Path) -> dict[str, bytes]:
    """The compiled check: `validate(document)` returns the document or raises ValueError at the first fault.

    The code is the fastjsonschema library's; its one import of that library is replaced by a class of the same name,
    so that the check runs without it; the version of the library is left out, so that a new one which writes the same
    code changes nothing. Raises ValueError if the library's code has any other import.
    """
    import fastjsonschema

    schema = json.loads((root / "schema" / "formula.schema.json").read_text(encoding="utf-8"))
    code = fastjsonschema.compile_to_code(schema, use_default=False, use_formats=False, detailed_exceptions=False)
    lines = code.splitlines()
    kept = [line for line in lines if not line.startswith(("VERSION", "import re", "from fastjsonschema", _DECIMAL))]
    if any(line.lstrip().startswith(("import ", "from ")) or "Decimal" in line for line in kept):
        raise ValueError("the compiled check imports something; ci/making/shape.py must account for it")
    # The library puts every fault, and the way to every line, into words that nobody reads: most of the check's time.
    kept = [_WORDS.sub("raise JsonSchemaValueException", _WAY.sub(")", line)) for line in kept]
    body = "\n".join(kept).strip("\n")
    return {MADE: (_HEAD + body + "\n").encode("utf-8")}
