"""T10: no anchor, alias, merge key or tag is ever followed in what a collection keeps, and depth and number are bounded."""

import time
from collections.abc import Callable

import pytest

from brimline.shelf.register import read_register
from brimline.shelf.settings import read_settings
from brimline.shelf.strict import Refused
from brimline.shelf.variances import read_variances

READERS: dict[str, Callable[[bytes], object]] = {
    "settings": read_settings,
    "variances": lambda data: read_variances(data, "variances.yaml"),
}

# 289 bytes that stand for more than five million values.
BOMB = "a: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(
    f"{name}: &{name} [{','.join([f'*{before}'] * 9)}]\n" for before, name in zip("abcdef", "bcdefg", strict=True)
)

TEXTS = {
    "bomb": BOMB,
    "anchor": "name: &x Valley\n",
    "alias": "name: *x\n",
    "merge key": "<<: *x\nname: Valley\n",
    "python tag": "name: !!python/object/apply:os.system [id]\n",
    "own tag": "name: !include /etc/passwd\n",
    "plain tag": "name: !!str Valley\n",
    "tag by its full name": "name: !<tag:yaml.org,2002:str> Valley\n",
    "deep lists": "name: " + "[" * 100_000,
    "deep keys": "name: " + "{a: " * 100_000,
    "deep dashes": "- " * 100_000,
    "many values": "name: [" + "x," * 300_000 + "x]",
    "many comments": "name: 'a'\n" + "#\n" * 300_000,
    "two documents": "name: a\n---\nname: b\n",
    "the same key twice": "name: a\nname: b\n",
    "the same key twice, otherwise written": 'name: a\n"name": b\n',
    "null character": "name: a\x00b\n",
    "number bomb": "oldest-source-year: 1" + "0" * 10_000 + "\n",
    "exponent bomb": "oldest-source-year: 1e1000000000\n",
    "sexagesimal": "oldest-source-year: 33:08\n",
}


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS.keys())
def test_it_is_refused_at_once(reader: str, text: str) -> None:
    started = time.process_time()
    with pytest.raises(Refused):
        READERS[reader](text.encode())
    assert time.process_time() - started < 20


@pytest.mark.parametrize(
    "text", ["[" * 100_000, '{"a":' * 100_000, '{"version": 1e999999999}', '{"version": 1' + "0" * 9999 + "}"]
)
def test_the_register_is_bounded_too(text: str) -> None:
    with pytest.raises(Refused):
        read_register(text.encode())
