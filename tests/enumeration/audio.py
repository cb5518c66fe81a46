"""The cheapest audio side of a plan: cables, outlets, pans, amounts and keys."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product
from typing import NamedTuple

from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.intents import Keep, Match, Separate, Stereo
from solver.jam.jam import Jam
from tests.enumeration.effects import Doses, Entered, Treatments
from tests.enumeration.midi import Casting
from tests.enumeration.plugging import (
    Lead,
    audio_leads,
    comes_round,
    drawer_of,
    keeps_all,
    kept_pairs,
    onward_from,
    sets_of,
    shunned,
)
from tests.enumeration.wiring import Flow, Node, Stand, Wiring


class Way(NamedTuple):
    """One way in which a part is heard as it should be: where its engine sends, the strips it enters, those it needs.

    It needs those from which it goes on to your ears.
    """

    stand: Stand
    entered: Entered
    heard: Entered


class AudioSide(NamedTuple):
    """An audio side: what it costs first, then all that it sets."""

    cables: int
    moved: int
    leads: tuple[Lead, ...]
    ways: dict[str, Way]
    strips: dict[Spot, Stand]
    doses: Doses


def audio_sets(jam: Jam) -> list[tuple[Lead, ...]]:
    """Every set of audio cables that leaves your ears and what is avoided alone and runs in no loop, small first."""
    rig = jam.rig
    away = shunned(jam, "jacks") | {Spot(jam.ears.box, jack.label) for jack in rig.outlets[jam.ears].jacks}
    leads = [lead for lead in audio_leads(rig) if away.isdisjoint(lead.sockets)]
    kept = kept_pairs(jam, rig.jacks)
    sets = sets_of(leads, drawer_of(jam), lambda chosen: not comes_round(_box_steps(chosen)))
    return sorted((chosen for chosen in sets if keeps_all(chosen, kept)), key=len)


def _box_steps(leads: Iterable[Lead]) -> list[tuple[object, object]]:
    return [(one.box, other.box) for lead in leads for one in lead.start for other in lead.end]


class AudioSides:
    """Finds the cheapest audio side for castings of one jam."""

    def __init__(self, jam: Jam) -> None:
        self._jam, self._rig = jam, jam.rig
        self._wiring = Wiring(jam.rig)
        self._stereo = frozenset(part for _, intent in jam.stated(Stereo) for part in intent.stereo)
        self._matched = {part for _, intent in jam.stated(Match) for part in intent.match}
        self._treatments = Treatments(jam, self._stereo)

    def cheapest(self, castings: Sequence[Casting]) -> dict[Casting, AudioSide]:
        """The cheapest audio side of each casting that has one: fewest cables, then fewest settings moved.

        Tracks matter to sound only where parts should match them; else one casting stands for all with its engines.
        """
        first: dict[object, Casting] = {}
        leads = {c: first.setdefault(c if self._matched else c.homes, c) for c in castings}
        found = self._cheapest(list(dict.fromkeys(leads.values())))
        return {casting: found[lead] for casting, lead in leads.items() if lead in found}

    def _cheapest(self, castings: Sequence[Casting]) -> dict[Casting, AudioSide]:
        """The same for castings that differ in what matters.

        Sets of cables come by rising count; a casting that some count serves asks no larger one.
        """
        found: dict[Casting, AudioSide] = {}
        for leads in audio_sets(self._jam):
            heard = self._heard_boxes(leads)
            open_ = [
                casting
                for casting in castings
                if (casting not in found or found[casting].cables == len(leads))
                and all(home.box in heard for home in casting.homes)
            ]
            for casting, side in self._with(leads, open_) if open_ else ():
                if casting not in found or side.moved < found[casting].moved:
                    found[casting] = side
        return found

    def _heard_boxes(self, leads: Sequence[Lead]) -> set[object]:
        """The boxes from which cables lead to your ears, and the box of your ears. Parts on others are not heard."""
        return onward_from([self._jam.ears.box], [(end, start) for start, end in _box_steps(leads)])

    def _with(self, leads: tuple[Lead, ...], castings: Sequence[Casting]) -> Iterator[tuple[Casting, AudioSide]]:
        """Every good audio side with just these cables."""
        plugged = self._wiring.plugged(leads)
        fed = {end for _, end in plugged}
        live = [strip for strip in self._rig.strips if any(node in fed for node in self._wiring.feed(strip))]
        for chosen in product(*(self._wiring.stands(Emission("strip", strip)) for strip in live)):
            strips = dict(zip(live, chosen, strict=True))
            flow = Flow(
                self._wiring.mirrors()
                + plugged
                + [e for s, stand in strips.items() for e in self._wiring.strip(s, stand)]
            )
            ways: dict[tuple[str, Spot], list[Way]] = {}
            for casting in castings:
                homes = dict(zip(self._jam.parts, casting.homes, strict=True))
                for home in homes.items():
                    if home not in ways:
                        ways[home] = list(self._ways(*home, flow, strips))
                for pick in product(*(ways[home] for home in homes.items())):
                    side = self._side(casting, leads, strips, dict(zip(homes, pick, strict=True)))
                    if side is not None:
                        yield casting, side

    def _ways(self, part: str, home: Spot, flow: Flow, strips: Mapping[Spot, Stand]) -> Iterator[Way]:
        """Every way in which the part is heard as it should be and enters no box twice.

        Parts do not change each other's sound, so this is asked of each alone.
        """
        pans = {i.keep.pan for _, i in self._jam.stated(Keep) if i.keep.part == part and i.keep.pan is not None}
        kept = {i.keep.strip for _, i in self._jam.stated(Keep) if i.keep.part == part and i.keep.strip is not None}
        for stand in self._wiring.stands(Emission("engine", home), bool(pans)):
            if stand.outlet is None or not pans <= {stand.pan}:
                continue
            entered = self._stereo_way(stand, flow) if part in self._stereo else self._mono_way(stand, flow)
            if entered is not None and kept <= set(map(str, entered)):
                reached = flow.after(self._starts(part, stand))
                heard = (strip for strip in entered if self._goes_on(strip, strips[strip], reached, flow))
                yield Way(stand, entered, tuple(heard))

    def _starts(self, part: str, stand: Stand) -> list[Node]:
        if part in self._stereo and stand.outlet is not None:
            return [("out", stand.outlet, "left"), ("out", stand.outlet, "right")]
        return self._wiring.sides_at(stand)

    def _goes_on(self, strip: Spot, stand: Stand, reached: set[Node], flow: Flow) -> bool:
        """Whether what is on these sides goes on over the strip to your ears."""
        ears = self._jam.ears
        onward = flow.after(end for start, end in self._wiring.strip(strip, stand) if start in reached)
        return any(("out", ears, side) in onward for side in self._rig.outlets[ears].sides)

    def _entered(self, reached: set[Node]) -> list[Spot]:
        return [strip for strip in self._rig.strips if not reached.isdisjoint(self._wiring.feed(strip))]

    def _mono_way(self, stand: Stand, flow: Flow) -> Entered | None:
        """The strips that a mono part enters, or None where it is not heard or enters a box over two strips."""
        if stand not in flow.entered:
            flow.entered[stand] = self._entered_from(stand, flow)
        return flow.entered[stand]

    def _entered_from(self, stand: Stand, flow: Flow) -> Entered | None:
        reached = flow.after(self._wiring.sides_at(stand))
        ears = self._jam.ears
        there = [("out", ears, side) in reached for side in self._rig.outlets[ears].sides]
        if not (any(there) if self._jam.mains == "mono" else all(there)):
            return None
        entered = self._entered(reached)
        return tuple(entered) if len({strip.box for strip in entered}) == len(entered) else None

    def _stereo_way(self, stand: Stand, flow: Flow) -> Entered | None:
        """The strips that a stereo part enters, or None where its sides get lost, or enter a box as they may not."""
        ears, outlet = self._jam.ears, stand.outlet
        assert outlet is not None
        if stand.pan != "centre" or "mono" in (*self._rig.outlets[outlet].sides, *self._rig.outlets[ears].sides):
            return None
        left, right = flow.after([("out", outlet, "left")]), flow.after([("out", outlet, "right")])
        on_left, on_right = ("out", ears, "left"), ("out", ears, "right")
        if on_left not in left or on_right in left or on_right not in right or on_left in right:
            return None
        entered = self._entered(left | right)
        for box in {strip.box for strip in entered}:
            strips = [strip for strip in entered if strip.box == box]
            if len(strips) == 1 and self._wiring.wide(strips[0]):
                continue
            halves = [
                (not left.isdisjoint(self._wiring.feed(s)), not right.isdisjoint(self._wiring.feed(s))) for s in strips
            ]
            if any(map(self._wiring.wide, strips)) or sorted(halves) != [(False, True), (True, False)]:
                return None
        return tuple(entered)

    def _side(
        self, casting: Casting, leads: tuple[Lead, ...], strips: Mapping[Spot, Stand], ways: dict[str, Way]
    ) -> AudioSide | None:
        """The side with these ways of the parts, or None where they do not go together."""
        if not all(self._matches(casting, part, way) for part, way in ways.items() if part in self._matched):
            return None
        homes = dict(zip(self._jam.parts, casting.homes, strict=True))
        entered = {part: way.entered for part, way in ways.items()}
        heard = {part: way.heard for part, way in ways.items()}
        if not self._apart(homes, entered, heard):
            return None
        doses = self._treatments.find(homes, entered, heard)
        if doses is None:
            return None
        carrying = {strip: strips[strip] for strip in self._rig.strips if any(strip in e for e in entered.values())}
        moved = sum(way.stand.moved for way in ways.values()) + sum(stand.moved for stand in carrying.values())
        return AudioSide(len(leads), moved, leads, ways, carrying, doses)

    def _matches(self, casting: Casting, part: str, way: Way) -> bool:
        """Whether the track that plays a part works its strip in every box that has one for it, else its engine."""
        track = dict(zip(self._jam.layers, casting.tracks, strict=True))[self._jam.layer_of(part)]
        owners: dict[str, set[Spot]] = {}
        for strip in way.entered:
            name = self._rig.strips[strip].track
            if name is not None:
                owners.setdefault(strip.box, set()).add(Spot(strip.box, name))
        home = dict(zip(self._jam.parts, casting.homes, strict=True))[part]
        inside = track.box == home.box and self._rig.tracks[track].plays == home.name
        if not owners:
            return inside
        if not inside and all(self._rig.strips[strip].track is None for strip in way.heard):
            return False
        return all(track in tracks for tracks in owners.values())

    def _apart(self, homes: Mapping[str, Spot], entered: Mapping[str, Entered], heard: Mapping[str, Entered]) -> bool:
        """Whether parts stated separate are: each on a strip or engine of the box, none with another on a strip."""
        for _, intent in self._jam.stated(Separate):
            box = intent.at if intent.at is not None else self._jam.leader
            strips = [[strip for strip in entered[part] if strip.box == box] for part in intent.separate]
            if any(homes[p].box != box and all(s.box != box for s in heard[p]) for p in intent.separate):
                return False
            every = [strip for own in strips for strip in own]
            if len(set(every)) != len(every):
                return False
        return True
