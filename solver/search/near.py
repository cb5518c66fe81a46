"""What a new plan keeps of the plan in use: the plugs that stay where they are, then whatever else can stay."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator, Mapping, Sequence
from typing import NamedTuple, TypeVar

from solver.flow.wires import sockets
from solver.gear.cables import Kind
from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.plans import Cable, Plan, Treated
from solver.search.choices import Choices
from solver.search.goals import out_of_the_way
from solver.search.ground import Place
from solver.search.model import NO, YES, Lit

G = TypeVar("G", bound=Hashable)
S = TypeVar("S")


def moved_plugs(choices: Choices, plan: Plan) -> list[Lit]:
    """Every plug of the plan in use that does not stay where it is counts one.

    An old cable may become at most one new cable of its kind, and the other way round; it keeps the plugs that the two
    have in common.
    """
    model = choices.model
    becoming: dict[Lit, list[Lit]] = defaultdict(list)
    moved: list[Lit] = []
    for old in plan.cables:
        plugs = [_seen(choices, plug) for plug in (*sockets(old.source), *sockets(old.to))]
        stays: list[list[Lit]] = [[] for _ in plugs]
        turns: list[Lit] = []
        for given, common in _new(choices, old, plugs):
            if any(lit != NO for lit in common):
                turn = model.new()
                model.implies(turn, given)
                turns.append(turn)
                becoming[given].append(turn)
                for lits, lit in zip(stays, common, strict=True):
                    lits.append(model.both(turn, lit))
        model.at_most_one(turns)
        moved += [-model.either(lits) for lits in stays]
    for turns in becoming.values():
        model.at_most_one(turns)
    return moved


def changed(choices: Choices, plan: Plan) -> list[Lit]:
    """Everything besides plugs that is not as in the plan in use counts one.

    That is a part's engine, outlet, pan, strips, track and channel; the outlet, pan and amounts of what treats it; and
    every engine that has to get out of the way.
    """
    jam, rig = choices.jam, choices.rig
    stacks = {str(engine): head for head, stack in choices.table.stacks.items() for engine in stack}
    same: list[Lit] = []
    for part in jam.parts:
        planned = plan.parts.get(part)
        if planned is None:
            continue
        home = stacks.get(planned.engine)
        same += [] if home is None else [choices.lives(part, home)]
        outlet = Spot(Spot.parse(planned.engine).box, planned.outlet)
        same += [choices.leaves(part, outlet), choices.panned(part, planned.pan)]
        passed = (Spot(box, name) for box, names in (planned.strips or {}).items() for name in names)
        same += [choices.enters(part, strip) for strip in passed if strip in rig.strips]
        layer, track = jam.layer_of(part), Spot.parse(planned.track)
        same += [choices.plays(layer, track)] if track in rig.tracks else []
        same += [choices.sends(layer, planned.channel or "off")]
    for name, strip in plan.strips.items():
        spot = Spot.parse(name)
        if spot in rig.strips:
            ways = rig.ways_out(Emission("strip", spot))
            same += [choices.emits(spot, Spot(spot.box, strip.outlet))] if ways else []
            same += [choices.pans(spot, strip.pan)]
    tuned = (Place("engine", engine, "channel") for engine in rig.engines if str(engine) in plan.engines)
    same += [choices.state(place, plan.engines[str(place.spot)].channel) for place in tuned if choices.is_tied(place)]
    treated: dict[Emission, Treated] = {Emission("strip", Spot.parse(name)): one for name, one in plan.strips.items()}
    treated |= {Emission("engine", Spot.parse(name)): one for name, one in plan.engines.items()}
    for emitter, thing in treated.items():
        same += [choices.amounts(emitter, effect).get(amount, NO) for effect, amount in thing.settings.items()]
    homes = {part.engine for part in plan.parts.values()}
    away = {
        engine
        for engine, gear in choices.jam.rig.engines.items()
        for was in [plan.engines.get(str(engine))]
        if was is not None and str(engine) not in homes and (was.channel != gear.stands or was.level == "zero")
    }
    already = {head: len(away.intersection(stack)) for head, stack in choices.table.stacks.items()}
    return [*(-lit for lit in same if lit not in (YES, NO)), *out_of_the_way(choices, already)]


class Feed(NamedTuple):
    """What feeds a jack: a kind of cable, the jack that it comes from, and which of its legs it is, counted from 0."""

    kind: Kind
    start: Spot
    place: int


def feeds(plan: Plan) -> dict[Spot, Feed]:
    """What feeds each jack or port at the far end of a cable."""
    return {
        end: Feed(cable.kind, sockets(cable.source)[0], place)
        for cable in plan.cables
        for place, end in enumerate(sockets(cable.to))
    }


def seated(guests: Sequence[G], seats: Sequence[S], wishes: Sequence[Mapping[G, Sequence[S]]]) -> dict[G, S]:
    """A seat for each guest: by the first wishes, then by the next for those who have none, else the first free one.

    Args:
        guests: Who is to sit; no more than there are seats.
        seats: What there is to sit on, in order.
        wishes: For each round, the seats that a guest would like.
    """
    found: dict[G, S] = {}
    free = list(seats)
    for liked in (*wishes, dict.fromkeys(guests, seats)):
        for guest in guests:
            seat = next((seat for seat in liked.get(guest, ()) if seat in free), None)
            if guest not in found and seat is not None:
                found[guest] = seat
                free.remove(seat)
    return {guest: found[guest] for guest in guests}


Seen = Spot | int


def _seen(choices: Choices, jack: Spot) -> Seen:
    """A jack, or the number of its shelf where it belongs to strips that are alike."""
    return choices.table.shelf_of.get(jack, jack)


def _new(choices: Choices, old: Cable, plugs: Sequence[Seen]) -> Iterator[tuple[Lit, list[Lit]]]:
    """Every cable of the same kind that could be plugged, and for each old plug, whether it has one there, too."""
    wires = choices.wires
    for cable in (*wires.audio, *wires.leads):
        if cable.kind == old.kind:
            ends = {_seen(choices, cable.start), _seen(choices, cable.end)}
            yield cable.given, [YES if plug in ends else NO for plug in plugs]
    for breakout in wires.breakouts:
        if breakout.kind == old.kind and breakout.sends == isinstance(old.source, str) and len(plugs) == 3:
            legs = [{_seen(choices, end): lit for end, lit in leg.items()} for leg in breakout.legs]
            single, *others = plugs if breakout.sends else (plugs[2], *plugs[:2])
            common = [YES if single == breakout.single else NO]
            common += [leg.get(plug, NO) for leg, plug in zip(legs, others, strict=True)]
            yield breakout.given, common
