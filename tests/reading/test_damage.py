"""Whatever happens to a good file, reading it gives a value or bad input in plain words."""

import re
import tempfile
from collections.abc import Callable
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.reading import BadInput, read_jam, read_plan
from tests.reading.plans import PLAN
from tests.reading.table import FILES, lay

FOREIGN = re.compile(r"Input should|validation|Extra inputs|Field required|pydantic|stand-in|constrained|tomllib")
VALUES = [
    "3", "0", "-1", "17", "1.5", "true", '""', '"x"', '"all"', '"off"', "[]", "[1]", '["x", "x"]', "[[1]]", "{}",
    "{ a = 1 }", '{ kick = "x" }', "2024-05-01", "07:00:00", "nan", "-inf", "9" * 30, '"box"', '["kick"]', '"kick"',
    '"tiller/MAIN"', "[{}]", '"1-16"', r'"\u001b[1m"', r'"a\nb"', "'''\n'''", r'"\u0000"', r'"\u2028"',
]  # fmt: skip
JSON_VALUES = [
    "3", "-1", "17", "1.5", "1e999", "true", "null", '""', '"x"', "[]", "[1]", '["x"]', "{}", '{"a": 1}', "9" * 30,
    r'"\ud800"', r'{"\ud800": 1}', '"barge/1"', '"all"',
]  # fmt: skip

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
    try:
        read_plan(folder / "plan.json", read_jam(folder / "low-tide.toml"))
    except BadInput as error:
        problems = error.problems
    else:
        return
    lines = "\n".join(map(str, problems)).split("\n")
    assert len(lines) == len(problems) > 0
    assert [line for line in lines if FOREIGN.search(line) or not line.isprintable()] == []
    assert len(set(lines)) == len(lines)
    assert all(problem.line is None or problem.line > 0 for problem in problems)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(damages(VALUES, r"(?m)= (.+)$"), st.sampled_from(sorted(FILES)))
def test_damaged_toml(damage: Damage, name: str) -> None:
    with tempfile.TemporaryDirectory() as temporary:
        folder = lay(Path(temporary)).parent
        (folder / "plan.json").write_text(PLAN, encoding="utf-8")
        (folder / name).write_bytes(damage((folder / name).read_bytes()))
        read_all(folder)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(damages(JSON_VALUES, r'(?:: |\[|, )("[^"]*"|\d+|null|\[\]|\{\})(?=[,}\]\n])'))
def test_damaged_plans(damage: Damage) -> None:
    with tempfile.TemporaryDirectory() as temporary:
        folder = lay(Path(temporary)).parent
        (folder / "plan.json").write_bytes(damage(PLAN.encode()))
        read_all(folder)
