"""Whatever happens to a good file, reading it gives a value or bad input in plain words."""

import re
import shutil
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

import solver
from solver.documents import json_text, plan_document, set_document
from solver.outcome import Planned, PlannedSet
from solver.reading import read_jam, read_plan, read_saved, read_saved_set, read_set
from tests.fuzz.said import said_well
from tests.reading.plans import PLAN
from tests.reading.table import FILES, lay
from tests.showing import SCENARIOS

VALUES = [
    "3", "0", "-1", "17", "1.5", "true", '""', '"x"', '"all"', '"off"', "[]", "[1]", '["x", "x"]', "[[1]]", "{}",
    "{ a = 1 }", '{ kick = "x" }', "2024-05-01", "07:00:00", "nan", "-inf", "9" * 30, '"box"', '["kick"]', '"kick"',
    '"tiller/MAIN"', "[{}]", '"1-16"', r'"\u001b[1m"', r'"a\nb"', "'''\n'''", r'"\u0000"', r'"\u2028"',
]  # fmt: skip
JSON_VALUES = [
    "3", "-1", "17", "1.5", "1e999", "true", "null", '""', '"x"', "[]", "[1]", '["x"]', "{}", '{"a": 1}', "9" * 30,
    r'"\ud800"', r'{"\ud800": 1}', '"barge/1"', '"all"',
]  # fmt: skip

JSON_VALUE = r'(?:: |\[|, )("[^"]*"|\d+|null|\[\]|\{\})(?=[,}\]\n])'
BELLS = ("first", "second", "third")

Damage = Callable[[bytes], bytes]


@st.composite
def damages(draw: st.DrawFn, values: list[str], value: str) -> Damage:
    """Flip bytes, cut a piece out, cut the end off, or put another value in the place of one."""
    kind = draw(st.sampled_from(["flip", "cut", "end", "value"]))
    places = draw(st.lists(st.integers(0, 2000), min_size=1, max_size=4))
    byte = draw(st.integers(0, 255))
    others = draw(st.lists(st.sampled_from(values), min_size=4, max_size=4))

    def damage(raw: bytes) -> bytes:
        if kind == "end":
            return raw[: places[0] % len(raw)]
        if kind == "cut":
            return raw[: places[0] % len(raw)] + raw[places[-1] % len(raw) :]
        if kind == "flip":
            flipped = bytearray(raw)
            for place in places:
                flipped[place % len(raw)] ^= byte or 1
            return bytes(flipped)
        text = raw.decode()
        for place, other in zip(places, others, strict=False):
            spans = [match.span(1) for match in re.finditer(value, text)]
            start, end = spans[place % len(spans)]
            text = text[:start] + other + text[end:]
        return text.encode()

    return damage


def read_all(folder: Path) -> None:
    said_well(lambda: read_plan(folder / "plan.json", read_jam(folder / "low-tide.toml")))


@settings(max_examples=200)
@given(damages(VALUES, r"(?m)= (.+)$"), st.sampled_from(sorted(FILES)))
def test_damaged_toml(damage: Damage, name: str) -> None:
    with tempfile.TemporaryDirectory() as temporary:
        folder = lay(Path(temporary)).parent
        (folder / "plan.json").write_text(PLAN, encoding="utf-8")
        (folder / name).write_bytes(damage((folder / name).read_bytes()))
        read_all(folder)


@settings(max_examples=200)
@given(damages(JSON_VALUES, JSON_VALUE))
def test_damaged_plans(damage: Damage) -> None:
    with tempfile.TemporaryDirectory() as temporary:
        folder = lay(Path(temporary)).parent
        (folder / "plan.json").write_bytes(damage(PLAN.encode()))
        read_all(folder)


@settings(max_examples=100)
@given(damages(VALUES, r"(?m)= (.+)$"), st.sampled_from(["first-watch.toml", *(f"bells/{n}.toml" for n in BELLS)]))
def test_damaged_sets(damage: Damage, name: str) -> None:
    with tempfile.TemporaryDirectory() as temporary:
        sets = Path(shutil.copytree(SCENARIOS, Path(temporary) / "scenarios")) / "sets"
        (sets / name).write_bytes(damage((sets / name).read_bytes()))
        said_well(lambda: read_set(sets / "first-watch.toml"))


@cache
def saved() -> dict[str, bytes]:
    """The saved plans of a jam and of a set, which carry their jams and boxes."""
    jam, of = read_jam(SCENARIOS / "low-tide.toml"), read_set(SCENARIOS / "sets" / "first-watch.toml")
    one, several = solver.plan(jam, time_limit=None), solver.plan(of, time_limit=None)
    assert isinstance(one, Planned) and isinstance(several, PlannedSet)
    documents = {"jam": plan_document(jam, one.best), "set": set_document(of, several.best)}
    return {name: json_text(document).encode() for name, document in documents.items()}


@settings(max_examples=150)
@given(damages(JSON_VALUES, JSON_VALUE), st.sampled_from(["jam", "set"]))
def test_damaged_plans_that_carry_their_jams(damage: Damage, kind: str) -> None:
    with tempfile.TemporaryDirectory() as temporary:
        file = Path(temporary) / "plan.json"
        file.write_bytes(damage(saved()[kind]))
        said_well(lambda: read_saved(file) if kind == "jam" else read_saved_set(file))
