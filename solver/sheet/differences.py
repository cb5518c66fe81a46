"""What hands do to get from one plan to another, a line each."""

from __future__ import annotations

from solver.gear.words import DUCKING
from solver.jam.jam import Jam
from solver.plans import Cable, Plan, PlannedPart
from solver.sheet.cells import wrap
from solver.sheet.words import (
    amount_words,
    cable_words,
    channel_words,
    end_words,
    outlet_words,
    shift_words,
    strip_words,
)
from solver.whatif.difference import Difference, Move, Side, Turn, Value, difference

Line = tuple[str, str]
"""What to do, and with what."""


def alternative_section(jam: Jam, best: Plan, other: Plan, width: int) -> list[str]:
    """What is different in another plan of the same boxes, against the best one."""
    differs = difference(Side(jam, best), Side(jam, other))
    said = [*cable_lines(differs), *part_lines(jam, jam, best, other, differs), *setting_lines(differs)]
    return laid_out(said, width) or ["  The same cables, parts and settings."]


def laid_out(said: list[Line], width: int) -> list[str]:
    """The lines with what to do in a column of its own."""
    lead = max((len(word) for word, _ in said), default=0) + 4
    return [line for word, text in said for line in wrap(text, width, f"  {word}".ljust(lead), " " * lead)]


def cable_lines(differs: Difference) -> list[Line]:
    """Cables to pull, to move by one end, and to plug."""
    return [
        *(("Pull", cable_words(cable)) for cable in differs.pulled),
        *(("Move", _move_words(move)) for move in differs.moved),
        *(("Plug", cable_words(cable)) for cable in differs.plugged),
    ]


def part_lines(before: Jam, after: Jam, old: Plan | None, new: Plan, differs: Difference) -> list[Line]:
    """What parts do differently."""
    return [
        ("Part", line)
        for name, (was, now) in differs.parts.items()
        if (line := _part_change(name, _told(before, old, was), _told(after, new, now)))
    ]


def setting_lines(differs: Difference) -> list[Line]:
    """Settings to move, with the old and the new value."""
    gone = {turn.place[:3] for turn in differs.settings if turn.place.what == DUCKING and turn.new is None}
    return [_turn_words(turn) for turn in differs.settings if turn.place.what != "key" or turn.place[:3] not in gone]


def _move_words(move: Move) -> str:
    old, new = move
    if old.source == new.source:
        return f"{old.kind} from {end_words(old.source)}: {end_words(old.to)} -> {end_words(new.to)}"
    if old.to == new.to:
        return f"{old.kind} to {end_words(old.to)}: {end_words(old.source)} -> {end_words(new.source)}"
    return f"{cable_words(old)} becomes {_ends_words(new)}"


def _ends_words(cable: Cable) -> str:
    return f"{end_words(cable.source)} -> {end_words(cable.to)}"


def _turn_words(turn: Turn) -> Line:
    box, of, where, what = turn.place
    place = f"{box} {of} {where}".replace("  ", " ")
    stored = " (for all projects)" if turn.stored == "box" else ""
    if what == "key":
        what = f"key of its {DUCKING}"
    if turn.new is None:
        return "Leave", f"{place}, {what}: {_value_words(what, turn.old)} is not needed any more"
    new = _value_words(what, turn.new)
    change = new if turn.old is None else f"{_value_words(what, turn.old)} -> {new}"
    return "Set", f"{place}, {what}: {change}{stored}"


def _value_words(what: str, value: Value) -> str:
    if what == "channel":
        return "all channels" if value == "all" else str(value)
    if what == "shift":
        return "none" if value is None else shift_words(value)
    return amount_words(what, value, None) if isinstance(value, int) else str(value)


def _told(jam: Jam, plan: Plan | None, part: PlannedPart | None) -> dict[str, str]:
    """What is told of a part, by what it is about; nothing of one that is not there."""
    if part is None or plan is None:
        return {}
    return {
        "engine": part.engine,
        "track": part.track,
        "channel": channel_words(part.channel),
        "leaves by": outlet_words(jam, part),
        "strips": strip_words(plan, part),
    }


def _part_change(name: str, old: dict[str, str], new: dict[str, str]) -> str:
    """What a part does differently, or nothing."""
    if not new:
        return f"{name}: no longer there"
    changes = [_change_words(what, old.get(what), said) for what, said in new.items() if old.get(what) != said]
    return f"{name}: {'' if old else 'new; '}{'; '.join(changes)}" if changes else ""


def _change_words(what: str, old: str | None, new: str) -> str:
    return f"{what} {new}" if old is None else f"{what} {old} -> {new}"
