"""What hands do, in the order in which they do it: from the volume down to the volume up, a step at a time."""

from collections.abc import Collection, Iterator, Sequence

from solver.flow.wires import is_midi
from solver.gear.box import Memory
from solver.gear.words import Spot
from solver.jam.intents import Program
from solver.jam.jam import Jam
from solver.plans import Cable, Ends, Plan
from solver.sheet.cells import NO_BREAK
from solver.sheet.sections import CABLE_HEADERS, cable_rows
from solver.sheet.starts import level_steps
from solver.sheet.step import ARROW, Group, Label, Name, New, Place, Step, Words, names, places
from solver.sheet.turns import effect_amounts, settings_by_box, silences
from solver.sheet.words import SIDES


def groups(jam: Jam, plan: Plan) -> tuple[Group, ...]:
    """Every step of a plan, in groups; a group without a step is left out.

    Args:
        jam: what the plan is for.
        plan: one that has been completed: every cable and setting of it is one step.
    """
    on = Group(("Switch on",), (*switching_on(), *recalling(jam, plan)))
    return (*plugging(jam, plan.cables, cable_rows(jam, plan)), on, *setting_up(jam, plan))


def plugging(jam: Jam, cables: Sequence[Cable], rows: Sequence[tuple[str, ...]]) -> tuple[Group, ...]:
    """What comes before any plug, then the cables; ``rows`` say the same of each as a table does."""
    return _with_steps(
        Group(("Before you plug",), tuple(_before(jam))),
        Group(("Audio cables",), tuple(_cables(cables, rows, midi=False)), CABLE_HEADERS),
        Group(("MIDI cables",), tuple(_cables(cables, rows, midi=True)), CABLE_HEADERS),
    )


def setting_up(jam: Jam, plan: Plan, memory: Memory | None = None, unsaved: Collection[str] = ()) -> tuple[Group, ...]:
    """What is set and tried once the cables are in.

    Args:
        jam: what the plan is for.
        plan: one that has been completed.
        memory: whose effects at 0 are told: those that the box stores, or the project; None for both.
        unsaved: boxes on which nothing is saved, for the project there is another jam's.
    """
    return _with_steps(
        *settings_by_box(jam, plan),
        effect_amounts(jam, plan, memory),
        Group(("Sounds to prepare",), tuple(_sounds(jam, plan))),
        silences(jam, plan),
        Group(("Level start points",), tuple(level_steps(jam, plan))),
        Group(("Line check, one part at a time",), tuple(_line_check(jam, plan))),
        Group(("Save and turn up",), tuple(_after(plan, unsaved))),
    )


def _with_steps(*found: Group) -> tuple[Group, ...]:
    return tuple(group for group in found if group.steps)


def _before(jam: Jam) -> Iterator[Step]:
    yield Step(("Turn the volume all the way down",), ("at ", Place(jam.listen), ", loudspeakers and headphones"))
    yield Step(("Switch off: loudspeakers first, then the boxes",), ("no plug moves under power",))


def _cables(cables: Sequence[Cable], rows: Sequence[tuple[str, ...]], midi: bool) -> Iterator[Step]:
    for cable, row in zip(cables, rows, strict=True):
        if is_midi(cable) is midi:
            number, kind, *_, parts = row
            carries: Words = (" · carries ", Name(parts)) if parts else ()
            does = (*_end(cable.source), ARROW, *_end(cable.to))
            yield Step(does, (f"{number}{NO_BREAK}· {kind}", *carries), row)


def _end(ends: Ends) -> Words:
    if isinstance(ends, str):
        return (Place(ends),)
    return ("left ", Place(ends[0]), ", right ", Place(ends[1]))


def switching_on() -> Iterator[Step]:
    """Power, once the cables are in."""
    yield Step(
        ("Switch on: the boxes first, loudspeakers last",),
        ("volume still down; each with the supply that its maker names",),
    )


def recalling(jam: Jam, plan: Plan) -> Iterator[Step]:
    """The projects to recall, with the names by which their screens show them."""
    for box, place in jam.recall.items():
        name = (f"project name {plan.recall[box].name}",) if box in plan.recall else ()
        yield Step(("Recall on ", Name(box), ": ", New(place)), name)


def _sounds(jam: Jam, plan: Plan) -> Iterator[Step]:
    by_program = jam.parts_of(Program)
    for name, part in jam.parts.items():
        turn: Words = names(part.sounds) if part.sounds else ()
        where: Words = ("on ", Place(plan.parts[name].engine)) if name in plan.parts else ()
        if name in by_program:
            told: Words = (", in this order: ", *turn) if turn else ()
            yield Step((Name(name), ": sounds that a program change brings"), (*where, *told))
        elif turn:
            yield Step((Name(name), ": lay ready, to switch by hand: ", *turn), where)


def _line_check(jam: Jam, plan: Plan) -> Iterator[Step]:
    if plan.parts:
        yield Step(("Turn the volume up just so far that you hear",), ("then play one part alone, and the next",))
    for name, part in plan.parts.items():
        box = Spot.parse(part.engine).box
        entered = [str(Spot(at, strip)) for at, strips in (part.strips or {}).items() for strip in strips]
        heard: Words = (": heard over ", *places(entered)) if entered else (": heard inside ", Name(box))
        played: Words = ("played by ", Place(part.track))
        if part.channel is not None:
            played = (*played, f", channel {part.channel}")
        mono = jam.rig.outlets[Spot(box, part.outlet)].sides == ("mono",)
        side: Words = () if mono or part.pan == "centre" else (f", {SIDES[part.pan]} of ", Label(part.outlet))
        yield Step((Name(name), *heard), (*played, " · sound of ", Place(part.engine), *side))


def _after(plan: Plan, unsaved: Collection[str]) -> Iterator[Step]:
    kept = dict.fromkeys(setting.box for setting in plan.settings if setting.stored == "project")
    kept = {box: None for box in kept if box not in unsaved}
    if kept:
        yield Step(("Save the project on ", *names(kept)), ("a setting that is not saved is gone with the power",))
    yield Step(("Turn the volume up slowly",), ("mind everybody's ears",))
