"""Steps at knobs and in menus: settings that move, amounts of effects, and engines that are kept silent."""

from collections.abc import Iterator

from solver.flow.settings import MOVED, spare_effects
from solver.gear.box import Memory
from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan, Setting
from solver.set_plans import SetPlan
from solver.sheet.sections import SETTING_HEADERS
from solver.sheet.step import ARROW, Group, Label, Name, New, Step, Words, names
from solver.sheet.words import MEMORIES, change_words, value_pair

_BOX_BY_BOX = (*MOVED, "shift")
"""What is set box by box, before any amount of an effect."""

_HEADERS = ("box", *SETTING_HEADERS)


def settings_by_box(jam: Jam, plan: Plan) -> Iterator[Group]:
    """A group for each box: what is set there, from its old value to its new one. Engines without a part wait."""
    for box in jam.boxes:
        here = (one for one in plan.settings if one.box == box and one.what in _BOX_BY_BOX)
        steps = tuple(_turn(plan, one) for one in here if not _quiets(plan, one))
        yield Group(("Settings on ", Name(box)), steps, _HEADERS)


def stored_by_box(of: JamSet, plan: SetPlan) -> Iterator[Group]:
    """A group for each box with what it stores for all jams of a set, each once, as the first jam has it."""
    for box in of.boxes:
        steps: dict[tuple[str, ...], Step] = {}
        for file, jam in of.jams.items():
            own = plan.jams[file]
            for step in (
                *(_turn(own, one) for one in own.settings if one.box == box and one.stored == "box"),
                *_kept_at_zero(jam, own, box, "box"),
            ):
                steps.setdefault(step.cells[:3], step._replace(note=()))
        if steps:
            yield Group(("Once, for all jams, on ", Name(box)), tuple(steps.values()), _HEADERS)


def effect_amounts(jam: Jam, plan: Plan, memory: Memory | None = None) -> Group:
    """The amounts of effects, box by box, those that stay at 0 among them, of one memory or of both."""
    steps: list[Step] = []
    for box in jam.boxes:
        wanted = (one for one in plan.settings if one.box == box and one.what not in _BOX_BY_BOX)
        steps += [_turn(plan, one, Name(box), " ") for one in wanted]
        steps += _kept_at_zero(jam, plan, box, memory)
    return Group(("Effect amounts",), tuple(steps), _HEADERS)


def _kept_at_zero(jam: Jam, plan: Plan, box: str, memory: Memory | None = None) -> Iterator[Step]:
    """A step for each strip and engine with effects that nobody there wants."""
    spare: dict[Emission, list[str]] = {}
    for emitter, effect in spare_effects(jam, plan):
        if emitter.spot.box == box and memory in (None, jam.rig.emitters[emitter].memory(effect)):
            spare.setdefault(emitter, []).append(effect)
    for emitter, effects in spare.items():
        of, spot = emitter
        stay = " stays at " if len(effects) == 1 else " stay at "
        does = (Name(box), f" {of} ", Label(spot.name), ": ", *names(effects), stay, New("0"))
        stored = ", ".join(dict.fromkeys(MEMORIES[jam.rig.emitters[emitter].memory(effect)] for effect in effects))
        cells = (box, f"{of} {spot.name}", ", ".join(effects), "keep at 0", stored)
        yield Step(does, _note(_parts_at(plan, of, str(spot)), stored), cells)


def silences(jam: Jam, plan: Plan) -> Group:
    """What keeps an engine without a part from sounding."""
    here = (one for box in jam.boxes for one in plan.settings if one.box == box and _quiets(plan, one))
    return Group(
        ("Engines to keep silent",),
        tuple(_turn(plan, one, Name(one.box), " ") for one in here),
        _HEADERS,
    )


def _quiets(plan: Plan, setting: Setting) -> bool:
    """Whether a setting is of an engine on which no part lives."""
    return setting.of == "engine" and not _parts_at(plan, "engine", str(Spot(setting.box, setting.where)))


def _parts_at(plan: Plan, of: str | None, spot: str) -> list[str]:
    """The parts on an engine, played by a track, or passing a strip."""
    box, name = Spot.parse(spot)
    return [
        part
        for part, planned in plan.parts.items()
        if (of == "engine" and planned.engine == spot)
        or (of == "track" and planned.track == spot)
        or (of == "strip" and name in (planned.strips or {}).get(box, ()))
    ]


def _place(setting: Setting) -> str:
    return f"{setting.of or ''} {setting.where}".strip()


def _turn(plan: Plan, setting: Setting, *lead: str) -> Step:
    old, new = value_pair(plan, setting)
    moved: Words = (New(new),) if old is None else (Name(old), ARROW, New(new))
    does = (*lead, f"{setting.of} ", Label(setting.where), ": ", Name(setting.what), " ", *moved)
    change, stored = change_words(plan, setting), MEMORIES[setting.stored]
    parts = _parts_at(plan, setting.of, str(Spot(setting.box, setting.where)))
    cells = (setting.box, _place(setting), setting.what, change, stored)
    return Step(does, _note(parts, stored), cells)


def _note(parts: list[str], stored: str) -> Words:
    return (*names(parts), f"{' · ' if parts else ''}stored by {stored}")
