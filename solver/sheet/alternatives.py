"""What is different in the next best plans."""

from collections.abc import Iterator

from solver.jam.jam import Jam
from solver.plans import Cable, Plan
from solver.sheet.cells import wrap
from solver.sheet.words import cable_words, change_words, channel_words, end_words, outlet_words, strip_words


def alternative_section(jam: Jam, best: Plan, other: Plan, width: int) -> list[str]:
    """What is different in another plan, against the best one."""
    said: list[tuple[str, str]] = []
    said += _cable_changes(best, other)
    said += [("Part", line) for name in best.parts if (line := _part_change(jam, best, other, name))]
    before = {(s.box, s.of, s.where, s.what): change_words(best, s) for s in best.settings}
    after = {(s.box, s.of, s.where, s.what): change_words(other, s) for s in other.settings}
    said += [
        ("Set", f"{box} {of} {where}, {what}: {change.removeprefix('set ')}")
        for (box, of, where, what), change in after.items()
        if before.get((box, of, where, what)) != change
    ]
    said += [
        ("Leave", f"{box} {of} {where}, {what}: as it stands")
        for box, of, where, what in before
        if (box, of, where, what) not in after
    ]
    lead = max((len(word) for word, _ in said), default=0) + 4
    return [line for word, text in said for line in wrap(text, width, f"  {word}".ljust(lead), " " * lead)] or [
        "  The same cables, parts and settings."
    ]


def _cable_changes(best: Plan, other: Plan) -> Iterator[tuple[str, str]]:
    """Cables to move by one end, to pull and to plug."""
    spare = [cable for cable in other.cables if cable not in best.cables]
    pulled: list[Cable] = []
    for old in best.cables:
        if old in other.cables:
            continue
        near = (new for new in spare if new.kind == old.kind and (new.source == old.source or new.to == old.to))
        moved = next(near, None)
        if moved is None:
            pulled.append(old)
            continue
        spare.remove(moved)
        said = f"{old.kind} from {end_words(old.source)}: {end_words(old.to)} -> {end_words(moved.to)}"
        if moved.source != old.source:
            said = f"{old.kind} to {end_words(old.to)}: {end_words(old.source)} -> {end_words(moved.source)}"
        yield "Move", said
    yield from (("Pull", cable_words(cable)) for cable in pulled)
    yield from (("Plug", cable_words(cable)) for cable in spare)


def _part_change(jam: Jam, best: Plan, other: Plan, name: str) -> str:
    """What a part does differently, or nothing."""
    old, new = best.parts[name], other.parts.get(name)
    if new is None or new == old:
        return ""
    told = (
        ("engine", old.engine, new.engine),
        ("track", old.track, new.track),
        ("channel", channel_words(old.channel), channel_words(new.channel)),
        ("leaves by", outlet_words(jam, old), outlet_words(jam, new)),
        ("strips", strip_words(best, old), strip_words(other, new)),
    )
    changes = [f"{what} {before} -> {after}" for what, before, after in told if before != after]
    return f"{name}: {'; '.join(changes)}" if changes else ""
