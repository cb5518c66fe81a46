"""How counts, times, places and amounts are said."""

import math
from collections.abc import Iterable, Mapping

from solver.flow.wires import is_midi, sockets
from solver.gear.words import DUCKING, Channel, Pan, Spot
from solver.jam.jam import Jam
from solver.plans import Cable, Ends, Plan, PlannedPart, Setting, Treated
from solver.sheet.cells import NO_BREAK

SIDES: dict[Pan, str] = {"left": "left side", "centre": "both sides", "right": "right side"}

MEMORIES = {"box": "box: once for all projects", "project": "project"}

_SECONDS = (1, 3, 10, 30)


def spans(numbers: Iterable[int]) -> list[str]:
    """Numbers with runs of three or more put together: ``["1", "3 to 9"]``."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return [word for run in runs for word in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run))]


def time_taken(seconds: float) -> str:
    """A time in steps so coarse that two runs over the same files say the same."""
    for step in _SECONDS:
        if seconds < step:
            return f"less than {step} seconds" if step > 1 else "less than a second"
    minutes = math.floor(seconds / 60) + 1
    return f"less than {minutes} minutes" if minutes > 1 else "less than a minute"


def listed(names: Iterable[str]) -> str:
    """Names side by side, or a dash for none."""
    return ", ".join(names) or "-"


def end_words(ends: Ends) -> str:
    """Where one end of a cable goes."""
    return ends if isinstance(ends, str) else f"left {ends[0]}, right {ends[1]}"


def cable_words(cable: Cable) -> str:
    """One cable on one line."""
    return f"{cable.kind}: {end_words(cable.source)} -> {end_words(cable.to)}"


def channel_words(channel: Channel | None) -> str:
    """The channel of a track, "nothing sent out" where it keeps its notes to itself."""
    if channel is None or channel == "off":
        return "nothing sent out"
    return str(channel)


def outlet_words(jam: Jam, part: PlannedPart) -> str:
    """The outlet that a part leaves its own box by, and the side of it."""
    spot = Spot(Spot.parse(part.engine).box, part.outlet)
    return str(spot) if jam.rig.outlets[spot].sides == ("mono",) else f"{spot}, {SIDES[part.pan]}"


def strip_words(plan: Plan, part: PlannedPart) -> str:
    """The strips that a part passes, box by box, in the order in which the sound meets them."""
    passed = sorted((part.strips or {}).items(), key=lambda strips: _depth(plan, strips[0]))
    return "; ".join(f"{box}: {listed(names)}" for box, names in passed if names) or "-"


def _depth(plan: Plan, box: str, below: frozenset[str] = frozenset()) -> int:
    """How many boxes sound passes at most before it comes to this one."""
    before = {
        start.box
        for cable in plan.cables
        if not is_midi(cable) and any(end.box == box for end in sockets(cable.to))
        for start in sockets(cable.source)
    }
    return max((1 + _depth(plan, other, below | {box}) for other in before - below - {box}), default=0)


def amount_words(effect: str, amount: int | str, key: str | None) -> str:
    """An effect's amount; that of ducking names what triggers it."""
    said = f"{amount}{NO_BREAK}%" if isinstance(amount, int) else amount
    return f"{said}, key {key}" if effect == DUCKING and key is not None else said


def effect_words(plan: Plan, part: PlannedPart) -> str:
    """The effects that a part passes on its whole way, and its shift."""
    passed: list[Treated] = [plan.engines[part.engine]] if part.engine in plan.engines else []
    passed += [
        plan.strips[str(Spot(box, name))]
        for box, names in (part.strips or {}).items()
        for name in names
        if str(Spot(box, name)) in plan.strips
    ]
    said = [
        f"{effect} {amount_words(effect, amount, thing.key)}"
        for thing in passed
        for effect, amount in thing.settings.items()
        if amount > 0
    ]
    engine = plan.engines.get(part.engine)
    if engine is not None and engine.shift:
        said.append(f"shift {shift_words(engine.shift)}")
    return "; ".join(dict.fromkeys(said)) or "-"


def shift_words(semitones: int | str) -> str:
    """``-12 semitones``, ``+1 semitone``."""
    if isinstance(semitones, str):
        return semitones
    return f"{semitones:+d}{NO_BREAK}{'semitone' if abs(semitones) == 1 else 'semitones'}"


def value_words(setting: Setting, value: int | str, treated: Mapping[str, Treated]) -> str:
    """One value of a setting, in the words of its kind."""
    if setting.what == "channel":
        return "all channels" if value == "all" else str(value)
    if setting.what == "shift":
        return shift_words(value)
    if setting.what in ("pan", "outlet", "level"):
        return str(value)
    thing = treated.get(str(Spot(setting.box, setting.where)))
    return amount_words(setting.what, value, thing.key if thing is not None else None)


def value_pair(plan: Plan, setting: Setting) -> tuple[str | None, str]:
    """The old value of a setting, None for a wanted amount, and its new one."""
    treated: Mapping[str, Treated] = plan.strips if setting.of == "strip" else plan.engines
    old = None if setting.was is None else value_words(setting, setting.was, {})
    return old, value_words(setting, setting.value, treated)


def change_words(plan: Plan, setting: Setting) -> str:
    """What to do with a setting: ``5 -> 3`` where it moves, ``set 30 %`` where an amount is wanted."""
    old, new = value_pair(plan, setting)
    return f"set {new}" if old is None else f"{old} -> {new}"
