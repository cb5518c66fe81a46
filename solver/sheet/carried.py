"""Which parts each cable of a plan carries."""

from solver.flow.followed import Followed
from solver.jam.jam import Jam
from solver.plans import Plan


def carried(jam: Jam, plan: Plan) -> list[tuple[str, ...]]:
    """The parts on each cable of a plan, in the order of ``plan.cables``; none on a MIDI cable."""
    followed = Followed(jam, plan)
    sound = followed.sound
    sides = [{wire.source[:2] for wire in sound.wires_of(cable)} for cable in plan.cables]
    return [
        tuple(part for part in followed.parts if any(sound.voices_on(*side, part) for side in taken)) for taken in sides
    ]
