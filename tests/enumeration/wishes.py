"""Invents parts and intents of every kind for a table of boxes."""

from collections.abc import Iterable
from typing import Any

from solver.plans import Plan
from tests.enumeration.gear import Dice, Table

AMOUNTS = (30, 30, 30, 60, 0)


class Wisher:
    """Wishes about some parts on some boxes."""

    def __init__(self, dice: Dice, boxes: dict[str, Table], leader: str, parts: list[str], bare: Plan | None) -> None:
        self._dice, self._boxes, self._leader, self._parts, self._bare = dice, boxes, leader, parts, bare

    def _spots(self, *kinds: str) -> list[str]:
        """Named things of some kinds, as "box/NAME"."""
        return [
            f"{name}/{thing['name']}"
            for name, box in self._boxes.items()
            for kind in kinds
            for thing in box.get(kind, ())
        ]

    def _jacks(self, kind: str) -> list[str]:
        return [
            f"{name}/{connection[shape]}"
            for name, box in self._boxes.items()
            for connection in box.get(kind, ())
            for shape in ("left", "right", "stereo", "mono")
            if shape in connection
        ]

    def _few(self, most: int = 2) -> list[str]:
        return self._dice.upto(self._parts, most)

    def _at(self) -> str:
        """A box, mostly one with strips."""
        mixers = [name for name, box in self._boxes.items() if box.get("strip")]
        return self._dice.one(mixers if mixers and self._dice.chance(75) else list(self._boxes))

    def part(self) -> Table:
        """What a part is besides its place: now and then its kind of sound, and its notes."""
        part = Table()
        if self._dice.chance(8):
            part["sound"] = self._dice.one(("synth", "synth", "noise"))
        if self._dice.chance(10):
            part["notes"] = 2
        return part

    def intents(self, count: int) -> list[Table]:
        """So many intents of any kind that makes sense here."""
        makers = (
            *(self._treat,) * 5,
            *(self._keep,) * 4,
            *(self._separate,) * 2,
            *(self._stereo,) * 3,
            *(self._layer,) * 2,
            *(self._match,) * 2,
            *(self._play,) * 2,
            *(self._avoid,) * 2,
            *(self._clock,) * 2,
            *(self._program,) * 2,
            *(self._crossed,) * 3,
            *(self._sent,) * 2,
            *(self._doubled,) * 2,
        )
        return [wish for _ in range(count) for wish in self._dice.one(makers)()]

    def _layer(self) -> Iterable[Table]:
        named = self._few(3)
        wish: Table = {"layer": named}
        if self._dice.chance(40):
            wish["shift"] = {named[0]: self._dice.one((12, -12, 0))}
        yield wish

    def _separate(self) -> Iterable[Table]:
        wish: Table = {"separate": self._few(3)}
        if self._dice.chance(40):
            wish["at"] = self._at()
        yield wish

    def _treat(self) -> Iterable[Table]:
        dice = self._dice
        wish: Table = {"treat": self._few(), "with": {dice.one(("ducking", "ducking", "reverb")): dice.one(AMOUNTS)}}
        if dice.chance(15):
            wish["with"]["reverb"] = dice.one(AMOUNTS)
        if wish["with"].get("ducking"):
            wish["key"] = self._parts[0] if dice.chance(70) else dice.one(self._parts)
            if wish["treat"] == [wish["key"]] and dice.chance(80):
                wish["treat"] = [self._parts[-1]]
        if dice.chance(25):
            wish["at"] = self._at()
        yield wish

    def _stereo(self) -> Iterable[Table]:
        yield {"stereo": [self._parts[-1]] if self._dice.chance(70) else self._few()}

    def _match(self) -> Iterable[Table]:
        yield {"match": self._few()}

    def _program(self) -> Iterable[Table]:
        if self._dice.chance(40):
            yield {"layer": self._parts}
        yield {"program": self._few()}

    def _clock(self) -> Iterable[Table]:
        yield {"clock": self._dice.upto(self._boxes, 2)}

    def _play(self) -> Iterable[Table]:
        tracks = self._spots("track")
        if tracks:
            own = [track for track in tracks if track.startswith(f"{self._leader}/")]
            track = self._dice.one(own if own and self._dice.chance(60) else tracks)
            yield {"play": self._few(1), "from": track if self._dice.chance(50) else track.split("/")[0]}

    def _crossed(self) -> Iterable[Table]:
        """Two boxes play each other's engines, so that notes go both ways and can come round."""
        playing = [name for name, box in self._boxes.items() if box.get("engine") and box.get("track")]
        if len(playing) > 1:
            for home, source, part in ((*playing[:2], self._parts[0]), (*playing[1::-1], self._parts[-1])):
                yield self._living(part, home)
                yield {"play": [part], "from": source}

    def _sent(self) -> Iterable[Table]:
        """A part leaves the leader for another mixer, so that its sound can come round."""
        mixers = [name for name, box in self._boxes.items() if box.get("strip") and name != self._leader]
        if mixers and self._boxes[self._leader].get("engine"):
            yield self._living(self._parts[0], self._leader)
            yield {"separate": self._parts[:1], "at": self._dice.one(mixers)}

    def _doubled(self) -> Iterable[Table]:
        """One part is treated where it lives, another where both may pass, so that one may get it twice."""
        if self._bare is not None and len(self._parts) > 1:
            for part, box in zip(self._parts[-2:], (None, self._leader), strict=True):
                home = box if box is not None else self._bare.parts[part].engine.split("/")[0]
                yield {"treat": [part], "with": {"reverb": self._dice.one((30, 30, 60))}, "at": home}

    def _living(self, part: str, home: str) -> Table:
        return {"keep": {"part": part, "engine": f"{home}/{self._dice.one(self._boxes[home]['engine'])['name']}"}}

    def _avoid(self) -> Iterable[Table]:
        dice, what = self._dice, self._dice.one(("channels", "channels", "jacks", "ports"))
        options: dict[str, list[Any]] = {
            "channels": [1, 2, 3],
            "jacks": self._jacks("out") + self._jacks("in"),
            "ports": self._spots("midi"),
        }
        if options[what]:
            yield {"avoid": {what: [dice.one(options[what])]}}

    def _keep(self) -> Iterable[Table]:
        """Keep what a plan without wishes has too, or anything else."""
        dice, part = self._dice, self._dice.one(self._parts)
        if self._bare is not None and dice.chance(40):
            yield {"keep": dice.one(list(self._as_planned(self._bare, part)))}
            return
        outs, ins = self._jacks("out"), self._jacks("in")
        ways: dict[str, list[Any]] = {
            "engine": self._spots("engine"),
            "channel": [1, 2, 3],
            "pan": ["left", "centre", "right"],
            "track": self._spots("track"),
            "strip": self._spots("strip"),
        }
        form = dice.one((*ways, "strip", "jack", "jack", "port", "port"))
        sends = [p for p in self._spots("midi") if self._way(p) != "in"]
        takes = [p for p in self._spots("midi") if self._way(p) in ("in", "both")]
        if form == "jack" and outs and ins:
            yield {"keep": {"cable": dice.shuffled([dice.one(outs), dice.one(ins)])}}
        elif form == "port" and sends and takes:
            yield {"keep": {"cable": dice.shuffled([dice.one(sends), dice.one(takes)])}}
        elif ways.get(form):
            yield {"keep": {"part": part, form: dice.one(ways[form])}}

    def _as_planned(self, bare: Plan, part: str) -> Iterable[Table]:
        planned = bare.parts[part]
        for form in ("engine", "track", "pan", "channel"):
            if getattr(planned, form) is not None:
                yield {"part": part, form: getattr(planned, form)}
        yield from (
            {"part": part, "strip": f"{box}/{strip}"}
            for box, strips in (planned.strips or {}).items()
            for strip in strips
        )
        for cable in bare.cables:
            start, end = ([ends] if isinstance(ends, str) else list(ends) for ends in (cable.source, cable.to))
            yield {"cable": [self._dice.one(start), self._dice.one(end)]}

    def _way(self, port: str) -> str:
        box, name = port.split("/")
        return str(next(p["way"] for p in self._boxes[box]["midi"] if p["name"] == name))
