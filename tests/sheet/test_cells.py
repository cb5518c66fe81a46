"""Measuring and breaking text."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.sheet.cells import BASE, NO_BREAK, clean, clusters, width_of, wrap

FAMILY = "\U0001f469\u200d\U0001f467"


@pytest.mark.parametrize(
    ("text", "width"),
    [("", 0), ("bass", 4), ("低音", 4), ("e\u0301", 1), ("\u2764\ufe0f", 2), ("한글", 4), ("ﾊﾞ", 2), ("\uff21", 2)],
)
def test_a_text_takes_its_cells(text: str, width: int) -> None:
    assert width_of(text) == width


def test_a_picture_stays_whole() -> None:
    assert clusters(f"a{FAMILY}b") == ["a", FAMILY, "b"]
    assert all(FAMILY in line or line == "ab" for line in wrap(f"ab {FAMILY}", 4))


@pytest.mark.parametrize("text", ["a\x1b[31mb", "a\u202eb", "a\x07b", "a\ud800b", "a\ue000b"])
def test_nothing_steers_the_terminal(text: str) -> None:
    shown = clean(text)
    assert shown.startswith("a\ufffd") and shown.endswith("b")
    assert len(shown) == len(text)


def test_every_kind_of_space_is_a_space() -> None:
    assert clean("a\nb\tc\u2028d\u3000e\x85f\xa0g") == "a b c d e f g"


def test_lines_break_at_spaces_and_within_words_only_where_they_must() -> None:
    assert wrap("one two three", 8) == ["one two", "three"]
    assert wrap("one abcdefghij", 4) == ["one", "abcd", "efgh", "ij"]
    assert wrap("低音低音", 5) == ["低音", "低音"]


def test_leads_count() -> None:
    assert wrap("one two three", 9, "- ", "  ") == ["- one two", "  three"]
    assert wrap("abcdefgh", 6, "- ", "  ") == ["- abcd", "  efgh"]


def test_a_bound_space_is_never_broken() -> None:
    assert wrap(f"reverb 20{NO_BREAK}% more", 11) == ["reverb 20 %", "more"]
    assert wrap(f"reverb 20{NO_BREAK}% more", 10) == ["reverb", "20 % more"]


def test_nothing_is_one_bare_line() -> None:
    assert wrap("", 10) == [""]
    assert wrap("  \n ", 10, "- ") == ["-"]


@given(st.text(max_size=60), st.integers(4, 20), st.sampled_from(["", "- "]))
def test_lines_fit_and_lose_nothing_but_spaces(text: str, width: int, lead: str) -> None:
    lines = wrap(text, width, lead, " " * len(lead))
    assert all(width_of(line) <= width and line == line.rstrip() for line in lines)
    assert not any("\n" in line for line in lines)
    kept = "".join(line[len(lead) :] for line in lines).replace(" ", "")
    assert kept.replace(BASE, "") == clean(text).replace(" ", "").replace(BASE, "")


def test_a_mark_without_a_letter_stands_on_a_circle() -> None:
    assert wrap("\u0300abc e\u0301", 20) == [f"{BASE}\u0300abc e\u0301"]
