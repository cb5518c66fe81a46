"""Plans a jam as a patient musician does by hand: box after box, next free thing first, never going back."""

from collections import defaultdict
from collections.abc import Hashable, Iterator
from typing import Any

from solver.gear.cables import BREAKOUT_LEG, BREAKOUTS, audio_kind, midi_kind
from solver.gear.words import Channel, Spot
from solver.jam.intents import Layer, Match, Play, Separate
from solver.jam.jam import Jam
from solver.plans import Plan

Table = dict[str, Any]


class StuckError(Exception):
    """Nothing is free where something is needed; says what."""


def by_hand(jam: Jam) -> Plan:
    """A plan found by hand; whether it follows every rule is for ``solver.check`` to say.

    Raises:
        StuckError: the musician gives up.
    """
    return _Hand(jam).plan()


class _Hand:
    def __init__(self, jam: Jam) -> None:
        self._jam, self._rig = jam, jam.rig
        self._homes = dict(self._live())
        self._tracks = dict(self._play())
        self._channels = dict(self._tune())
        self._cables: list[Table] = []
        self._taken: set[Spot] = set()
        self._sides: dict[str, tuple[str, str]] = {}
        self._strips: dict[str, Table] = {}
        self._entered: dict[str, Table] = {}

    def plan(self) -> Plan:
        """Chain the boxes, then plug each into the next free strips."""
        self._chain()
        for box in self._jam.boxes:
            here = [part for part, home in self._homes.items() if home.box == box]
            if here and box != self._jam.ears.box:
                self._plug(box, here)
        parts = {part: self._part(part) for part in self._jam.parts}
        engines = {str(engine): {"channel": self._quiet(engine)} for engine in self._rig.engines}
        shifts = [shift for _, wish in self._jam.stated(Layer) for shift in wish.shift.items()]
        for part, shift in shifts:
            engines[str(self._homes[part])]["shift"] = shift
        return Plan.model_validate(
            {"title": "By hand", "cables": self._cables, "parts": parts, "strips": self._strips, "engines": engines}
        )

    def _live(self) -> Iterator[tuple[str, Spot]]:
        """The first free engine that will do."""
        free = dict(self._rig.engines)
        for name, part in self._jam.parts.items():
            fits = (
                e for e, gear in free.items() if part.on in (None, e.box, str(e)) and part.sound in (None, gear.sound)
            )
            engine = _first(fits, f"an engine for {name}")
            del free[engine]
            yield name, engine

    def _play(self) -> Iterator[tuple[tuple[str, ...], Spot]]:
        """The track that plays the layer's engine, else the first free one that plays none."""
        free = dict(self._rig.tracks)
        for layer in self._jam.layers:
            said = [wish.source for _, wish in self._jam.stated(Play) if not set(wish.play).isdisjoint(layer)]
            source = said[0] if said else self._jam.leader
            mine = [track for track in free if source in (track.box, str(track))]
            homes = [self._homes[part] for part in layer]
            own = [t for t in mine if any(h.box == t.box and h.name == free[t].plays for h in homes)]
            others = [track for track in mine if free[track].plays is None]
            track = _first(iter([*own, *others]), f"a track for {layer[0]}")
            del free[track]
            yield layer, track

    def _tune(self) -> Iterator[tuple[tuple[str, ...], Channel]]:
        """Off where nothing is to be sent, else where the track stands, else the lowest free channel."""
        free = [channel for channel in range(1, 17) if channel not in self._jam.shunned]
        for layer, track in self._tracks.items():
            gear = self._rig.tracks[track]
            outside = any(self._homes[part].box != track.box for part in layer)
            if not outside and "off" in gear.options:
                yield layer, "off"
                continue
            stands = [gear.stands] if gear.stands in free else []
            channel = _first((c for c in (*stands, *free) if c in gear.channels), f"a channel for {layer[0]}")
            free.remove(int(channel))
            yield layer, channel

    def _chain(self) -> None:
        """From the leader from box to box, out of the first socket that is free and fits."""
        starts = [p for p, gear in self._rig.ports.items() if p.box == self._jam.leader and gear.sends]
        waiting = [
            b for b in self._jam.boxes if b != self._jam.leader and any(h.box == b for h in self._homes.values())
        ]
        for box in waiting:
            ins = [p for p, gear in self._rig.ports.items() if p.box == box and gear.takes]
            kinds = ((s, e, midi_kind(self._rig.ports[s].plug, self._rig.ports[e].plug)) for s in starts for e in ins)
            start, end, kind = _first((way for way in kinds if way[2] is not None), f"a way for notes to {box}")
            self._cables.append({"kind": kind, "from": str(start), "to": str(end)})
            starts.remove(start)
            starts += [p for p, gear in self._rig.ports.items() if p.box == box and end.name in gear.passes_on]

    def _plug(self, box: str, parts: list[str]) -> None:
        """Parts that want the same go together: all of them over one jack, two groups over a left and a right."""
        groups: dict[Hashable, list[str]] = defaultdict(list)
        for part in parts:
            groups[self._wants(part)].append(part)
        outlets = [outlet for outlet in self._rig.outlets if outlet.box == box and outlet != self._jam.ears]
        waiting = list(groups.values())
        for outlet in outlets:
            gear = self._rig.outlets[outlet]
            count = min(len(gear.sides), len(waiting))
            if not count:
                return
            now, waiting = waiting[:count], waiting[count:]
            pans = ["left", "right"] if count == 2 else ["centre" if gear.alone == "sum" or gear.mono else "left"]
            for group, pan in zip(now, pans, strict=True):
                self._sides.update(dict.fromkeys(group, (outlet.name, pan)))
            lines = [self._line(outlet, group) for group in now]
            if gear.stereo is not None:
                lines += [self._line(outlet, now[0])] if count == 1 else []
                kind, ends = BREAKOUTS[gear.plug], [str(Spot(b, j)) for b, j in lines]
                self._cables.append({"kind": kind, "from": f"{box}/{gear.stereo}", "to": ends})
                continue
            for (to, jack), socket in zip(lines, gear.jacks, strict=False):
                plug = self._rig.jacks[Spot(to, jack)].jack.plug
                kind = audio_kind(socket.plug, plug, stereo=False)
                self._cables.append({"kind": kind, "from": f"{box}/{socket.label}", "to": f"{to}/{jack}"})
        if waiting:
            raise StuckError(f"no outlet of {box} is left for {waiting[0][0]}")

    def _wants(self, part: str) -> Hashable:
        """What must be equal for parts on one strip; of a separate pair the later one stands apart."""
        apart = [s for s, w in self._jam.stated(Separate) if part in w.separate and part != w.separate[0]]
        layer = self._jam.layer_of(part) if part in self._jam.parts_of(Match) else None
        amounts = tuple((want.effect, want.amount, want.key) for want in self._jam.wanted if want.part == part)
        return amounts, layer, bool(apart)

    def _line(self, outlet: Spot, group: list[str]) -> tuple[str, str]:
        """The next free line of the box with the ears: its strip set for a group."""
        listening, wanted = self._jam.ears.box, [want for want in self._jam.wanted if want.part == group[0]]
        matched = group[0] in self._jam.parts_of(Match)
        for strip, gear in self._rig.strips.items():
            inlet, sides = self._rig.feed(strip)
            jack = self._rig.jack_of(inlet, sides[0], sends=False)
            fits = len(sides) == 1 and all(want.effect in gear.offers for want in wanted)
            broken = self._rig.outlets[outlet].stereo is None or self._rig.jacks[jack].jack.plug == BREAKOUT_LEG
            own = not matched or str(gear.track) == self._tracks[self._jam.layer_of(group[0])].name
            if strip.box == listening and jack not in self._taken and fits and broken and own:
                self._taken.add(jack)
                key = next((want.key for want in wanted if want.key is not None), None)
                settings = {want.effect: want.amount for want in wanted if want.amount}
                self._strips[str(strip)] = {"outlet": self._jam.ears.name, "settings": settings, "key": key}
                self._entered.update({part: {listening: [strip.name]} for part in group})
                return listening, jack.name
        raise StuckError(f"no strip is left for {group[0]}")

    def _part(self, part: str) -> Table:
        home, layer = self._homes[part], self._jam.layer_of(part)
        channel, first = self._channels[layer], self._rig.boxes[home.box].outlets[0].name
        outlet, pan = self._sides.get(part, (first, "centre"))
        placed = {"engine": str(home), "track": str(self._tracks[layer]), "outlet": outlet, "pan": pan}
        return placed | {"channel": None if channel == "off" else channel, "strips": self._entered.get(part, {})}

    def _quiet(self, engine: Spot) -> Channel:
        """The channel of the part there; without one off, or where nothing is sent."""
        gear, used = self._rig.engines[engine], set(self._channels.values())
        for part, home in self._homes.items():
            if home == engine:
                own = self._channels[self._jam.layer_of(part)]
                return own if own in gear.options else gear.stands
        free = (o for o in (gear.stands, *gear.options) if o not in used or o == "off")
        return next(free, gear.stands)


def _first(options: Iterator[Any], what: str) -> Any:
    found = next(options, None)
    if found is None:
        raise StuckError(f"nothing is free: {what}")
    return found
