"""What several questions about a box share."""

from collections.abc import Callable
from typing import TypeVar

from solver.gear.words import SETTINGS, quoted
from solver.making.pieces import pieces, plain
from solver.making.questions import NotSoError, Question, Replies, fresh, name, typed

T = TypeVar("T")

MOST = 64
"""How many things of a kind can be told of; a file that is written by hand may have more."""

YES_NO = (("yes", ""), ("no", ""))
NO_YES = (("no", ""), ("yes", ""))


def outlets_of(replies: Replies, before: int | None = None) -> list[str]:
    """The names of the line outs, all of them or those before one of them; a single jack's is its label."""
    names: list[str] = []
    for n in range(1, replies["outs"] + 1 if before is None else before):
        pair = replies[f"out.{n}.shape"] == "pair"
        names.append(replies[f"out.{n}.name"] if pair else fresh(replies[f"out.{n}.label"], names))
    return names


def inlets_of(replies: Replies) -> list[str]:
    """The names of the line ins: the label of a single jack, LINE for a pair."""
    names: list[str] = []
    for n in range(1, replies["ins"] + 1):
        pair = replies[f"in.{n}.shape"] == "pair"
        names.append(fresh("LINE" if pair else replies[f"in.{n}.label"], names))
    return names


def phones_of(replies: Replies) -> str:
    """The name of the headphone outlet: its label, with a number behind it where a line out has that name."""
    return fresh(replies["phones.label"], outlets_of(replies))


def ways_out(replies: Replies) -> list[str]:
    """The outlets that a sound can be sent to: those that do not only carry what another carries."""
    return [*outlets_of(replies), *([phones_of(replies)] if replies["phones"] == "own" else [])]


def effects(key: str, words: str) -> Question:
    """The question for effects with amounts of their own."""
    help = "Such as: ducking, reverb. Only those with an amount of its own here; one amount for all does not count."
    return Question(key, words, _effects, help, "", "none")


def _effects(text: str) -> tuple[str, ...]:
    words = names(text)
    for word in words:
        if word in SETTINGS:
            raise NotSoError(f"{quoted(word)} is no effect. Some are reverb, delay, ducking.")
        if word.casefold() in ("yes", "y", "no", "n"):
            raise NotSoError("Their names are wanted, such as reverb, delay. Enter alone is for none.")
    return tuple(dict.fromkeys(words))


def names(text: str) -> list[str]:
    """A list of names.

    Raises:
        NotSoError: one of them is too long.
    """
    check = name()
    return [check(typed(plain(piece))) for piece in pieces(text)]


def names_for(many: int) -> Callable[[str], tuple[str, ...]]:
    """A check for as many names, each another one."""

    def check(text: str) -> tuple[str, ...]:
        found = names(text)
        if len(found) != many or len(set(found)) != many:
            raise NotSoError(f"As many different names as there are of them are wanted: {many}, commas between them.")
        return tuple(found)

    return check


def one_or_each(many: int, check: Callable[[str], T]) -> Callable[[str], tuple[T, ...]]:
    """A check for one thing for all, or one for each; nothing for nothing."""

    def checked(text: str) -> tuple[T, ...]:
        found = [check(plain(piece)) for piece in pieces(text)]
        if len(found) not in (0, 1, many):
            raise NotSoError(f"One for all of them is wanted, or {many} with commas between them.")
        return tuple(found * many if len(found) == 1 else found)

    return checked


def some(check: Callable[[str], tuple[T, ...]]) -> Callable[[str], tuple[T, ...]]:
    """The same check, but nothing will not do."""

    def checked(text: str) -> tuple[T, ...]:
        found = check(text)
        if not found:
            raise NotSoError("Something has to be answered here.")
        return found

    return checked
