"""Tables that fit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.sheet.cells import width_of
from solver.sheet.tables import GAP, shares, table


def test_a_narrow_table_stands_as_it_is() -> None:
    assert table(("part", "channel"), [("kick", "10"), ("bass", "5")], 80) == [
        "part    channel",
        "------  ---------",
        "kick    10",
        "bass    5",
    ]


def test_numbers_and_odd_words_stay_text() -> None:
    assert table(("a",), [("007",), ("1e3",), ("nan",)], 80)[2:] == ["007", "1e3", "nan"]


def test_wide_letters_keep_the_columns_straight() -> None:
    lines = table(("part", "x"), [("低音", "1"), ("e\u0301clat", "2"), ("low", "3")], 80)
    assert [width_of(line[: -len("1")]) for line in lines[2:]] == [width_of("part    ")] * 3
    assert "低音" in lines[2] and "e\u0301clat" in lines[3]


def test_no_row_is_no_table() -> None:
    assert table(("a", "b"), [], 80) == []


@pytest.mark.parametrize(
    ("natural", "width", "expected"),
    [
        ([5, 5], 80, [5, 5]),
        ([5, 100], 80, [5, 73]),
        ([100, 5, 100], 80, [36, 5, 35]),
        ([100, 200], 3, [1, 1]),
    ],
)
def test_the_widest_columns_give_way(natural: list[int], width: int, expected: list[int]) -> None:
    assert shares(natural, width) == expected


NAMES = st.text(min_size=1, max_size=200)


@given(st.lists(st.tuples(NAMES, NAMES, NAMES, NAMES, NAMES), min_size=1, max_size=3), st.sampled_from([80, 100]))
def test_any_names_fit(rows: list[tuple[str, ...]], width: int) -> None:
    lines = table(("no.", "cable", "from", "to", "carries"), rows, width)
    assert all(width_of(line) <= width and line == line.rstrip() for line in lines)


@given(st.lists(st.integers(0, 300), min_size=1, max_size=8), st.integers(40, 120))
def test_shares_fill_the_line_and_no_more(natural: list[int], width: int) -> None:
    found = shares(natural, width)
    gaps = GAP * (len(natural) - 1)
    assert all(share <= wish for share, wish in zip(found, natural, strict=True))
    assert sum(found) + gaps == min(sum(natural) + gaps, width)
