"""What is asked to make a box file, in the words of a back panel: the jacks first."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from solver.making.box_words import MOST, YES_NO, effects, outlets_of
from solver.making.pieces import slug
from solver.making.questions import (
    LAST,
    Interview,
    Question,
    Replies,
    choose,
    earlier,
    fresh,
    name,
    some_of,
    whole,
    words_only,
)
from solver.making.socket_questions import sockets
from solver.making.sound_questions import sounds


@dataclass(frozen=True)
class Place:
    """Where a box file is to stand.

    Args:
        folder: where it goes if nothing else is said.
        target: where a file is to be written; it raises NotSoError where it cannot be.
        file: the file that was asked for at the start, if one was.
    """

    folder: Path
    target: Callable[[str], Path]
    file: Path | None = None


def box_interview(place: Place, replies: Replies) -> Interview:
    """Every question for a box file, in its order; one without an option of its own is answered by its key."""
    for question in _questions(place, replies):
        yield (
            question
            if question.option or question.key == LAST
            else replace(question, option=f"--answer {question.key}")
        )


def _questions(place: Place, replies: Replies) -> Interview:
    yield from named(place, replies)
    yield Question(
        "about",
        "What is it, in a few words?",
        words_only,
        "Such as: two-voice module with one input.",
        "",
        "nothing",
        option="--about",
    )
    yield from _outs(replies)
    yield from _phones(replies)
    yield from _ins(replies)
    yield from sounds(replies)
    yield from sockets(replies)
    yield Question(
        "stored",
        "What does the box remember once for everything, whatever project is loaded?",
        some_of(("channel", "pan", "outlet", "level"), "setting"),
        "Any of: channel, pan, outlet, level. The rest is recalled with the project. Change channel here, reload"
        " another project, and look: if the change is still there, the box remembers it once.",
        "",
        "nothing",
    )
    file = place.file or replies["file"]
    help = "Enter writes the file. back goes back to the last answer, quit writes nothing."
    yield choose(LAST, f"That is all. Shall {file} be written?", [("yes", "write it")], help)


def named(place: Place, replies: Replies) -> Interview:
    """The name of a box, and the file that it is to stand in."""
    stem = place.file.stem.replace("-", " ").replace("_", " ").title() if place.file else None
    yield Question("name", "What is the box called?", name(), "The name printed on it.", stem, option="--name")
    if place.file is None:
        yield Question(
            "file",
            "In which file shall it stand?",
            place.target,
            "The name of a new file. It ends in .toml.",
            str(place.folder / f"{slug(replies['name'])}.toml"),
            option="FILE",
        )


def _outs(replies: Replies) -> Interview:
    yield Question(
        "outs",
        "How many line outs has it? A left and a right jack together count as one. Headphones come later.",
        whole(0, MOST),
        "Count what you would run to a mixer: one for each pair of jacks, one for each single jack.",
        "1",
        option="--out",
    )
    for n in range(1, replies["outs"] + 1):
        which = "the line out" if replies["outs"] == 1 else f"line out {n}"
        yield from _connection(f"out.{n}", which, ("L", "R") if n == 1 else (f"L{n}", f"R{n}"), f"OUT {n}", replies)
        if replies[f"out.{n}.shape"] != "pair":
            continue
        yield choose(
            f"out.{n}.alone",
            f"With a plug in {replies[f'out.{n}.left']} and none in {replies[f'out.{n}.right']}: does it carry both"
            " sides?",
            YES_NO,
            "Often MONO is printed beside the left jack then.",
            default="yes" if "mono" in replies[f"out.{n}.left"].casefold() else "no",
        )
        taken = outlets_of(replies, n)
        yield Question(
            f"out.{n}.name",
            "What do you call this pair?",
            name(taken),
            "One word for both jacks. Jam files use it.",
            fresh("MAIN" if n == 1 else f"OUT {n}", taken),
        )


def _connection(key: str, which: str, pair: tuple[str, str], single: str, replies: Replies) -> Interview:
    """The shape, labels and plug of an outlet or inlet."""
    yield choose(
        f"{key}.shape",
        f"What is {which} made of?",
        [
            ("pair", "two jacks, left and right"),
            ("mono", "one jack with one side"),
            ("stereo", "one jack with both sides"),
        ],
        "One jack with both sides takes a stereo plug: three metal rings where a mono plug has two.",
    )
    if replies[f"{key}.shape"] == "pair":
        for side, label in zip(("left", "right"), pair, strict=True):
            yield _label(f"{key}.{side}", f"What is printed beside the {side} jack?", label, replies)
    else:
        yield _label(f"{key}.label", "What is printed beside the jack?", single, replies)
    yield _plug(f"{key}.plug", "6.35")


def _label(key: str, words: str, default: str, replies: Replies) -> Question:
    taken = [label for known, label in earlier(replies, key).items() if known.endswith((".left", ".right", ".label"))]
    help = "As it is printed on the box, or as you call it. Where the same is printed twice, say which: IN L, OUT L."
    option = {"out": "--out", "in": "--in"}.get(key.partition(".")[0], "")
    return Question(key, words, name(taken), help, fresh(default, taken), option=option)


def _plug(key: str, default: str) -> Question:
    plugs = [("6.35", "large, 6.35 mm"), ("3.5", "small, 3.5 mm")]
    help = "The large plug is as wide as a pencil, the small one half of that."
    return choose(key, "Which plug goes in?", plugs, help, default=default)


def _phones(replies: Replies) -> Interview:
    outs = outlets_of(replies)
    same = [(f"same as {out}", f"it carries what {out} carries") for out in outs]
    yield choose(
        "phones",
        "Has it a headphone jack?",
        [("no", ""), *same, ("own", "yes, with a sound of its own")],
        "One that carries what a line out carries can take its place.",
    )
    if replies["phones"] != "no":
        yield _label("phones.label", "What is printed beside it?", "PHONES", replies)
        yield _plug("phones.plug", "3.5")


def _ins(replies: Replies) -> Interview:
    yield Question(
        "ins",
        "How many line ins has it? A left and a right jack together count as one.",
        whole(0, MOST),
        "Count where sound from other boxes goes in.",
        "0",
        option="--in",
    )
    for n in range(1, replies["ins"] + 1):
        which = "the line in" if replies["ins"] == 1 else f"line in {n}"
        yield from _connection(f"in.{n}", which, (f"IN {2 * n - 1}", f"IN {2 * n}"), f"IN {n}", replies)
        pair = replies[f"in.{n}.shape"] == "pair"
        if pair:
            yield choose(
                f"in.{n}.alone",
                f"With a plug in {replies[f'in.{n}.left']} alone: does it feed both sides?",
                YES_NO,
                "Then a box with one jack is heard on both sides.",
                default="no",
            )
        one = ("yes", "") if replies[f"in.{n}.shape"] == "mono" else ("both", "one fader for both sides")
        yield choose(
            f"in.{n}.fader",
            "Has it a fader or level of its own?",
            [*([("each", "one for each jack")] if pair else []), one, ("no", "its sound does not leave the box")],
            "Any level will do, in a menu as well. If the sound only goes into a recording, answer no.",
        )
        if replies[f"in.{n}.fader"] != "no":
            yield effects(f"in.{n}.offers", "Which effects can be set for this input alone?")
