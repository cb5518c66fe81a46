"""Turns the choices that hold into a plan, spread out over the named engines and strips."""

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import Any, Literal

from solver.flow.settings import goals, settings
from solver.gear.cables import Kind
from solver.gear.rig import Emission
from solver.gear.words import PANS, Channel, Pan, Spot
from solver.jam.intents import Layer
from solver.plans import Cable, Plan, PlannedEngine, PlannedPart, PlannedStrip
from solver.search.choices import Choices
from solver.search.ground import Place
from solver.search.model import Lit
from solver.search.near import feeds, seated


def plan_from(
    choices: Choices, holds: Callable[[Lit], bool], proof: Mapping[str, bool], near: Plan | None = None
) -> Plan:
    """The plan in which those choices hold that ``holds`` says, without its cautions.

    What is alike is spread out so that as much as can be stays where it is in the plan ``near``.
    """
    spread, jam = _Spread(choices, holds, near), choices.jam
    plan = Plan(
        title=jam.title,
        status="proved" if all(proof.values()) else "found",
        proof=dict(proof),
        cables=(*spread.audio(), *spread.midi()),
        parts={part: spread.part(part) for part in jam.parts},
        strips={str(real): spread.strip(strip) for strip, real in spread.strips.items() if spread.leads_out(strip)},
        engines={str(engine): spread.engine(engine) for engine in jam.rig.engines},
    )
    plan = plan.model_copy(update={"settings": settings(jam, plan)})
    return plan.model_copy(update={"goals": goals(plan)})


class _Spread:
    """Gives each choice its names: parts of a stack take its engines in file order, feeders take alike strips."""

    def __init__(self, choices: Choices, holds: Callable[[Lit], bool], near: Plan | None) -> None:
        self._choices = choices
        self._jam = choices.jam
        self._holds = holds
        self._near = near

    @cached_property
    def homes(self) -> dict[str, Spot]:
        """The engine of each part."""
        found: dict[str, Spot] = {}
        for engine, stack in self._choices.table.stacks.items():
            tenants = [part for part in self._jam.parts if self._holds(self._choices.lives(part, engine))]
            found |= seated(tenants, stack, [{part: [home] for part, home in self._old_homes.items()}])
        return found

    @cached_property
    def _old_homes(self) -> dict[str, Spot]:
        """The engine of each part in the plan to be near to."""
        parts = self._near.parts if self._near is not None else {}
        return {name: Spot.parse(part.engine) for name, part in parts.items()}

    @cached_property
    def _units(self) -> dict[Spot, tuple[Spot, Spot]]:
        """The real strip and jack for each stand-in that is in use."""
        choices, holds = self._choices, self._holds
        found: dict[Spot, tuple[Spot, Spot]] = {}
        kinds = {cable.end: cable.kind for cable in choices.wires.audio if holds(cable.given)}
        fed = feeds(self._near) if self._near is not None else {}
        for shelf in choices.table.shelves:
            used = [jack for jack in shelf.stand_ins if holds(choices.wires.plugged(jack))]
            known = {unit: fed[unit.jack] for unit in shelf.units if unit.jack in fed}
            same, freed = {}, {}
            for jack in used:
                start, side = shelf.stand_ins[jack]
                place = self._choices.rig.jacks[start].jack.sides.index(side)
                same[jack] = [unit for unit, feed in known.items() if (feed.start, feed.place) == (start, place)]
                freed[jack] = [unit for unit, feed in known.items() if feed.kind == kinds.get(jack)]
            found |= seated(used, shelf.units, [same, freed])
        return found

    @cached_property
    def strips(self) -> dict[Spot, Spot]:
        """The strips that carry a part and their real ones, in file order."""
        order = {strip: place for place, strip in enumerate(self._jam.rig.strips)}
        voices = self._choices.voices
        carrying = {
            strip: self._units[strip][0] if strip in self._units else strip
            for strip in self._choices.rig.strips
            if any(self._holds(voices.enters(voice, strip)) for voice in voices.every)
        }
        return dict(sorted(carrying.items(), key=lambda pair: order[pair[1]]))

    @cached_property
    def _channels(self) -> dict[str, Channel]:
        """The channel that each part's track sends on."""
        return {
            part: next(o for o in self._choices.track_options if self._holds(self._choices.sends(layer, o)))
            for layer in self._jam.layers
            for part in layer
        }

    def _jack(self, jack: Spot) -> Spot:
        return self._units[jack][1] if jack in self._units else jack

    def audio(self) -> list[Cable]:
        """The audio cables in the order of the jacks that send."""
        wires, holds = self._choices.wires, self._holds
        found = [(c.start, _cable(c.kind, c.start, self._jack(c.end))) for c in wires.audio if holds(c.given)]
        for cable in wires.breakouts:
            if holds(cable.given):
                left, right = (next(self._jack(end) for end, lit in leg.items() if holds(lit)) for leg in cable.legs)
                ends = (cable.single, (left, right)) if cable.sends else ((left, right), cable.single)
                found.append((cable.single if cable.sends else left, _cable(cable.kind, *ends)))
        order = {jack: place for place, jack in enumerate(self._jam.rig.jacks)}
        return [cable for _, cable in sorted(found, key=lambda pair: order[pair[0]])]

    def midi(self) -> list[Cable]:
        """The MIDI cables in the order of the ports that send."""
        return [_cable(c.kind, c.start, c.end) for c in self._choices.wires.leads if self._holds(c.given)]

    def part(self, part: str) -> PlannedPart:
        """Where a part lives and goes."""
        choices, channel = self._choices, self._channels[part]
        layer, home = self._jam.layer_of(part), self.homes[part]
        strips: dict[str, tuple[str, ...]] = {}
        for strip, real in self.strips.items():
            if self._holds(choices.enters(part, strip)):
                strips[real.box] = (*strips.get(real.box, ()), real.name)
        return PlannedPart(
            engine=str(home),
            track=str(next(track for track in choices.rig.tracks if self._holds(choices.plays(layer, track)))),
            channel=channel if isinstance(channel, int) else None,
            outlet=next(outlet.name for outlet in choices.ways(part) if self._holds(choices.leaves(part, outlet))),
            pan=next(pan for pan in PANS if self._holds(choices.panned(part, pan))),
            strips=strips,
        )

    def _treated(self, emitter: Emission) -> dict[str, Any]:
        choices = self._choices
        wanted = {want.effect for want in self._jam.wanted if self._holds(choices.passes(want.part, emitter))}
        amounts = {
            effect: next((amount for amount, lit in choices.amounts(emitter, effect).items() if self._holds(lit)), 0)
            for effect in choices.rig.emitters[emitter].offers
            if effect in wanted
        }
        key = next((part for part, lit in choices.keys(emitter).items() if self._holds(lit)), None)
        return {"settings": amounts, "key": key}

    def leads_out(self, strip: Spot) -> bool:
        """Whether the strip has an outlet; else nothing is set on it."""
        return bool(self._choices.rig.ways_out(Emission("strip", strip)))

    def strip(self, strip: Spot) -> PlannedStrip:
        """How a strip is set."""
        choices, ways = self._choices, self._choices.rig.ways_out(Emission("strip", strip))
        outlet = next(way.name for way in ways if self._holds(choices.emits(strip, way)))
        pan: Pan = next(pan for pan in PANS if self._holds(choices.pans(strip, pan)))
        return PlannedStrip(outlet=outlet, pan=pan, **self._treated(Emission("strip", strip)))

    def engine(self, engine: Spot) -> PlannedEngine:
        """How an engine is set, with or without a part."""
        part = next((part for part, home in self.homes.items() if home == engine), None)
        channel, level = self._tuned(engine, part)
        shifts = [intent.shift[part] for _, intent in self._jam.stated(Layer) if part in intent.shift]
        emitter = Emission("engine", engine)
        treated = self._treated(emitter) if engine in self._choices.rig.engines else {}
        return PlannedEngine(channel=channel, level=level, shift=shifts[0] if shifts else 0, **treated)

    def _tuned(self, engine: Spot, part: str | None) -> tuple[Channel, Literal["up", "zero"]]:
        """The channel and level of an engine: out of the way of every note that is not its own."""
        gear, holds = self._jam.rig.engines[engine], self._holds
        place = Place("engine", engine, "channel")
        if self._choices.is_tied(place):
            channel = next(option for option in gear.options if holds(self._choices.state(place, option)))
            return channel, "zero" if holds(self._choices.at_zero(engine)) else "up"
        inside = [layer for layer in self._jam.layers if holds(self._choices.plays_inside(layer, engine))]
        if part is not None and self._jam.layer_of(part) not in inside:
            return ("all" if gear.channels == "all" else self._channels[part]), "up"
        if part is None and inside:
            return gear.stands, "zero"
        struck = {
            self._channels[layer[0]] for layer in self._jam.layers if holds(self._choices.arrives(layer, engine.box))
        }
        if gear.stands not in struck and not (gear.stands == "all" and struck):
            return gear.stands, "up"
        quiet = [o for o in self._jam.quiet_options(gear) if o not in struck and not (o == "all" and struck)]
        return (quiet[-1] if "off" in quiet else quiet[0], "up") if quiet else (gear.stands, "zero")


def _cable(kind: Kind, start: Spot | tuple[Spot, Spot], end: Spot | tuple[Spot, Spot]) -> Cable:
    def named(ends: Spot | tuple[Spot, Spot]) -> str | list[str]:
        return str(ends) if isinstance(ends, Spot) else [str(end) for end in ends]

    return Cable.model_validate({"kind": kind, "from": named(start), "to": named(end)})
