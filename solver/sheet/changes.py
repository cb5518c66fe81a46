"""Changes of a jam, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from solver.flow.wording import counted, intent_words, listing
from solver.gear.words import DUCKING, dotted
from solver.jam.editing import Changes, Cut, Path, Put, Step, data_of
from solver.jam.intents import Treat, Wish
from solver.jam.jam import MOST_CABLES, Jam
from solver.reading.statements import at
from solver.reading.writing import exact
from solver.sheet.cells import NO_BREAK


def changes_said(before: Jam, after: Jam, changes: Changes) -> list[str]:
    """A sentence for each change, and one for what goes with what is left out.

    Args:
        before: The jam as it was.
        after: The jam as it would be.
        changes: What leads from one to the other.
    """
    stages = changes.stages(data_of(before))
    added = [put for put in changes.adds if put.path[0] == "intent"]
    wishes = iter(after.intents[len(after.intents) - len(added) :] if added else ())
    return [
        *(_set_words(before, put) for put in changes.sets),
        *(["the drawer holds no other cables"] if before.cables is None and after.cables else []),
        *(_drop_words(before, path) for path in changes.drops),
        *_with_it(before, changes.drops, stages[1]),
        *(f"one more wish: {_wish_words(next(wishes))}" if put in added else _add_words(put) for put in changes.adds),
    ]


def _wish_words(wish: Wish) -> str:
    """What an intent is about, and the amounts that it wants."""
    if not isinstance(wish, Treat):
        return intent_words(wish)
    under = {DUCKING: f" under {wish.key}"} if wish.key is not None else {}
    amounts = (f"{amount} % {effect}{under.get(effect, '')}" for effect, amount in wish.amounts.items())
    return f"{intent_words(wish)}, {listing(amounts)}"


def _set_words(before: Jam, put: Put) -> str:
    of, *names = put.path
    if of != "boxes" and exact(_was(before, put.path)) == exact(put.value):
        return f"{dotted(*put.path)} stays {exact(put.value)}"
    if of == "boxes":
        return f"another box in place of {names[0]}: {put.value}"
    if of == "cables" and len(names) == 1:
        kind = str(names[0])
        known = {str(kind): count for kind, count in (before.cables or {}).items()}
        if put.value == MOST_CABLES:
            return f"the drawer holds as many cables of {kind} as it takes"
        held = counted(put.value, "cable") if isinstance(put.value, int) else str(put.value)
        return f"the drawer holds {held} of {kind}" + (f" instead of {known[kind]}" if kind in known else "")
    if of == "part" and len(names) == 2 and names[1] == "on":
        was = before.parts[str(names[0])].on
        return f"{names[0]} lives on {put.value} instead of {was or 'any box'}"
    frame = {
        "mains": f"the mains are {put.value}",
        "leader": f"{put.value} leads instead of {before.leader}",
        "listen": f"your ears are on {put.value} instead of {before.listen}",
    }
    return frame.get(str(of)) or _value_words(before, put)


def _value_words(before: Jam, put: Put) -> str:
    """Another value; of an effect with the parts that it is about."""
    of, *names = put.path
    was = _was(before, put.path)
    intent = before.intents[int(names[0])] if of == "intent" else None
    if isinstance(intent, Treat) and names[1:2] == ["with"] and isinstance(put.value, int):
        instead = "" if was is None else f" instead of {was}{NO_BREAK}%"
        return f"{names[2]} of {listing(intent.treat)} is {put.value}{NO_BREAK}%{instead}"
    if put.path == ("cables",):
        return "the drawer holds no cables"
    return f"{dotted(*put.path)}: " + (exact(put.value) if was is None else f"{exact(was)} -> {exact(put.value)}")


def _was(before: Jam, path: Path) -> Any:
    """What stands at a path, or None; a number as it would be written by hand."""
    data = at(data_of(before), path)
    return int(data) if isinstance(data, float) and data.is_integer() else data


def _drop_words(before: Jam, path: Path) -> str:
    of, *names = path
    if of == "boxes":
        return f"without the box {names[0]}"
    if of == "cables":
        return "the drawer holds as many cables as it takes"
    if of == "part" and len(names) == 1:
        return f"without the part {names[0]}"
    if of == "part" and names[1:] == ["on"]:
        return f"{names[0]} may live on any box"
    if of == "intent" and len(names) == 1:
        return f"without {intent_words(before.intents[int(names[0])])} ({dotted(*path)})"
    return f"without {dotted(*path)}"


def _with_it(before: Jam, drops: Sequence[Path], steps: Sequence[Step]) -> Iterator[str]:
    """What is left out because it names what is left out."""
    cuts = [step.path for step in steps if isinstance(step, Cut) and step.path not in drops]
    free = [str(path[1]) for path in cuts if path[0] == "part"]
    if free:
        yield f"{listing(free)} may live on any other box"
    for place in dict.fromkeys(int(path[1]) for path in cuts if path[0] == "intent"):
        part = "" if ("intent", place) in cuts else ", in part"
        yield f"also left out{part}: {intent_words(before.intents[place])} ({dotted('intent', place)})"


def _add_words(put: Put) -> str:
    of, name = put.path
    if of == "boxes":
        return f"one more box: {name}"
    on = put.value.get("on") if isinstance(put.value, dict) else None
    return f"one more part: {name}" + (f", on {on}" if on else "")
