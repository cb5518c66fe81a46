"""The lines of keys in TOML and JSON texts, and of statements in jam files."""

from pathlib import Path

import pytest

from solver.reading import line_finder, line_of, lines
from solver.reading.json_lines import json_doubles, json_lines
from solver.reading.lines import DEEPEST
from tests.reading.table import lay

TEXT = """\
title = "x"
a.b = 1
"6.35 mono" = 2
# a remark
[part.bass]
on = "x"
[[intent]]
layer = [
  "a",
  # a remark in a list
  "b", { c = 1 },
]
shift = { bass = -12, a."b c" = [1,
2] }
[[intent]]
avoid.channels = [ [1] ]
[[intent.more]]
[[intent.more]]
'k' = '''
two lines'''
last = 1
"""

PLACES = {
    (): 1,
    ("title",): 1,
    ("a",): 2,
    ("a", "b"): 2,
    ("6.35 mono",): 3,
    ("part",): 5,
    ("part", "bass"): 5,
    ("part", "bass", "on"): 6,
    ("intent",): 7,
    ("intent", 0): 7,
    ("intent", 0, "layer"): 8,
    ("intent", 0, "layer", 0): 9,
    ("intent", 0, "layer", 1): 11,
    ("intent", 0, "layer", 2, "c"): 11,
    ("intent", 0, "shift", "bass"): 13,
    ("intent", 0, "shift", "a", "b c"): 13,
    ("intent", 0, "shift", "a", "b c", 1): 14,
    ("intent", 1): 15,
    ("intent", 1, "avoid", "channels", 0, 0): 16,
    ("intent", 1, "more", 1): 18,
    ("intent", 1, "more", 1, "k"): 19,
    ("intent", 1, "more", 1, "last"): 21,
}


@pytest.mark.parametrize("path", PLACES)
def test_lines_of_toml(path: tuple[str | int, ...]) -> None:
    assert lines(TEXT)[path] == PLACES[path]


def test_a_path_without_a_line_has_that_above_it() -> None:
    known = lines(TEXT)
    assert line_of(known, ("part", "bass", "sound")) == 5
    assert line_of(known, ("nothing", 3)) == 1


def test_deep_texts_have_lines_down_to_a_depth() -> None:
    known = lines("a = " + "[" * 200 + "]" * 200)
    assert max(map(len, known)) == DEEPEST


def test_lines_of_json() -> None:
    text = '{"a": 1,\n "b": [2,\n {"c": "\\" : ,"}],\n "a": {}}'
    assert json_lines(text) == {(): 1, ("a",): 1, ("b",): 2, ("b", 0): 2, ("b", 1): 3, ("b", 1, "c"): 3}
    assert list(json_doubles(text)) == [("a", ("a",), 4)]


def test_doubles_of_json_at_any_depth_and_each_once() -> None:
    for depth in (DEEPEST - 1, DEEPEST, 200):
        text = '{"a":' * depth + '{"b": 1, "c": 2, "b": 3,\n "b": 4, "b": 5}' + "}" * depth
        path = ("a",) * depth + ("b",) if depth < DEEPEST else ()
        assert list(json_doubles(text)) == [("b", path, 1), ("b", path, 2)]
    assert list(json_doubles('[{"a": 1}, {"a": 2, "a": 3}]')) == [("a", (1, "a"), 1)]


def test_lines_of_statements(tmp_path: Path) -> None:
    line = line_finder(lay(tmp_path))
    wanted: dict[tuple[str | int, ...], int] = {
        ("mains",): 5,
        ("cables",): 11,
        ("cables", "6.35 mono"): 12,
        ("cables", "din"): 13,
        ("part", "bass"): 18,
        ("part", "bass", "on"): 19,
        ("intent", 0): 25,
        ("intent", 4): 42,
        ("recall", "tiller"): 58,
    }
    assert {path: line(path) for path in wanted} == wanted


def test_the_line_of_what_the_file_does_not_say(tmp_path: Path) -> None:
    line = line_finder(lay(tmp_path))
    assert line(("cables", "usb")) == 11
    assert line(("nothing", "like", "this")) is None
