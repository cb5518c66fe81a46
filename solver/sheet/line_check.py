"""What a line check plays, part by part, where each part must be heard, and in the place of which box."""

from dataclasses import dataclass
from functools import cached_property

from solver.flow.followed import Followed
from solver.flow.gains import Gains
from solver.flow.sound_way import AtStrip
from solver.flow.sounding import sound_way
from solver.gear.words import Pan, Spot
from solver.jam.jam import Jam
from solver.plans import Plan


@dataclass(frozen=True)
class Check:
    """One part that notes over MIDI can play.

    Attributes:
        part: The part.
        track: The track whose notes these are.
        channel: 1 to 16.
        together: The other parts of its layer, which sound along.
    """

    part: str
    track: Spot
    channel: int
    together: tuple[str, ...]


class LineCheck:
    """The line check of a plan.

    Args:
        jam: What the plan is for.
        plan: Any plan; parts that are silent in it are not played.
    """

    def __init__(self, jam: Jam, plan: Plan) -> None:
        self.followed = Followed(jam, plan)
        self.parts = tuple(part for part in plan.parts if part in self.followed.parts)
        gains = Gains(self.followed)
        self._ways = {part: sound_way(self.followed, gains, part) for part in self.parts}

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """The parts that a file can play, in plan order."""
        notes, tracks = self.followed.notes, self.followed.tracks
        return tuple(
            Check(
                part=part,
                track=tracks[part],
                channel=notes.sending[tracks[part]],
                together=tuple(other for other in notes.playing[tracks[part]] if other != part),
            )
            for part in self.parts
            if self.heard(part) and not self.inside(part)
        )

    def pan(self, channel: int) -> Pan | None:
        """The pan that all parts on a channel want; None where they differ."""
        pans = {self.followed.parts[check.part].pan for check in self.checks if check.channel == channel}
        return pans.pop() if len(pans) == 1 else None

    def where(self, part: str) -> str:
        """Where a part must be heard: on its strips, or on the listening outlet where it passes none."""
        strips = (point.strip for point in self._ways[part].points if isinstance(point, AtStrip))
        return ", ".join(map(str, strips)) or self.followed.jam.listen

    def inside(self, part: str) -> bool:
        """Whether a part is played inside its box, where no file comes."""
        return self.followed.tracks[part] in self.followed.notes.inside.get(self.followed.homes[part], ())

    def heard(self, part: str) -> bool:
        """Whether a part is heard in this plan."""
        notes, home = self.followed.notes, self.followed.homes[part]
        played = self.followed.tracks[part] in notes.sounding[home] and notes.level(home) == "up"
        return played and bool(self._ways[part].heard)

    @cached_property
    def places(self) -> dict[Check, str]:
        """For each check, the box in whose place the file is to be played: as few boxes as it takes, or nearly."""
        homes, passed = self.followed.homes, self.followed.notes.passed
        boxes = dict.fromkeys(check.track.box for check in self.checks)
        reached = {box: {half.port.box for half in passed[box] if not half.leaves} for box in boxes}
        found: dict[Check, str] = {}
        while len(found) < len(self.checks):
            left = [check for check in self.checks if check not in found]
            covers = {box: [c for c in left if homes[c.part].box in there] for box, there in reached.items()}
            best = max(covers, key=lambda box: len(covers[box]))
            found |= dict.fromkeys(covers[best], best)
        return {check: found[check] for check in self.checks}
