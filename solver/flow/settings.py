"""What must be set on each box for a plan: every setting that moves from where it stands, and every wanted amount."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from solver.gear.box import Remembers
from solver.gear.rig import Emission
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.plans import Goals, Plan, PlannedPart, PlannedStrip, Setting

MOVED = ("channel", "outlet", "pan", "level")
"""The settings that count as moved; amounts, keys and shifts are wanted."""


def settings(jam: Jam, plan: Plan) -> tuple[Setting, ...]:
    """List the settings of a plan: boxes in file order, in each its tracks, engines and strips."""
    return tuple(
        setting
        for box in jam.boxes
        for setting in (*_tracks(jam, plan, box), *_engines(jam, plan, box), *_strips(jam, plan, box))
    )


def spare_effects(jam: Jam, plan: Plan) -> Iterator[tuple[Emission, str]]:
    """The effects that strips and engines with a part offer and that no part there wants: they stay at 0."""
    busy = {part.engine for part in plan.parts.values()}
    for emitter, gear in jam.rig.emitters.items():
        name = str(emitter.spot)
        thing = plan.strips.get(name) if emitter.of == "strip" else plan.engines.get(name) if name in busy else None
        if thing is not None:
            yield from ((emitter, effect) for effect in gear.offers if effect not in thing.settings)


def goals(plan: Plan) -> Goals:
    """Count what a plan costs."""
    return Goals(
        cables=len(plan.cables),
        silenced=sum(engine.level == "zero" for engine in plan.engines.values()),
        settings_moved=sum(setting.what in MOVED for setting in plan.settings),
    )


def goals_of(plan: Plan) -> Goals:
    """The plan's own count of what it costs, or one made from its cables, engines and settings."""
    return plan.goals or goals(plan)


def _tracks(jam: Jam, plan: Plan, box: str) -> Iterator[Setting]:
    used = {Spot.parse(part.track): part.channel for part in plan.parts.values()}
    for spot, track in jam.rig.tracks.items():
        if spot.box == box and spot in used:
            place = _Place(spot, "track", track)
            yield from place.moved("channel", used[spot] or "off", track.stands)


def _engines(jam: Jam, plan: Plan, box: str) -> Iterator[Setting]:
    for spot, engine in jam.rig.engines.items():
        planned = plan.engines.get(str(spot))
        if spot.box == box and planned is not None:
            place = _Place(spot, "engine", engine)
            yield from place.moved("channel", planned.channel, engine.stands)
            for part in plan.parts.values():
                if part.engine == str(spot):
                    yield from _placed(jam, place, Emission("engine", spot), part)
            if planned.shift:
                yield place.wanted("shift", planned.shift)
            yield from place.moved("level", planned.level, "up")
            yield from (place.wanted(effect, amount) for effect, amount in planned.settings.items())


def _strips(jam: Jam, plan: Plan, box: str) -> Iterator[Setting]:
    for spot, strip in jam.rig.strips.items():
        planned = plan.strips.get(str(spot))
        if spot.box == box and planned is not None:
            place = _Place(spot, "strip", strip)
            yield from _placed(jam, place, Emission("strip", spot), planned)
            yield from (place.wanted(effect, amount) for effect, amount in planned.settings.items())


class _Place(NamedTuple):
    """Where something is set."""

    spot: Spot
    of: Literal["engine", "strip", "track"]
    gear: Remembers

    def moved(self, what: str, value: int | str, was: int | str) -> Iterator[Setting]:
        """The setting, if it leaves where it stands."""
        if value != was:
            yield self._setting(what, value, was)

    def wanted(self, what: str, value: int) -> Setting:
        """A wanted amount; box files do not say what it was."""
        return self._setting(what, value, None)

    def _setting(self, what: str, value: int | str, was: int | str | None) -> Setting:
        stored = self.gear.memory(what)
        box, where = self.spot
        return Setting(box=box, of=self.of, where=where, what=what, value=value, was=was, stored=stored)


def _placed(jam: Jam, place: _Place, emitter: Emission, planned: PlannedPart | PlannedStrip) -> Iterator[Setting]:
    ways = jam.rig.ways_out(emitter)
    yield from place.moved("outlet", planned.outlet, ways[0].name if ways else planned.outlet)
    yield from place.moved("pan", planned.pan, "centre")
