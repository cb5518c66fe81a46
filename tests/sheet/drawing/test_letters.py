"""Texts are never wider than they are taken to be, and are made to fit."""

import pytest

from solver.gear.words import Spot
from solver.sheet.drawing.labels import MOST_LINES, ROOM, written
from solver.sheet.drawing.letters import BOLD, apart, lines_of, shortened, shown, width_of
from solver.sheet.drawing.told import Net, Plug

DEJAVU = {"i": 0.278, "l": 0.278, " ": 0.318, "t": 0.392, "r": 0.411, "a": 0.613, "0": 0.636, "O": 0.787, "W": 0.989}
DEJAVU |= {"m": 0.974, "@": 1.0, "%": 0.95, "\u2026": 1.0, "\u042e": 1.08, "\u0635": 1.209, "\u05e9": 0.709}
DEJAVU_BOLD = {"i": 0.343, "l": 0.343, "a": 0.675, "0": 0.696, "O": 0.85, "W": 1.103, "m": 1.042, "R": 0.77}
"""Advance widths in parts of the size, read from the hmtx tables of DejaVu Sans 2.37 and its bold (font files read)."""


@pytest.mark.parametrize(("letter", "width"), DEJAVU.items())
def test_no_letter_is_wider_than_it_is_taken_to_be(letter: str, width: float) -> None:
    assert width <= width_of(letter, 1.0) <= width + 0.65


@pytest.mark.parametrize(("letter", "width"), DEJAVU_BOLD.items())
def test_no_bold_letter_is_either(letter: str, width: float) -> None:
    assert width <= width_of(letter, 1.0, bold=True) == pytest.approx(width_of(letter, 1.0) * BOLD)


def test_widths_grow_with_the_size_and_accents_take_none() -> None:
    assert width_of("pad", 30) == 2 * width_of("pad", 15)
    assert width_of("e\u0301", 1) == width_of("e", 1)
    assert width_of("\u30b7", 1) == 1.4
    assert width_of("\u2665\ufe0f", 1) == 1.4


def test_a_short_text_stays_and_a_long_one_keeps_both_ends() -> None:
    assert shortened("pad", width_of("pad", 15), 15) == "pad"
    left, right = (shortened(f"HEADPHONE OUTPUT {side}", 150, 15) for side in ("LEFT", "RIGHT"))
    assert left.startswith("HEAD") and left.endswith("LEFT") and right.endswith("RIGHT")
    assert "\u2026" in left and width_of(left, 15) <= 150


def test_a_letter_and_its_accent_are_not_parted() -> None:
    cut = shortened("e\u0301" * 30, 100, 15)
    assert set(cut.split("\u2026")[0][::2]) == {"e"} and cut.split("\u2026")[1][0] == "e"


def test_even_without_room_something_is_left() -> None:
    assert shortened("pad", 0, 15) == "\u2026"


def test_what_steers_a_reader_is_shown_instead() -> None:
    assert shown("a\u202eb\x00\x1b\uffff\nc") == "a\ufffdb\ufffd\ufffd\ufffd c"


def test_only_names_from_right_to_left_are_kept_apart() -> None:
    assert apart("pad (1)") == "pad (1)"
    assert apart("\u05e9 (1)") == "\u2068\u05e9 (1)\u2069"


def test_names_share_lines_and_what_is_left_out_is_counted() -> None:
    assert lines_of(["bass", "pad"], 150, 15, 3) == ["bass, pad"]
    names = [f"part, {n}" for n in range(20)]
    told = lines_of(names, 150, 15, 3)
    assert len(told) == 3 and all(width_of(line, 15) <= 150 for line in told)
    assert told[-1] == f"and {20 - sum(line.count('part') for line in told[:-1])} more"


def net(*channels: tuple[int, tuple[str, ...]], clock: bool = False, parts: tuple[str, ...] = ()) -> tuple[str, ...]:
    plug = Plug(0, Spot("a", "OUT"), True, "", named=True)
    every = (*parts, *(part for _, played in channels for part in played))
    return written([Net(1, "din", True, (plug,), every, channels, clock)])[plug].lines


def test_each_channel_has_a_line_until_there_are_too_many() -> None:
    assert net((1, ("bass", "pad")), (2, ("arp",)), clock=True) == ("ch 1: bass, pad", "ch 2: arp", "clock")
    many = net(*((n, (f"p{n}",)) for n in range(1, 9)), clock=True)
    assert many == ("ch 1 to 8:", "p1, p2, p3, p4, p5,", "p6, p7, p8", "clock")
    assert net(*((n, ("p",)) for n in range(1, 17, 2)))[0] == "8 channels:"
    assert net(clock=True) == ("clock",) and net() == ()


@pytest.mark.parametrize("count", range(1, 17))
def test_what_a_cable_carries_fits(count: int) -> None:
    lines = net(*((n, (f"a long name of {n}", "another")) for n in range(1, count + 1)), clock=True)
    assert len(lines) <= MOST_LINES and all(width_of(line, 15) <= ROOM for line in lines)
