"""What is asked to make a jam file: the boxes on the table, who leads, where the ears are, the parts."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from typing import NamedTuple

from solver.gear.box import Box
from solver.gear.connections import Outlet
from solver.making.part_questions import parts
from solver.making.pieces import slug
from solver.making.questions import (
    LAST,
    Choice,
    Interview,
    NotSoError,
    Question,
    Replies,
    choose,
    fresh,
    listed,
    listing,
    name,
)
from solver.making.wish_questions import wishes


class OnTable(NamedTuple):
    """A box file and the box in it."""

    file: Path
    box: Box


@dataclass(frozen=True)
class AtHand:
    """What the questions need to know of the world.

    Args:
        boxes: the box files to choose from, each as it would be typed and in words.
        read: reads a box file that was named; it raises NotSoError.
        target: where a file is to be written; it raises NotSoError where it cannot be.
        file: the file that was asked for at the start, if one was.
    """

    boxes: Sequence[tuple[str, str]]
    read: Callable[[str], OnTable]
    target: Callable[[str], Path]
    file: Path | None = None


def jam_interview(at_hand: AtHand, replies: Replies) -> Interview:
    """Every question for a jam file, in its order."""
    yield from _frame(at_hand, replies)
    yield from _table(at_hand, replies)
    boxes = boxes_of(replies)
    yield from _roles(boxes, replies)
    yield from parts(boxes, replies)
    yield from wishes(boxes, replies)
    file = at_hand.file or replies["file"]
    yield choose(
        LAST,
        f"That is all. Shall {file} be written?",
        [("yes", "write it")],
        "Enter writes the file. back goes back to the last answer, quit writes nothing.",
    )


def boxes_of(replies: Replies, before: int | None = None) -> dict[str, Box]:
    """The boxes on the table by their names there, all of them or those before one of them."""
    return {replies[f"box.{n}.name"]: found.box for n, found in listed(replies, "box", before)}


def _frame(at_hand: AtHand, replies: Replies) -> Interview:
    stem = at_hand.file.stem if at_hand.file else "first-jam"
    title = " ".join(word[:1].upper() + word[1:] for word in stem.replace("-", " ").replace("_", " ").split())
    yield Question(
        "title",
        "What is the jam called?",
        name(),
        "Any name that you will know it by.",
        title or "Jam",
        option="--title",
    )
    if at_hand.file is None:
        yield Question(
            "file",
            "In which file shall it stand?",
            at_hand.target,
            "The name of a new file in this folder. It ends in .toml.",
            f"{slug(replies['title'])}.toml",
            option="FILE",
        )


def _table(at_hand: AtHand, replies: Replies) -> Interview:
    for n in count(1):
        here = boxes_of(replies, n)

        def check(text: str, here: dict[str, Box] = here) -> OnTable | None:
            if text:
                return at_hand.read(text)
            if not any(box.outlets for box in here.values()):
                raise NotSoError("None of these boxes has a line out to listen to. Put one on the table that has.")
            return None

        yield Question(
            f"box.{n}",
            "Which box is on the table?" if n == 1 else f"Which other box? On the table: {listing(here)}.",
            check,
            "A box file describes one piece of gear. Choose one by its number, or type the path of another. If there"
            " is none for your box yet, quit and make one: hardpan box new.",
            None if n == 1 else "",
            "no more",
            tuple(_choices(at_hand)),
            "--box",
        )
        found = replies[f"box.{n}"]
        if found is None:
            return
        yield Question(
            f"box.{n}.name",
            f"What do you call {found.box.name} on this table?",
            name(here, slash=False),
            "A short name. Two boxes of one kind need two names.",
            fresh(slug(found.file.stem), here),
            option="--box",
        )


def _choices(at_hand: AtHand) -> Iterator[Choice]:
    return (Choice(*box) for box in at_hand.boxes)


def _roles(boxes: dict[str, Box], replies: Replies) -> Interview:
    playing = [box for box in boxes if boxes[box].tracks]
    sending = [box for box in playing if any(port.sends for port in boxes[box].ports)]
    yield choose(
        "leader",
        "Who leads?",
        [(box, boxes[box].about) for box in boxes],
        "The leader plays the parts with its tracks and runs the clock. Others may play parts too; the file says how.",
        default=next(iter(sending or playing or boxes)),
        option="--leader",
    )
    leader = replies["leader"]
    ordered = [leader, *(box for box in boxes if box != leader)]
    yield choose(
        "listen",
        "Where are your ears?",
        [(f"{box}/{outlet.name}", _jacks(outlet)) for box in ordered for outlet in boxes[box].outlets],
        "The outlet that your loudspeakers or headphones hang on. Everything has to arrive there.",
        option="--listen",
    )
    yield Question(
        "tempo",
        "How many beats a minute?",
        _tempo,
        "Quarter notes a minute, above 0 and at most 1000.",
        "120",
        option="--tempo",
    )
    yield choose(
        "mains",
        "What do the loudspeakers play?",
        [("stereo", "left and right"), ("mono", "both sides summed into one")],
        "With one loudspeaker, or both sides summed, either side is enough, which may save cables.",
        option="--mains",
    )


def _jacks(outlet: Outlet) -> str:
    return " and ".join(jack.label for jack in outlet.jacks)


def _tempo(text: str) -> int | float:
    try:
        tempo = float(text)
    except ValueError:
        tempo = 0
    if not 0 < tempo <= 1000:
        raise NotSoError("A number above 0 and at most 1000 is wanted here.")
    return int(tempo) if tempo == int(tempo) else tempo
