"""What is heard over which strips: a strip that leads nowhere treats nothing and keeps nothing apart."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from solver.gear.rig import Emission
from solver.gear.words import Side, Spot
from solver.search.model import YES, Lit
from solver.search.network import Network
from solver.search.questions import Asked, once
from solver.search.voices import Place, Voice

if TYPE_CHECKING:
    from solver.search.choices import Choices


class Hearing(Asked):
    """Questions about the way from a strip to the outlet that is listened to."""

    def __init__(self, choices: Choices) -> None:
        super().__init__(choices.model)
        self._choices = choices
        self._ears = choices.jam.ears

    @cached_property
    def _back(self) -> Network:
        """The ways of sound, walked back from the outlet that is listened to."""
        back = self._choices.voices.sound.backwards()
        for side in self._choices.rig.outlets[self._ears].sides:
            back.source("ears", Place("outlet", self._ears, side), YES)
        return back

    def _leads_here(self, outlet: Spot, side: Side) -> Lit:
        return YES if outlet == self._ears else self._back.present("ears", Place("outlet", outlet, side))

    @once
    def leads_on(self, strip: Spot, start: Side) -> Lit:
        """What the strip takes from that side of its inlet goes on to where you listen."""
        choices = self._choices
        return self.model.either(
            self.model.both(choices.passes_on(strip, start, outlet, side), self._leads_here(outlet, side))
            for outlet in choices.rig.ways_out(Emission("strip", strip))
            for side in choices.rig.outlets[outlet].sides
        )

    @once
    def over(self, voice: Voice, strip: Spot) -> Lit:
        """The voice enters the strip and goes on from there to where you listen."""
        inlet, sides = self._choices.rig.feed(strip)
        voices = self._choices.voices
        return self.model.either(
            self.model.both(voices.sound.present(signal, Place("inlet", inlet, side)), self.leads_on(strip, side))
            for signal in voices.signals(voice)
            for side in sides
        )

    def treats(self, emitter: Emission, voice: Voice) -> Lit:
        """What the strip or engine does to the voice is heard."""
        return self._choices.voices.passes(voice, emitter) if emitter.of == "engine" else self.over(voice, emitter.spot)

    @once
    def part_over(self, part: str, strip: Spot) -> Lit:
        """The part is heard over the strip."""
        voices = self._choices.voices
        return voices.of_part(part, {voice: self.over(voice, strip) for voice in voices.of(part)})
