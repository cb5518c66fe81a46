"""What is said when there is no plan."""

import pytest

from solver.outcome import Progress
from solver.sheet.answers import impossible_text, progress_text, undecided_text
from solver.sheet.cells import width_of


def test_impossible_names_who_tells_why() -> None:
    assert impossible_text("Low Tide", "jams/low-tide.toml", 100) == (
        "Impossible, proved: no set of cables and settings meets every wish of Low Tide.\n"
        "Next: hardpan explain jams/low-tide.toml tells why, and what the cheapest ways out are.\n"
    )


def test_texts_fit() -> None:
    title = "低" * 200
    for text in (impossible_text(title, "jam.toml", 80), undecided_text(title, 80)):
        assert all(width_of(line) <= 80 and line == line.rstrip() for line in text.split("\n"))


def test_undecided_says_neither() -> None:
    text = undecided_text("Low Tide", 80).replace("\n", " ")
    assert "neither a plan for Low Tide was found nor a proof that there is none" in text
    assert "--time-limit" in text


@pytest.mark.parametrize(
    ("progress", "said"),
    [
        (Progress("cables", 6, 4, 4.9), "4 s: best so far 6 cables, at least 4"),
        (Progress("cables", None, 1, 2.0), "2 s: no plan yet, at least 1 cable"),
        (Progress("cables", None, None, 2.0), "2 s: no plan yet"),
        (Progress("silenced", 1, 0, 3.0), "3 s: best so far 1 engine turned down, at least 0"),
        (Progress("settings_moved", 9, 2, 7.2), "7 s: best so far 9 settings to move, at least 2"),
        (Progress("tidy", 512, 3, 8.0), "8 s: tidying the plan"),
    ],
)
def test_progress_is_said_in_words(progress: Progress, said: str) -> None:
    assert progress_text(progress) == said


def test_a_stopped_search_is_not_told_to_have_had_too_little_time() -> None:
    said = undecided_text("Low Tide", 80, stopped=True)
    assert said.startswith("Not decided: until you stopped it, neither a plan for Low Tide was found")
    assert "time-limit" not in said
