"""Rules of where sound goes: outlets and pans, what cables carry, and no loops."""

from collections.abc import Iterator
from itertools import product

from solver.flow.claims import Cause, differences
from solver.flow.followed import Followed
from solver.flow.loops import loops
from solver.flow.wires import is_midi, sockets
from solver.flow.wording import listing
from solver.gear.rig import Emission, Rig
from solver.gear.words import PANS, Spot
from solver.plans import PlannedPart, PlannedStrip
from solver.rules.rule import Rule
from solver.search.choices import Choices
from solver.search.model import YES
from solver.search.voices import Place, Voice


class Outlets(Rule):
    """A2."""

    id = "A2"
    sentence = "An engine or strip goes to one outlet that it can reach, at a pan that it has."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """Each voice and each strip goes to one outlet at one pan; what mirrors an outlet carries the same."""
        rig, model = choices.rig, choices.model
        for voice in choices.voices.every:
            _leave(choices, voice)
        for strip in rig.strips:
            emitter = Emission("strip", strip)
            if rig.ways_out(emitter):
                model.exactly_one(choices.emits(strip, outlet) for outlet in rig.ways_out(emitter))
            model.exactly_one(choices.pans(strip, pan) for pan in rig.pans(emitter))
            for outlet in rig.ways_out(emitter):
                _pass_on(choices, strip, outlet)
        for outlet, gear in rig.outlets.items():
            if gear.mirrors is not None:
                mirrored = Spot(outlet.box, gear.mirrors)
                for start, end in product(rig.outlets[mirrored].sides, gear.sides):
                    if start == end or "mono" in (start, end):
                        choices.voices.sound.edge(Place("outlet", mirrored, start), Place("outlet", outlet, end), YES)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield outlets that cannot be reached and pans that are not there."""
        for part, planned in followed.parts.items():
            emitter = Emission("engine", followed.homes[part])
            yield from _wrong_way(followed.rig, emitter, planned, f"{planned.engine} with {part}")
        for name, strip in followed.plan.strips.items():
            yield from _wrong_way(followed.rig, Emission("strip", Spot.parse(name)), strip, name)


def _wrong_way(rig: Rig, emitter: Emission, planned: PlannedPart | PlannedStrip, what: str) -> Iterator[str]:
    outlet, ways, pans = Spot(emitter.spot.box, planned.outlet), rig.ways_out(emitter), rig.pans(emitter)
    if outlet not in ways:
        yield f"{what} goes to {outlet}, it can go to {listing(ways)}"
    if planned.pan not in pans:
        yield f"{what} is panned {planned.pan}, it stays at {listing(pans)}"


def _leave(choices: Choices, voice: Voice) -> None:
    """A voice in use leaves by an outlet and at a pan of its engines."""
    model, voices = choices.model, choices.voices
    unused = -voices.used(voice)
    at = {pan: voices.panned(voice, pan) for pan in PANS}
    model.exactly_one([unused, *(voices.leaves(voice, outlet) for outlet in voices.ways(voice))])
    model.exactly_one([unused, *at.values()])
    for outlet, signal in product(voices.ways(voice), voices.signals(voice)):
        for side in choices.rig.outlets[outlet].sides:
            lands = model.both(voices.leaves(voice, outlet), choices.lands(at, signal.half, side))
            voices.sound.source(signal, Place("outlet", outlet, side), lands)


def _pass_on(choices: Choices, strip: Spot, outlet: Spot) -> None:
    """A strip passes what enters it to an outlet at its pan."""
    inlet, taken = choices.rig.feed(strip)
    for start, side in product(taken, choices.rig.outlets[outlet].sides):
        given = choices.passes_on(strip, start, outlet, side)
        choices.voices.sound.edge(Place("inlet", inlet, start), Place("outlet", outlet, side), given)


class CablesCarry(Rule):
    """A3."""

    id = "A3"
    sentence = "A cable carries all that is on the sides it is plugged to."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """Outlets feed their jacks, cables pass from jack to jack, jacks feed their inlets."""
        for jack, socket in choices.rig.jacks.items():
            for side in socket.jack.sides:
                plug = Place("jack", jack, side)
                if socket.sends:
                    choices.voices.sound.edge(Place("outlet", socket.connection, side), plug, YES)
                else:
                    choices.voices.sound.edge(plug, Place("inlet", socket.connection, side), YES)
        for link in choices.wires.links:
            choices.voices.sound.edge(Place("jack", *link.start), Place("jack", *link.end), link.given)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield strips that a part enters or misses against the plan's own words."""
        for found in differences(followed):
            if found.cause == "cable":
                yield (
                    f"{found.part} enters {_strips(found.box, found.entered)}, "
                    f"the plan says {_strips(found.box, found.named)}"
                )


class AloneSums(Rule):
    """A4."""

    id = "A4"
    sentence = "Where an outlet sums, its left jack carries both sides while the right jack is empty."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """The right side feeds the left jack too while the right jack is empty."""
        for outlet, gear in choices.rig.outlets.items():
            if gear.alone == "sum":
                left, right = (choices.rig.jack_of(outlet, side, sends=True) for side in gear.sides)
                start, end = Place("outlet", outlet, "right"), Place("jack", left, "left")
                choices.voices.sound.edge(start, end, -choices.wires.plugged(right))

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield strips that a part enters, against the plan's own words, over a left jack that sums."""
        yield from _extra(followed, "sum", "a left jack that carries both sides while the right one is empty")


class AloneCopies(Rule):
    """A5."""

    id = "A5"
    sentence = "Where an inlet copies, its left jack feeds both sides while the right jack is empty."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """The left jack feeds the right side too while the right jack is empty."""
        for inlet, gear in choices.rig.inlets.items():
            if gear.alone == "copy":
                left, right = (choices.rig.jack_of(inlet, side, sends=False) for side in gear.sides)
                start, end = Place("jack", left, "left"), Place("inlet", inlet, "right")
                choices.voices.sound.edge(start, end, -choices.wires.plugged(right))

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield strips that a part enters, against the plan's own words, over a left jack that copies."""
        yield from _extra(followed, "copy", "a left jack that feeds both sides while the right one is empty")


def _extra(followed: Followed, cause: Cause, over: str) -> Iterator[str]:
    for found in differences(followed):
        if found.cause == cause:
            yield (
                f"{found.part} also enters {listing(found.extra)} over {over}, "
                f"the plan says {_strips(found.box, found.named)}"
            )


def _strips(box: str, names: tuple[str, ...]) -> str:
    return listing(Spot(box, name) for name in names) if names else f"no strip of {box}"


class NoSoundLoops(Rule):
    """A6."""

    id = "A6"
    sentence = "No audio cables lead from a box back to it, through whatever boxes."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """Boxes rise along audio cables."""
        for link in choices.wires.links:
            choices.model.rise(link.start[0].box, link.end[0].box, link.given)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield ways on which cables come back to the box where they start."""
        onward: dict[str, list[str]] = {name: [] for name in followed.rig.boxes}
        for cable in followed.plan.cables:
            if not is_midi(cable):
                for source in sockets(cable.source):
                    onward.setdefault(source.box, []).extend(target.box for target in sockets(cable.to))
        for loop in loops(onward):
            yield f"audio cables lead in a loop: {' > '.join(loop)}"
