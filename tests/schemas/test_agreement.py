"""Good files with keys left out, added or of another type: the schema refuses nothing that the reader takes."""

import copy
import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import event, given, settings
from hypothesis import strategies as st

from solver.schemas import Kind
from tests.schemas.checked import BOXES, JAMS, only_names_or_rules, reads, takes

READ = {
    "box": [tomllib.loads(file.read_text("utf-8")) for file in BOXES],
    "jam": [tomllib.loads(file.read_text("utf-8")) for file in JAMS if file.parent.name == "scenarios"],
}
VALUES: list[Any] = [
    0, 1, 3, 16, 17, 100, 101, 127, 128, 129, 200, 201, 999, 1000, 1001, 4096, 4097, -1, -127, -128, 1.5, 1000.5, True,
    False, "", "x", "x/y", "x" * 200, "x" * 401, "x" * 2000, "MAIN", "tiller", "tiller/MAIN", "in",
    "thru", "both", "usb-host", "3.5", "sum", "copy", "all", "off", "1-16", "1-8, 10", " 2 , 4-5 ", "1-17", "0", "8-",
    "1 - 3", "03", "box", "project", "kick", "x" * 201, "x" * 402, "x" * 2001, [], [1], [1, 1], [17], ["x", "x"],
    ["MAIN"], ["ducking", "reverb"], ["level"], ["kick"], ["kick", 2], [[]], [{}], {}, {"x": 1}, {"kick": 12},
    {"pan": "box"}, {"reverb": 101}, {"ducking": 20}, {"din": 2}, {"x/y": "boxes/barge.toml"},
    {"channels": [3], "jacks": []}, {"cable": ["tiller/MAIN", "x"]}, {"part": "kick", "pan": "left"}, {"part": "kick"},
]  # fmt: skip
KEYS = [
    "name", "about", "voices", "out", "left", "right", "stereo", "mono", "plug", "alone", "mirrors", "from", "to",
    "pan", "offers", "key", "track", "stored", "sound", "channels", "channel", "can_be_off", "shift",
    "program_change", "way", "plays", "repeats", "copies", "clock", "title", "tempo", "mains", "cables", "part",
    "intent", "recall", "on", "notes", "sounds", "weight", "layer", "separate", "treat", "with", "at", "play",
    "match", "program", "avoid", "keep", "jacks", "cable", "engine", "strip", "source", "amounts", "x",
]  # fmt: skip

Change = tuple[str, int, str, Any]


def tables(data: Any) -> Iterator[dict[str, Any]]:
    """Every table in the data of a file."""
    if isinstance(data, dict):
        yield data
    for item in data.values() if isinstance(data, dict) else data if isinstance(data, list) else ():
        yield from tables(item)


def change(data: dict[str, Any], changes: list[Change]) -> dict[str, Any]:
    """The data with a key left out, put in, renamed, or with another value, once for each change."""
    data = copy.deepcopy(data)
    for what, place, new, value in changes:
        every = list(tables(data))
        table = every[place % len(every)]
        keys = list(table)
        old = keys[place % len(keys)] if keys else new
        if what == "add":
            table[new] = copy.deepcopy(value)
        elif what == "retype":
            table[old] = copy.deepcopy(value)
        elif what == "rename" and keys:
            table[new] = table.pop(old)
        elif keys:
            del table[old]
    return data


CHANGES = st.lists(
    st.tuples(
        st.sampled_from(["add", "retype", "rename", "drop"]),
        st.integers(0, 10_000),
        st.sampled_from(KEYS),
        st.sampled_from(VALUES),
    ),
    min_size=1,
    max_size=2,
)


def agree(kind: Kind, data: dict[str, Any]) -> str:
    """How schema and reader agree; the test ends where they must not differ."""
    takes_it, reads_it = takes(kind, data), reads(kind, data)
    if takes_it and not reads_it:
        assert only_names_or_rules(kind, data), "the reader refuses the shape, the schema takes it"
        return "names or rules"
    assert takes_it or not reads_it, "the schema refuses what the reader takes"
    return "good" if takes_it else "refused"


@settings(max_examples=400, deadline=None, derandomize=True)
@given(st.integers(0, len(READ["box"]) - 1), CHANGES)
def test_changed_boxes(which: int, changes: list[Change]) -> None:
    event(agree("box", change(READ["box"][which], changes)))


@settings(max_examples=400, deadline=None, derandomize=True)
@given(st.integers(0, len(READ["jam"]) - 1), CHANGES)
def test_changed_jams(which: int, changes: list[Change]) -> None:
    event(agree("jam", change(READ["jam"][which], changes)))


@pytest.mark.parametrize("kind", ["box", "jam"])
def test_every_key_takes_and_refuses_the_same_values(kind: Kind) -> None:
    """Each value in the place of each key of one file, and as each key that it has not."""
    data = READ[kind][0]
    found: set[str] = set()
    for place, table in enumerate(tables(data)):
        for key in table:
            for value in VALUES:
                changed = copy.deepcopy(data)
                list(tables(changed))[place][key] = value
                found.add(agree(kind, changed))
    assert found == {"good", "refused", "names or rules"}


@pytest.mark.parametrize(
    ("kind", "section", "values"),
    [
        ("box", "engine", {"to": "MAIN", "channels": [], "stored": "box", "channel": "off"}),
        ("box", "engine", {"channels": "all", "channel": "all", "sound": ""}),
        ("box", "midi", {"way": "in", "repeats": []}),
        ("box", "midi", {"way": "both", "plug": "usb-host", "repeats": []}),
    ],
)
def test_what_files_seldom_say_is_taken(kind: Kind, section: str, values: dict[str, Any]) -> None:
    data = copy.deepcopy(READ[kind][0])
    data.setdefault(section, []).append({"name": "NEW", **values})
    assert agree(kind, data) == "good"
