"""What a drawing tells: the cards of the boxes and the nets of the cables, in words and without any place."""

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from solver.flow.followed import Followed
from solver.flow.wires import is_midi, sockets
from solver.flow.wording import counted
from solver.gear.words import SIDES, Side, Spot
from solver.jam.jam import Jam
from solver.plans import Cable, Plan
from solver.sheet.brought import brought
from solver.sheet.carried import carried
from solver.sheet.drawing.letters import shown

SUMMED = "L+R"
"""The mark of a left jack that carries both sides summed."""
MARKS: dict[tuple[Side, ...], str] = {("left",): "L", ("right",): "R", ("left", "right"): "L R"}


class Plug(NamedTuple):
    """One plug of a cable in its socket.

    Attributes:
        net: The place of its cable in the plan, from 0.
        spot: The box and the label printed beside the socket.
        sends: Whether it is at the end where the cable starts.
        mark: The side or sides that it holds: "L", "R", "L R", "L+R" (summed), or nothing.
        named: Whether what the cable carries is written at this plug.
    """

    net: int
    spot: Spot
    sends: bool
    mark: str
    named: bool


@dataclass(frozen=True)
class Net:
    """One cable: all its plugs, and what is written on it.

    Attributes:
        number: Its place in plugging order, from 1.
        kind: Its kind in the words of the cable drawer.
        midi: Whether it carries notes; else it carries sound.
        plugs: Where it is plugged, the start first.
        parts: The parts that it carries, or brings to their engines.
        channels: Of a MIDI cable, the same parts by rising channel.
        clock: Whether it brings a clock that is wanted.
    """

    number: int
    kind: str
    midi: bool
    plugs: tuple[Plug, ...]
    parts: tuple[str, ...]
    channels: tuple[tuple[int, tuple[str, ...]], ...] = ()
    clock: bool = False

    @property
    def ends(self) -> str:
        """Both ends as ``"box/JACK > box/JACK"``, the two legs of a breakout with a plus between them."""
        ends = (" + ".join(str(p.spot) for p in self.plugs if p.sends is sends) for sends in (True, False))
        return shown(" > ".join(ends))

    @property
    def carries(self) -> str:
        """All that it carries, in words."""
        told = [f"ch {channel}: {', '.join(parts)}" for channel, parts in self.channels] or [", ".join(self.parts)]
        return shown("; ".join(filter(None, [*told, "clock" if self.clock else ""])))


@dataclass(frozen=True)
class Card:
    """One box of the table as it is drawn.

    Attributes:
        box: Its name on the table.
        notes: What is told beside its name: what it is by its file, and whether it leads.
        plugs: The plugs in it, in plugging order.
        ears: The outlet that is listened to and its jacks, where it is one of this box.
        free: How many of its sockets have no plug, or that none has one.
    """

    box: str
    notes: tuple[str, ...]
    plugs: tuple[Plug, ...]
    ears: tuple[str, ...]
    free: str


class Told:
    """What the drawing of a plan tells.

    Args:
        jam: The jam that the plan is for.
        plan: The plan to draw; it may break rules.
    """

    def __init__(self, jam: Jam, plan: Plan) -> None:
        self._jam, self._plan = jam, plan
        self._followed = Followed(jam, plan)

    @cached_property
    def nets(self) -> tuple[Net, ...]:
        """Every cable of the plan, in plugging order."""
        heard, played = carried(self._jam, self._plan), brought(self._jam, self._plan)
        found: list[Net] = []
        for place, (cable, parts, notes) in enumerate(zip(self._plan.cables, heard, played, strict=True)):
            plugs = self._plugs(place, cable, parts)
            channels = tuple(notes.parts.items())
            both = (*parts, *(part for _, brought_there in channels for part in brought_there))
            found.append(Net(place + 1, cable.kind, is_midi(cable), plugs, both, channels, notes.clock))
        return tuple(found)

    def _plugs(self, place: int, cable: Cable, parts: tuple[str, ...]) -> tuple[Plug, ...]:
        kept_apart = not self._followed.stereo.isdisjoint(parts)
        plugs: list[Plug] = []
        for ends, sends in ((cable.source, True), (cable.to, False)):
            for leg, spot in enumerate(sockets(ends)):
                mark = self._mark(cable, spot, sends, kept_apart) if isinstance(ends, str) else "LR"[leg]
                plugs.append(Plug(place, spot, sends, mark, named=sends and leg == 0))
        return tuple(plugs)

    def _mark(self, cable: Cable, spot: Spot, sends: bool, kept_apart: bool) -> str:
        """The side of a jack; at an inlet only where sides are kept apart: a mono strip takes either side alike."""
        rig = self._followed.rig
        socket = rig.jacks.get(spot)
        if socket is None or "mono" in socket.jack.sides:
            return ""
        if sends:
            taken = {wire.source.side for wire in self._followed.sound.wires_of(cable) if wire.jack == spot}
            if len(taken) > len(socket.jack.sides):
                return SUMMED
        elif not (kept_apart or socket.jack.stereo or self._has_stereo_strip(socket.connection)):
            return ""
        return MARKS[tuple(side for side in SIDES if side in socket.jack.sides)]

    def _has_stereo_strip(self, inlet: Spot) -> bool:
        rig = self._followed.rig
        return any(rig.feed(strip)[0] == inlet and rig.is_stereo_strip(strip) for strip in rig.strips)

    @cached_property
    def cards(self) -> dict[str, Card]:
        """Every box of the jam, and any other that a cable is plugged into, in file order."""
        plugs = [plug for net in self.nets for plug in net.plugs]
        boxes = dict.fromkeys([*self._jam.boxes, *(plug.spot.box for plug in plugs)])
        return {box: self._card(box, tuple(plug for plug in plugs if plug.spot.box == box)) for box in boxes}

    def _card(self, box: str, plugs: tuple[Plug, ...]) -> Card:
        jam = self._jam
        gear = jam.boxes.get(box)
        if gear is None:
            return Card(box, ("not in the jam",), plugs, (), "")
        notes = [gear.name] if gear.name.casefold() != box.casefold() else []
        notes += ["leader"] if box == jam.leader else []
        ears: tuple[str, ...] = ()
        if box == jam.ears.box:
            ears = (jam.ears.name, *(jack.label for jack in jam.rig.outlets[jam.ears].jacks))
        taken = {plug.spot.name for plug in plugs} | set(ears[1:])
        jacks = sum(spot.box == box and spot.name not in taken for spot in jam.rig.jacks)
        ports = sum(port.name not in taken for port in gear.ports)
        counts = [counted(number, one) for number, one in ((jacks, "jack"), (ports, "port")) if number]
        free = f"free: {', '.join(counts)}" if counts else ""
        return Card(box, tuple(notes), plugs, ears, free if plugs or ears else "nothing plugged")
