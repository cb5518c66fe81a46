"""Questions: their words, what may be answered, and what an answer means."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import count, takewhile
from typing import Any, NamedTuple

from solver.gear.nearest import nearest
from solver.gear.words import quoted
from solver.making.pieces import pieces, plain

Replies = Mapping[str, Any]
"""What was answered so far, by the keys of the questions; an answer is what the question's check made of it."""

Interview = Iterator["Question"]
"""Questions in their order, each made from the replies to those before it.

Whoever walks it goes on to the next question only when the reply to this one is among the replies.
"""

LAST = "sure"
"""The question that is asked even where there is only one answer."""

LONGEST_NAME = 200


class NotSoError(ValueError):
    """An answer that will not do; the message says what is allowed."""


class Choice(NamedTuple):
    """One of the answers to choose from: the reply that it stands for, and what it is."""

    reply: str
    words: str


@dataclass(frozen=True)
class Question:
    """One thing that is asked.

    Args:
        key: its name among the replies.
        words: the question, as a musician would ask it.
        check: what makes an answer of the text that was typed; it raises NotSoError.
        help: more words, for those who ask for them.
        default: what is taken where nothing is typed; None where something has to be.
        nothing: what the default means, where it is an empty text.
        choices: the answers to choose from, by number or as they are.
        option: the option of the command that answers it.
    """

    key: str
    words: str
    check: Callable[[str], Any]
    help: str
    default: str | None = None
    nothing: str = ""
    choices: tuple[Choice, ...] = ()
    option: str = ""

    def answer(self, text: str) -> Any:
        """What a text means as an answer.

        Raises:
            NotSoError: it means nothing here.
        """
        text = text.strip()
        if not text:
            if self.default is None:
                raise NotSoError("Something has to be answered here.")
            text = self.default
        known = [choice.reply for choice in self.choices]
        if text not in known and text.isdecimal() and 1 <= int(text) <= len(known):
            text = known[int(text) - 1]
        short = {"y": "yes", "n": "no"}.get(text.casefold(), text)
        return self.check(short if short in known else text)


def choose(
    key: str, words: str, choices: Iterable[tuple[str, str]], help: str, *, default: str | None = None, option: str = ""
) -> Question:
    """A question with a few answers; the first is the default unless another is named."""
    listed = tuple(Choice(*choice) for choice in choices)
    known = tuple(choice.reply for choice in listed)
    return Question(
        key, words, among(known), help, known[0] if default is None else default, choices=listed, option=option
    )


def among(known: Iterable[str]) -> Callable[[str], str]:
    """A check for one of some words."""
    listed = tuple(known)

    def check(text: str) -> str:
        for word in (text, plain(text)):
            if word in listed:
                return word
        begun = [word for word in listed if word.startswith(f"{text} ")]
        if len(begun) == 1:
            return begun[0]
        raise none_such(plain(text), listed, "{} here; it is one of")

    return check


def some_of(known: Iterable[str], what: str) -> Callable[[str], tuple[str, ...]]:
    """A check for a list of known words, each once, or none."""
    listed = tuple(known)

    def check(text: str) -> tuple[str, ...]:
        words = tuple(plain(piece) for piece in pieces(text))
        for word in words:
            if word not in listed:
                raise none_such(word, listed, f"{what} {{}}; there is")
        return tuple(dict.fromkeys(words))

    return check


def none_such(word: str, known: Iterable[str], said: str) -> NotSoError:
    """That a word stands for nothing, with what there is, and the word that may be meant.

    Args:
        word: what was typed.
        known: what would do.
        said: how that is said, with {} in the place of the word.
    """
    listed = tuple(known)
    near = nearest(word, listed)
    hint = f" Did you mean {typed(near)}?" if near is not None else ""
    return NotSoError(f"There is no {said.format(quoted(word))} {listing(listed)}.{hint}")


def listing(words: Iterable[str]) -> str:
    """Words one after another, as they would be typed into a list; the first of them, where they are many."""
    listed = [typed(word) for word in words]
    more = f" and {len(listed) - 20} more" if len(listed) > 20 else ""
    return (", ".join(listed[:20]) or "none") + more


def typed(word: str) -> str:
    """A word as it is typed into a list: in quotes where it would be taken for something else."""
    return word if word == word.strip() and word.isprintable() and not set(word) & set(',:="') else quoted(word)


def name(taken: Iterable[str] = (), slash: bool = True) -> Callable[[str], str]:
    """A check for a name that nothing else has."""
    others = frozenset(taken)

    def check(text: str) -> str:
        said = plain(text)
        if not 1 <= len(said) <= LONGEST_NAME or not encodes(said):
            raise NotSoError(f"A name has 1 to {LONGEST_NAME} characters.")
        if not said.isprintable():
            raise NotSoError("A name is made of signs that can be seen; this one has others in it.")
        if "/" in said and not slash:
            raise NotSoError("A slash stands between a box and what is on it, so this name cannot have one.")
        if said in others:
            raise NotSoError(f"{quoted(said)} is there already; each name stands for one thing.")
        return said

    return check


def whole(low: int, high: int) -> Callable[[str], int]:
    """A check for a whole number."""

    def check(text: str) -> int:
        if not (text.isascii() and text.isdecimal() and len(text) < 10 and low <= int(text) <= high):
            raise NotSoError(f"A whole number from {low} to {high} is wanted here.")
        return int(text)

    return check


def listed(replies: Replies, of: str, before: int | None = None) -> Iterator[tuple[int, Any]]:
    """What was answered to "one more?", counted from 1, until there was no more, or before one of them."""
    for n in count(1) if before is None else range(1, before):
        found = replies.get(f"{of}.{n}")
        if not found:
            return
        yield n, found


def earlier(replies: Replies, key: str) -> dict[str, Any]:
    """The replies to the questions before one, whether or not it has a reply itself."""
    return dict(takewhile(lambda reply: reply[0] != key, replies.items()))


def fresh(wanted: str, taken: Iterable[str]) -> str:
    """A name that nothing else has: as wanted, or with a number behind it."""
    others = set(taken)
    return next(word for n in count(1) if (word := wanted if n == 1 else f"{wanted} {n}") not in others)


def words_only(text: str) -> str:
    """A check for a few words, or none."""
    if len(text) > LONGEST_NAME or not encodes(text):
        raise NotSoError(f"At most {LONGEST_NAME} characters are wanted here.")
    return text


def encodes(text: str) -> bool:
    """Whether a text can be written into a file at all."""
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True
