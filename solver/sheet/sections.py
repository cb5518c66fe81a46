"""The sections of a sheet in the order in which hands need them: plug, set, know, silence, prepare, mind."""

from collections.abc import Collection, Iterable, Iterator, Sequence

from solver.flow.settings import spare_effects
from solver.flow.timing import MOST_THRUS, TIGHT
from solver.flow.wording import listing
from solver.gear.box import Memory
from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.intents import Program
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.carried import carried
from solver.sheet.cells import NO_BREAK, wrap
from solver.sheet.tables import table
from solver.sheet.words import (
    MEMORIES,
    change_words,
    channel_words,
    effect_words,
    end_words,
    listed,
    outlet_words,
    strip_words,
)

WORTH_TELLING = 1000 * TIGHT / 2
"""Milliseconds between the first and the last note of one start from which the timing of cables is shown."""

TIMED = (
    "Bytes and delay of the last note where all parts that pass a cable start together; the same with running status, "
    "which senders need not use; the share of the clock; thrus in a row before the cable's end."
)

SAFETY = (
    "Turn the volume all the way down before you plug or pull a cable.",
    "Power each box as its maker says, with the supply that its maker names.",
    "Never lift a safety earth to cure hum: use an isolator or balanced lines. "
    "Ask a qualified person about mains power; local codes apply.",
    "Turn up again slowly and mind the loudness, for your ears and for everyone's.",
)
"""What holds for every jam."""

NOTHING_TO_SET = "Nothing to set: everything stays where it stands."


def cables_section(jam: Jam, plan: Plan, width: int) -> list[str]:
    """The cables in plugging order, each with the parts it carries."""
    if not plan.cables:
        return ["No cable to plug."]
    return table(CABLE_HEADERS, cable_rows(jam, plan), width)


CABLE_HEADERS = ("no.", "cable", "from", "to", "carries")


def cable_rows(jam: Jam, plan: Plan) -> list[tuple[str, ...]]:
    """The number, kind and ends of each cable, and the parts that it carries."""
    return [
        (str(number), cable.kind, end_words(cable.source), end_words(cable.to), ", ".join(parts))
        for number, (cable, parts) in enumerate(zip(plan.cables, carried(jam, plan), strict=True), start=1)
    ]


SETTING_HEADERS = ("where", "what", "change", "stored by")


def settings_section(jam: Jam, plan: Plan, width: int) -> list[str]:
    """What to set, box by box."""
    lines: list[str] = []
    for box in jam.boxes:
        rows = [(*row, MEMORIES[stored]) for *row, stored in settings_of(jam, plan, box)]
        lines += _box_table(box, SETTING_HEADERS, rows, width, bool(lines))
    return lines or [NOTHING_TO_SET]


def stored_section(jams: Iterable[Jam], plans: Iterable[Plan], memory: Memory, width: int) -> list[str]:
    """What to set of all that boxes, or projects, store for these jams, box by box, each once."""
    pairs = list(zip(jams, plans, strict=True))
    lines: list[str] = []
    for box in pairs[0][0].boxes:
        rows = {row[:-1]: None for jam, plan in pairs for row in settings_of(jam, plan, box) if row[-1] == memory}
        lines += _box_table(box, SETTING_HEADERS[:3], list(rows), width, bool(lines))
    return lines or [NOTHING_TO_SET]


def _box_table(box: str, headers: Sequence[str], rows: Sequence[Sequence[str]], width: int, more: bool) -> list[str]:
    if not rows:
        return []
    return [*([""] if more else []), *wrap(f"On {box}:", width), *table(headers, rows, width)]


def settings_of(jam: Jam, plan: Plan, box: str) -> list[tuple[str, str, str, Memory]]:
    """What to set on a box: where, what, the change, and who stores it."""
    rows = [
        (f"{setting.of or ''} {setting.where}".strip(), setting.what, change_words(plan, setting), setting.stored)
        for setting in plan.settings
        if setting.box == box
    ]
    rows += kept_at_zero(jam, plan, box)
    places = list(dict.fromkeys(where for where, *_ in rows))
    return sorted(rows, key=lambda row: places.index(row[0]))


def kept_at_zero(jam: Jam, plan: Plan, box: str) -> list[tuple[str, str, str, Memory]]:
    """The effects that strips and engines with a part offer and nobody there wants."""
    return [
        (f"{of} {spot.name}", effect, "keep at 0", jam.rig.emitters[Emission(of, spot)].memory(effect))
        for (of, spot), effect in spare_effects(jam, plan)
        if spot.box == box
    ]


def parts_section(jam: Jam, plan: Plan, width: int) -> list[str]:
    """Where each part lives and who plays it; then where its sound goes and what is done to it."""
    if not plan.parts:
        return ["No part."]
    rows = part_rows(jam, plan)
    return [
        *table(PART_HEADERS[:4], [row[:4] for row in rows], width),
        "",
        *table((PART_HEADERS[0], *PART_HEADERS[4:]), [(row[0], *row[4:]) for row in rows], width),
    ]


PART_HEADERS = ("part", "engine", "played by track", "channel", "leaves by", "enters strips", "effects")


def part_rows(jam: Jam, plan: Plan) -> list[tuple[str, ...]]:
    """Of each part: where it lives, who plays it, where its sound goes and what is done to it."""
    return [
        (
            name,
            part.engine,
            part.track,
            channel_words(part.channel),
            outlet_words(jam, part),
            strip_words(plan, part),
            effect_words(plan, part),
        )
        for name, part in plan.parts.items()
    ]


def silence_section(jam: Jam, plan: Plan, width: int, memories: Collection[Memory] = ("box", "project")) -> list[str]:
    """Engines without a part that must be kept from sounding, and how, where one of these stores it."""
    lines: list[str] = []
    busy = {part.engine for part in plan.parts.values()}
    told = [setting for setting in plan.settings if setting.of == "engine" and setting.stored in memories]
    moved = {str(Spot(setting.box, setting.where)): setting.value for setting in told if setting.what == "channel"}
    zero = {str(Spot(setting.box, setting.where)) for setting in told if setting.what == "level"}
    for spot in map(str, jam.rig.engines):
        if spot in busy:
            continue
        ways = []
        if spot in moved:
            off = moved[spot] == "off"
            ways.append("switch its channel off" if off else f"move it out of the way, to channel {moved[spot]}")
        if spot in zero:
            ways.append("turn its level down to zero")
        if ways:
            lines += wrap(f"{spot}: {', and '.join(ways)}.", width, "- ", "  ")
    return lines or ["None: every engine without a part stays silent as it stands."]


def sounds_section(jam: Jam, plan: Plan, width: int) -> list[str]:
    """Projects to recall, sounds to lay ready by hand, and sounds that a program change brings."""
    lines = points((*(recall_words(plan, box, slot) for box, slot in jam.recall.items()), *_unsaved(plan)), width)
    by_program = jam.parts_of(Program)
    for name, part in jam.parts.items():
        where = f"{name} ({plan.parts[name].engine})" if name in plan.parts else name
        turns = listed(part.sounds)
        if name in by_program:
            in_order = f", in this order: {turns}" if part.sounds else ""
            lines += wrap(f"{where}: switched by program change{in_order}.", width, "- ", "  ")
        elif part.sounds:
            lines += wrap(f"{where}: by hand. Prepare in advance, in this order: {turns}.", width, "- ", "  ")
    return lines or ["Nothing to prepare."]


def recall_words(plan: Plan, box: str, slot: str) -> str:
    """What to recall on a box, and the name by which its screen shows it."""
    name = f" (project name {plan.recall[box].name})" if box in plan.recall else ""
    return f"Recall on {box}: {slot}{name}."


def _unsaved(plan: Plan) -> Iterator[str]:
    """Boxes that show project names and have no slot for the jam, by the name to save it under."""
    boxes: dict[str, list[str]] = {}
    for box, saved in plan.recall.items():
        if saved.slot is None:
            boxes.setdefault(saved.name, []).append(box)
    for name, named in boxes.items():
        yield f"Save on {listing(named)} as {name}: [recall] names no slot there."


TIMING_HEADERS = ("cable", "notes", "bytes, late", "running", "clock", "thrus")


def timing_section(plan: Plan, width: int) -> list[str]:
    """How long serial MIDI cables take; nothing where none is halfway to a caution."""
    rows = timing_rows(plan)
    return [*table(TIMING_HEADERS, rows, width), "", *wrap(TIMED, width)] if rows else []


def timing_rows(plan: Plan) -> list[tuple[str, ...]]:
    """What each serial MIDI cable takes; nothing where none is halfway to a caution."""
    if not any(cable.late_ms > WORTH_TELLING or cable.thrus >= MOST_THRUS - 1 for cable in plan.timing):
        return []
    numbers = {(cable.source, cable.to): f"{number}, " for number, cable in enumerate(plan.cables, start=1)}
    return [
        (
            f"{numbers.get((cable.source, cable.to), '')}to {cable.to}",
            str(cable.notes),
            f"{cable.bytes}, {_late(cable.late_ms)}",
            f"{cable.running_bytes}, {_late(cable.running_late_ms)}",
            f"{cable.clock_percent:.1f}{NO_BREAK}%" if cable.clock_percent else "-",
            str(cable.thrus),
        )
        for cable in plan.timing
    ]


def _late(milliseconds: float) -> str:
    return f"{milliseconds:.1f}{NO_BREAK}ms"


def cautions_section(plan: Plan, width: int) -> list[str]:
    """What to mind with this plan, then what to mind with any."""
    return points((*plan.cautions, *SAFETY), width)


def points(sentences: Iterable[str], width: int) -> list[str]:
    """Sentences as a list."""
    return [line for sentence in sentences for line in wrap(sentence, width, "- ", "  ")]
