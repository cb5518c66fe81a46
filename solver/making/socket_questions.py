"""What is asked of the MIDI sockets of a box."""

from collections.abc import Callable
from itertools import count

from solver.making.questions import Choice, Interview, Question, Replies, among, choose, fresh, listed, name

UNKNOWN = "unknown"
"""A small plug of which nobody could say how it is wired."""

HOW_TO_FIND_OUT = (
    "The maker's manual says whether the small MIDI plug is type A or type B. So does the adapter that came with the"
    " box: its package or its maker's page names the type. If you cannot look now, choose unknown: the socket is left"
    " out of the file with a note, until you know."
)

_WAYS = (
    ("in", "notes come in"),
    ("out", "notes go out"),
    ("thru", "what comes in goes on as it is"),
    ("usb-device", "a USB socket that goes into a computer or host"),
    ("usb-host", "a USB socket that other gear goes into"),
)

_PLUGS = (
    ("din", "round, with five holes"),
    ("trs-a", "small plug, type A"),
    ("trs-b", "small plug, type B"),
    (UNKNOWN, "small plug, type not known yet"),
)


def sockets(replies: Replies) -> Interview:
    """Every question about MIDI sockets."""
    for n in count(1):
        yield Question(
            f"midi.{n}",
            "Which MIDI socket has it?" if n == 1 else "Which other MIDI socket?",
            _way(ins(replies, n)),
            "One socket after another, USB among them if notes pass there.",
            "",
            "none" if n == 1 else "no more",
            tuple(Choice(*way) for way in _WAYS),
            "--midi",
        )
        if not replies[f"midi.{n}"]:
            return
        yield from _socket(n, replies)


def ins(replies: Replies, before: int | None = None) -> list[str]:
    """The sockets where notes come in, of those that can be used."""
    return [
        replies[f"midi.{n}.name"]
        for n, way in listed(replies, "midi", before)
        if way not in ("out", "thru") and replies.get(f"midi.{n}.plug") != UNKNOWN
    ]


def _way(known: list[str]) -> Callable[[str], str | None]:
    check = among(["in", "out", *(["thru"] if known else []), "usb-device", "usb-host"])
    return lambda text: check(text) if text else None


def _socket(n: int, replies: Replies) -> Interview:
    way, known = replies[f"midi.{n}"], ins(replies, n)
    usb = way.startswith("usb")
    key = f"midi.{n}.name"
    taken = [replies[f"midi.{m}.name"] for m, _ in listed(replies, "midi", n)]
    default = fresh("USB" if usb else f"MIDI {way.upper()}", taken)
    yield Question(key, "What is printed beside it?", name(taken), "As it is printed on the box.", default)
    if not usb:
        yield choose(f"midi.{n}.plug", "Which plug goes in?", _PLUGS, HOW_TO_FIND_OUT, option="--midi")
    if way == "thru":
        copies = [(port, "") for port in known]
        yield choose(f"midi.{n}.copies", "What comes out there?", copies, "What arrives at that socket leaves by it.")
    if way == "out" and known:
        yield choose(
            f"midi.{n}.repeats",
            "Do notes that come in leave by it too?",
            [("no", "only its own"), *((port, f"what comes in at {port}") for port in known)],
            "Some boxes mix what comes in with their own notes; a setting called thru or merge does that.",
        )
    yield choose(f"midi.{n}.clock", "Does the clock pass there?", (("yes", ""), ("no", "")), "Start, stop and tempo.")
