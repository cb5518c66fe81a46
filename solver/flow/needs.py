"""The settings that matter to a jam, at the values that its plan has; what a jam does not use may stand anywhere."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from solver.flow.followed import Followed
from solver.gear.box import Memory, Remembers
from solver.gear.rig import Emission, Rig
from solver.gear.words import Spot
from solver.plans import PlannedPart, PlannedStrip, Treated

Value = str | int


class Need(NamedTuple):
    """One setting of one engine, strip or track."""

    of: Literal["engine", "strip", "track"]
    spot: Spot
    what: str

    def __str__(self) -> str:
        return f"the {self.what} of {self.of} {self.spot}"

    def gear(self, rig: Rig) -> Remembers:
        """What is set."""
        things: dict[str, Remembers | None] = {
            "engine": rig.engines.get(self.spot),
            "strip": rig.strips.get(self.spot),
            "track": rig.tracks.get(self.spot),
        }
        found = things[self.of]
        assert found is not None
        return found

    def memory(self, rig: Rig) -> Memory:
        """Who stores it."""
        return self.gear(rig).memory(self.what)


def needs(followed: Followed) -> dict[Need, Value]:
    """Every setting that matters, in file order."""
    return dict(_needs(followed))


def _needs(followed: Followed) -> Iterator[tuple[Need, Value]]:
    rig, plan = followed.rig, followed.plan
    for part in followed.parts.values():
        yield Need("track", Spot.parse(part.track), "channel"), part.channel or "off"
    for engine in rig.engines:
        tenants = followed.tenants.get(engine, ())
        yield Need("engine", engine, "channel"), followed.notes.channel(engine)
        level = followed.notes.level(engine)
        if tenants or followed.notes.sounding[engine]:
            yield Need("engine", engine, "level"), level
        for tenant in tenants[:1]:
            yield from _placed(Emission("engine", engine), followed.parts[tenant])
            yield Need("engine", engine, "shift"), followed.notes.shift(engine)
            yield from _treated(followed, Emission("engine", engine), plan.engines.get(str(engine)))
    for strip in rig.strips:
        planned = plan.strips.get(str(strip))
        if planned is not None and any(strip in entered for entered in followed.sound.entered.values()):
            yield from _placed(Emission("strip", strip), planned)
            yield from _treated(followed, Emission("strip", strip), planned)


def _placed(emitter: Emission, planned: PlannedPart | PlannedStrip) -> Iterator[tuple[Need, Value]]:
    yield Need(emitter.of, emitter.spot, "outlet"), planned.outlet
    yield Need(emitter.of, emitter.spot, "pan"), planned.pan


def _treated(followed: Followed, emitter: Emission, treated: Treated | None) -> Iterator[tuple[Need, Value]]:
    """Amounts, where what nobody wants stays at 0, and the engine that triggers the ducking."""
    settings = treated.settings if treated is not None else {}
    for effect in followed.rig.emitters[emitter].offers:
        yield Need(emitter.of, emitter.spot, effect), settings.get(effect, 0)
    home = followed.homes.get((treated and treated.key) or "")
    if home is not None:
        yield Need(emitter.of, emitter.spot, "key"), home.name
