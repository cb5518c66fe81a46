"""Files of many things that speak of many others are read or refused within time and memory."""

import json
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest

from solver.jam.jam_faults import MOST_ON_TABLE
from solver.jam.sets import MOST_JAMS
from tests.fuzz.bounds import BY_HAND, Made, Read, read_within_bounds

pytest.importorskip("resource")

IN_QUOTES = '"box"'
OUT = 'name = "x"\n[[out]]\nname = "O"\nmono = "O"\n'
MANY = 1000


def each(line: Callable[[int], str], many: int = MANY) -> str:
    return "".join(map(line, range(many)))


def names(stem: str, many: int = 9000) -> str:
    return "[" + ", ".join(f'"{stem}{n}"' for n in range(many)) + "]"


def table(stem: str, value: object, many: int = 9000) -> str:
    return "{" + ", ".join(f'"{stem}{n}" = {value}' for n in range(many)) + "}"


def jam(boxes: str = 'a = "big.toml"') -> str:
    return f'title = "x"\nleader = "a"\nlisten = "a/O"\n[boxes]\n{boxes}\n'


def parts(stem: str = "p", on: Callable[[int], str] = lambda n: "") -> str:
    return each(lambda n: f"[part.{stem}{n}]\n{on(n)}")


def wishes(said: Callable[[int], str], many: int = MANY) -> str:
    return each(lambda n: f"[[intent]]\n{said(n)}\n", many)


def engines(said: str) -> str:
    return OUT + each(lambda n: f'[[engine]]\nname = "e{n}"\n{said}\n', 11)


BIG = OUT + each(
    lambda n: (
        f'[[engine]]\nname = "e{n}"\n[[in]]\nname = "i{n}"\nmono = "j{n}"\n'
        f'[[strip]]\nname = "s{n}"\nfrom = "i{n}"\n[[track]]\nname = "t{n}"\n'
    )
)


def box(things: int, **more: Any) -> dict[str, Any]:
    """A box with so many things of each kind, as a plan carries it."""
    numbers = range(things)
    return {
        "name": "x",
        "out": [{"name": "O", "mono": "O"}],
        "in": [{"name": f"i{n}", "mono": f"j{n}"} for n in numbers],
        "strip": [{"name": f"s{n}", "from": f"i{n}"} for n in numbers],
        "engine": [{"name": f"e{n}"} for n in numbers],
        "track": [{"name": f"t{n}"} for n in numbers],
        **more,
    }


def of_boxes(boxes: Iterable[dict[str, Any]]) -> dict[str, Any]:
    return {f"b{n}": one for n, one in enumerate(boxes)}


def saved(boxes: Iterable[dict[str, Any]]) -> str:
    """The plan of a jam, which carries the jam."""
    jam = {"title": "x", "leader": "b0", "listen": "b0/O", "boxes": of_boxes(boxes)}
    return json.dumps({"title": "x", "cables": [], "parts": {}, "jam": jam})


def saved_set(boxes: list[dict[str, Any]], jams: int, **more: Any) -> str:
    """The plan of a set of like jams, which carries the set."""
    carried = of_boxes(boxes)
    of = {
        f"j{n}": {"title": f"t{n}", "leader": "b0", "listen": "b0/O", "boxes": list(carried), **more}
        for n in range(jams)
    }
    return json.dumps({"title": "x", "cables": [], "jams": {}, "set": {"title": "x", "boxes": carried, "jams": of}})


READ_AS: dict[str, tuple[Read, ...]] = {
    "boxes": ("box",),
    "jams": ("jam",),
    "saved": ("saved",),
    "saved sets": ("saved_set",),
}
FILES: dict[str, dict[str, Made]] = {
    "boxes": {
        "big.toml": lambda: BIG,
        "offers.toml": lambda: engines(f"offers = {names('x')}"),
        "to.toml": lambda: engines(f"to = {names('x')}"),
        "keys.toml": lambda: engines(f"offers = ['ducking']\nkey = {names('x')}"),
        "stored.toml": lambda: engines(f"offers = {names('x', 3000)}\nstored = {table('y', IN_QUOTES, 3000)}"),
        "repeats.toml": lambda: OUT + each(lambda n: f'[[midi]]\nname="{n}"\nway="out"\nrepeats={names("x")}\n', 11),
    },
    "jams": {
        "big.toml": lambda: BIG,
        "one-often.toml": lambda: jam('a = "big.toml"\n' + each(lambda n: f'b{n} = "big.toml"\n', MANY - 1)),
        "nowhere.toml": lambda: jam() + parts(on=lambda n: f'on = "a/ee{n}"\n'),
        "strangers.toml": lambda: jam() + parts("p" * 40) + wishes(lambda n: f'stereo = ["{"p" * 20}x{"p" * 20}{n}"]'),
        "long-names.toml": lambda: jam() + parts("p" * 190) + wishes(lambda n: f'stereo = ["{"q" * 9}{"p" * 180}{n}"]'),
        "layers.toml": lambda: jam() + parts() + wishes(lambda n: f'layer = ["p{n}", "p{n + 1}"]', MANY - 1),
        "shifts.toml": lambda: jam() + wishes(lambda n: f"layer = {names('p' * 40)}\nshift = {table('q' * 30, 1)}", 1),
        "half-shifts.toml": lambda: jam() + wishes(lambda n: f"layer = {names('p')}\nshift = {table('p1', 1)}", 1),
        "amounts.toml": lambda: jam() + parts() + wishes(lambda n: f"treat={names('p', 999)}\nwith={table('x', 5)}", 1),
        "more-amounts.toml": lambda: jam() + wishes(lambda n: f'treat = ["p{n}"]\nwith = {table("x", 5)}', 8),
        "kept.toml": lambda: jam() + "[part.p]\n" + wishes(lambda n: f'keep = {{ part = "p", engine = "a/e{n}" }}'),
        "unplugged.toml": lambda: jam() + wishes(lambda n: f'keep = {{ cable = ["a/ee{n}", "a/ff{n}"] }}'),
        "avoided.toml": lambda: jam() + wishes(lambda n: f'avoid = {{ jacks = ["a/ee{n}", "a/ff{n}"] }}'),
        "jams.toml": lambda: 'title = "x"\njams = ' + names("gone", MOST_JAMS) + "\n",
    },
    "saved": {
        "crowded.json": lambda: saved([box(400)] * 24),
        "wrong.json": lambda: saved([box(10, voices="x", bad=1)] * 400),
        "empty-boxes.json": lambda: saved([{}] * 9999),
    },
    "saved sets": {
        "full-table.json": lambda: saved_set([box(MOST_ON_TABLE // 41)] * 10, MOST_JAMS),
        "jams.json": lambda: saved_set([box(5)] * 3, 9000),
        "wrong-jams.json": lambda: saved_set([box(5)], 9000, tempo="x"),
        "wrong-wishes.json": lambda: saved_set([box(5)], 99, intent=[{"stereo": [f"p{n}"]} for n in range(400)]),
        "odd-boxes.json": lambda: saved_set([box(5)], 1).replace('["b0"]', '[["b0"], {}]'),
    },
}  # fmt: skip


@pytest.mark.parametrize("group", FILES)
def test_crowds_take_no_more_than_they_may(group: str, tmp_path: Path) -> None:
    files = FILES[group]
    assert all(len(made()) < 2 * BY_HAND for made in files.values())
    read_within_bounds(files, [(how, name) for how in READ_AS[group] for name in files], tmp_path)
