"""What is asked about the parts of a jam."""

from collections.abc import Callable, Iterator
from itertools import count

from solver.gear.box import Box
from solver.gear.words import Spot
from solver.making.pieces import pieces
from solver.making.questions import Choice, Interview, NotSoError, Question, Replies, among, listed, listing, name

MOST_LISTED = 24
"""How many places for a part are listed at most, with single engines among them."""

ANYWHERE, ANY = "anywhere", "any"


def parts(boxes: dict[str, Box], replies: Replies) -> Interview:
    """Every question about the parts: their names, where each lives, and its kind of sound."""
    for n in count(1):
        others = [part for _, part in listed(replies, "part", n)]
        yield Question(
            f"part.{n}",
            "What is the first part called?" if n == 1 else f"What is the next part called? So far: {listing(others)}.",
            _one_name(others),
            "A part is one thing that sounds: kick, bass, pad. It has one engine and one track to play it.",
            None if n == 1 else "",
            "no more",
            option="--part",
        )
        part = replies[f"part.{n}"]
        if part is None:
            return
        yield Question(
            f"part.{n}.on",
            f"Where does {part} live?",
            _place(boxes),
            "On any box, on one box, or on one engine of it, such as " + next(_engines(boxes), "box/ENGINE") + ".",
            ANYWHERE,
            choices=tuple(_places(boxes)),
            option="--part",
        )
        sounds = _sounds(boxes, replies[f"part.{n}.on"])
        if len(sounds) > 1:
            yield Question(
                f"part.{n}.sound",
                f"What kind of sound has {part}?",
                _sound(sounds),
                "Only an engine of that kind will play it.",
                ANY,
                choices=(Choice(ANY, "whatever there is"), *(Choice(sound, "") for sound in sounds)),
                option="--sound",
            )


def _one_name(others: list[str]) -> Callable[[str], str | None]:
    """A check for one name; where there are parts already, also for none."""
    check = name(others)

    def one(text: str) -> str | None:
        if len(pieces(text)) > 1:
            raise NotSoError("One part at a time, please. A name with a comma in it goes in double quotes.")
        return check(text) if text or not others else None

    return one


def _engines(boxes: dict[str, Box]) -> Iterator[str]:
    return (str(Spot(at, engine.name)) for at, box in boxes.items() for engine in box.engines)


def _places(boxes: dict[str, Box]) -> Iterator[Choice]:
    yield Choice(ANYWHERE, "on any box")
    few = len(boxes) + len(list(_engines(boxes))) < MOST_LISTED
    for at, box in boxes.items():
        if box.engines:
            yield Choice(at, "any engine of it")
        if few:
            yield from (Choice(str(Spot(at, engine.name)), engine.sound) for engine in box.engines)


def _place(boxes: dict[str, Box]) -> Callable[[str], str | None]:
    check = among([ANYWHERE, *(box for box in boxes if boxes[box].engines), *_engines(boxes)])
    return lambda text: None if text == ANYWHERE else check(text)


def _sounds(boxes: dict[str, Box], place: str | None) -> list[str]:
    """The kinds of sound that a part may choose from where it lives."""
    if place is not None and place not in boxes:
        return []
    here = boxes.values() if place is None else [boxes[place]]
    return list(dict.fromkeys(engine.sound for box in here for engine in box.engines if engine.sound))


def _sound(sounds: list[str]) -> Callable[[str], str | None]:
    check = among([ANY, *sounds])
    return lambda text: None if text == ANY else check(text)
