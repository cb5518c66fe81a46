"""Interviews walked with answers that a test draws or names."""

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from solver.making.jam_questions import AtHand, OnTable
from solver.making.questions import Interview, NotSoError, Question, Replies, typed
from solver.reading import read_box
from tests.showing import SCENARIOS

BOXES = SCENARIOS / "boxes"
NAMES = ("barge", "tiller", "wherry", "eddy", "sluice", "windlass")

ODD = (
    "two words",
    'say "so"',
    "#1",
    "a=b",
    "x, y",
    "😀 up",
    " edge ",
    "a:b",
    "back",
    "?",
    "été",
    "-",
    "3",
)
"""Names that files, lists and options have to keep as they are."""

words = st.sampled_from(ODD) | st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=12)


def on_table(name: str) -> OnTable:
    """A box of the scenarios."""
    file = BOXES / f"{name}.toml"
    if not file.exists():
        raise NotSoError("There is no such box file.")
    return OnTable(file, read_box(file))


def at_hand(file: Path | None = None) -> AtHand:
    """A world with a few boxes of the scenarios in it, where everything may be written."""
    return AtHand([(name, "") for name in NAMES], on_table, Path, file)


def walk(questions: Callable[[Replies], Interview], reply: Callable[[Question], Any]) -> dict[str, Any]:
    """Every reply of an interview, each as ``reply`` gives it."""
    replies: dict[str, Any] = {}
    while True:
        question = next((q for q in questions(replies) if q.key not in replies), None)
        if question is None:
            return replies
        replies[question.key] = reply(question)


def scripted(said: Mapping[str, str]) -> Callable[[Question], Any]:
    """Replies as they would be typed, by key; else the default."""
    return lambda question: question.answer(said.get(question.key, ""))


def drawn(draw: Callable[[st.SearchStrategy[Any]], Any], most: int = 3) -> Callable[[Question], Any]:
    """Replies drawn at random: a choice, a number, some words, or the default."""

    def tries(question: Question) -> Iterator[str]:
        kind = question.key.rpartition(".")[2]
        if question.key in ("outs", "ins", "engines", "tracks"):
            yield str(draw(st.integers(0, most)))
        many = kind.isdecimal() and int(kind) > (1 if question.key.startswith("treat.") else most)
        if kind == "amounts":
            offered = question.help.rpartition("There is ")[2].rstrip(".").split(", ")
            yield from (f"{effect} 0" for effect in offered)
        if question.choices and not (many and question.default == ""):
            yield draw(st.sampled_from([choice.reply for choice in question.choices]))
        elif not many and draw(st.booleans()):
            yield ", ".join(typed(word) for word in draw(st.lists(words, min_size=1, max_size=2)))
        yield ""
        yield "tiller" if question.choices else typed(draw(words) + question.key)

    def reply(question: Question) -> Any:
        for text in tries(question):
            try:
                return question.answer(text)
            except NotSoError:
                continue
        raise AssertionError(f"nothing does for {question.key}")

    return reply
