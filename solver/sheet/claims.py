"""What claims and changes say, and where in the jam file they stand."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from solver.flow.wording import counted, listing
from solver.gear.words import DUCKING
from solver.jam.claims import Claim, intent_of
from solver.jam.intents import Keep, Layer, Separate, Treat, Wish
from solver.jam.jam import Jam
from solver.sheet.cells import NO_BREAK
from solver.sheet.words import shift_words

Path = tuple[str | int, ...]


class Said(NamedTuple):
    """Who and what: ``does`` where it is one, ``do`` where there are several."""

    who: tuple[str, ...]
    does: str
    do: str

    def __str__(self) -> str:
        return f"{listing(self.who)} {self.does if len(self.who) == 1 else self.do}" if self.who else self.does


def path_of(jam: Jam, claim: Claim) -> Path:
    """Where the jam file says it."""
    kind, *names = claim.piece
    if kind in ("part", "on", "sound"):
        return ("part", claim.parts[0], *([] if kind == "part" else [kind]))
    stated = intent_of(jam, claim)
    if stated is None:
        return (claim.piece[0].removesuffix("s") + "s", *names)
    place, intent = stated
    key = {"treat": "with", "shift": "shift"}.get(kind, intent.kind)
    return ("intent", place, key)


def said(jam: Jam, claim: Claim, there: Iterable[str]) -> Said:
    """What a claim says, of the parts that are there."""
    stated = intent_of(jam, claim)
    if stated is not None:
        return _of_intent(jam, stated[1], claim.piece, frozenset(there))
    kind, *names = claim.piece
    part = jam.parts[claim.parts[0]] if claim.parts else None
    plain = {
        "part": ("is a part of the jam", "are parts of the jam"),
        "on": (f"lives on {part and part.on}", f"live on {part and part.on}"),
        "sound": (f'has the sound "{part and part.sound}"', f'have the sound "{part and part.sound}"'),
        "cables": ("the drawer holds no other kinds of cable", ""),
        "mains": ("the mains are stereo: you hear both sides", ""),
    }
    if kind == "cable":
        held = {str(kind): count for kind, count in (jam.cables or {}).items()}[names[0]]
        return Said((), f"the drawer holds {counted(held, 'cable')} of {names[0]}", "")
    return Said(claim.parts, *plain[kind])


def _of_intent(jam: Jam, intent: Wish, piece: tuple[str, ...], there: frozenset[str]) -> Said:
    kind, *names = piece
    if isinstance(intent, Separate):
        at = f" at {intent.at or jam.leader}"
        return Said(tuple(names), f"has a strip of its own{at}", f"are kept apart{at}")
    if isinstance(intent, Treat):
        return Said((names[0],), *(f"{want} {_amount(intent, names[1])}" for want in ("wants", "want")))
    if kind == "shift" and isinstance(intent, Layer):
        by = shift_words(intent.shift[names[0]])
        return Said((names[0],), f"is shifted by {by}", f"are shifted by {by}")
    whole = {
        "layer": lambda: f"one track plays {listing(part for part in getattr(intent, 'layer', ()) if part in there)}",
        "play": lambda: f"{getattr(intent, 'source', '')} plays {names[0]}",
        "keep": lambda: f"you keep {_kept(intent)}" if isinstance(intent, Keep) else "",
    }
    plain = {
        "stereo": ("keeps both sides", "keep both sides"),
        "match": ("goes with the track of its strip or engine", "go with the track of their strip or engine"),
        "program": ("changes its sound by program change", "change their sounds by program change"),
        "clock": ("follows the clock", "follow the clock"),
    }
    if kind in whole:
        return Said((), whole[kind](), "")
    return Said((names[0],), *plain.get(kind, (f"is a {kind} to avoid", f"are {kind}s to avoid")))


def _amount(intent: Treat, effect: str) -> str:
    amount = intent.amounts[effect]
    under = f" under {intent.key}" if effect == DUCKING and amount else ""
    return f"{amount}{NO_BREAK}% {effect}{under}" + (f" at {intent.at}" if intent.at else "")


def _kept(intent: Keep) -> str:
    kept = intent.keep
    if kept.cable is not None:
        return f"a cable between {listing(kept.cable)}"
    where = {"engine": "on", "channel": "on channel", "pan": "panned", "track": "on track", "strip": "on strip"}
    form = next(form for form in where if getattr(kept, form) is not None)
    return f"{kept.part} {where[form]} {getattr(kept, form)}"
