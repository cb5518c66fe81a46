"""Rules of plugs: one plug a socket, cables that fit, no notes that come round, and what is in the drawer."""

from collections import Counter
from collections.abc import Iterable, Iterator

from solver.flow.followed import Followed
from solver.flow.loops import loops
from solver.flow.wires import Half, audio_fault, is_midi, midi_fault, sockets, worded
from solver.flow.wording import listing
from solver.gear.cables import KINDS
from solver.gear.words import Spot
from solver.plans import Cable
from solver.rules.rule import Rule
from solver.search.choices import Choices


class AudioPlugs(Rule):
    """A1."""

    id = "A1"
    sentence = "A jack takes one plug, a cable fits only jacks of its own ends, and an engine holds one part."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """One plug a jack, one jack for each leg of a breakout, one part an engine."""
        model = choices.model
        for jack in choices.rig.jacks:
            model.at_most_one(choices.wires.plugs(jack))
        for shelf in choices.table.shelves:
            model.at_most(len(shelf.units), [choices.wires.plugged(jack) for jack in shelf.stand_ins])
        for cable in choices.wires.breakouts:
            for leg in cable.legs:
                model.exactly_one([-cable.given, *leg.values()])
        for engine in choices.rig.engines:
            model.at_most(choices.room(engine), [choices.lives(part, engine) for part in choices.jam.parts])

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield cables that do not fit, jacks with two plugs, and engines with two parts."""
        cables = [cable for cable in followed.plan.cables if not is_midi(cable)]
        for cable in cables:
            fault = audio_fault(followed.rig, cable)
            if fault is not None:
                yield f"{worded(cable)} does not fit: {fault}"
        yield from _crowded(cables)
        for engine, parts in followed.tenants.items():
            if len(parts) > 1:
                yield f"{engine} holds {listing(parts)}, it can hold one part"


class MidiPlugs(Rule):
    """M1."""

    id = "M1"
    sentence = "A port takes one plug that fits, and no note comes round to where it started."

    def constrain(self, choices: Choices) -> None:
        """One plug a port; in ports rise along cables that repeat; a box never hears its own tracks."""
        model, rig = choices.model, choices.rig
        for port in rig.ports:
            model.at_most_one(choices.wires.leads_at(port))
        for hop in choices.wires.hops:
            for source in rig.ports[hop.start].passes_on:
                model.rise(f"{hop.start.box}/{source}", str(hop.end), hop.given)
        for port, gear in rig.ports.items():
            if gear.takes and rig.boxes[port.box].tracks:
                model.forbid(choices.arriving(port.box, port))

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield cables that do not fit, ports with two plugs, and ways on which notes come round."""
        cables = [cable for cable, _ in followed.notes.leads]
        for cable in cables:
            fault = midi_fault(followed.rig, cable)
            if fault is not None:
                yield f"{worded(cable)} does not fit: {fault}"
        yield from _crowded(cables)
        for loop in loops(followed.notes.onward):
            yield f"notes go round and round: {' > '.join(map(str, _ports(loop)))}"
        for box, passed in followed.notes.passed.items():
            for half in passed:
                if half.port.box == box and not half.leaves:
                    yield f"notes that leave {box} come back to it at {half.port}"


class Drawer(Rule):
    """D1."""

    id = "D1"
    sentence = "The drawer holds the cables that the plan uses."
    of_sound = True

    def constrain(self, choices: Choices) -> None:
        """No more cables of a kind than there are."""
        if choices.jam.cables is not None:
            for kind in KINDS:
                used = [given for other, given in choices.wires.every() if other == kind]
                choices.model.at_most(choices.jam.cables.get(kind, 0), used)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield each kind of which the plan uses more than there are."""
        if followed.jam.cables is None:
            return
        used = Counter(cable.kind for cable in followed.plan.cables)
        for kind in KINDS:
            there = followed.jam.cables.get(kind, 0)
            if used[kind] > there:
                yield f"the plan uses {used[kind]} of the {kind} cable, the drawer holds {there}"


def _crowded(cables: Iterable[Cable]) -> Iterator[str]:
    """Yield sockets with more than one plug."""
    plugs = Counter(spot for cable in cables for ends in (cable.source, cable.to) for spot in sockets(ends))
    for spot, count in plugs.items():
        if count > 1:
            yield f"{spot} has {count} plugs in it, it takes one"


def _ports(loop: Iterable[Half]) -> Iterator[Spot]:
    """The ports of a loop, in turn."""
    return (half.port for half in loop)
