"""Where the sound of a part ends, if it does not come to the ears."""

from collections.abc import Collection, Iterator

from solver.flow.followed import Followed
from solver.flow.stops import Stop
from solver.flow.wires import Place, audio_fault, is_midi, sockets, worded
from solver.gear.words import Spot


def sound_stops(followed: Followed, here: Collection[Place]) -> Iterator[Stop]:
    """Yield each end of the ways of a sound, with what stops it there.

    Args:
        followed: The plan.
        here: Every place where the sound is.
    """
    ends = [place for place in here if not followed.sound.onward.get(place)]
    for spot in dict.fromkeys(place.connection for place in ends if place.leaves):
        sides = [place.side for place in ends if place.leaves and place.connection == spot]
        jacks = dict.fromkeys(followed.rig.jack_of(spot, side, sends=True) for side in sides)
        yield from _at_outlet(followed, spot, tuple(jacks))
    for place in ends:
        if not place.leaves:
            yield from _at_inlet(followed, place)
    loop = goes_round(followed, here)
    if not ends and loop is not None:
        yield Stop("round", str(loop))


def goes_round(followed: Followed, here: Collection[Place]) -> Spot | None:
    """The first outlet or inlet from which a sound comes back to where it was already.

    Args:
        followed: The plan.
        here: Every place where the sound is, each before those it leads to.
    """
    rank = {place: number for number, place in enumerate(here)}
    back = (place for place in here if any(rank[on] <= rank[place] for on in followed.sound.onward.get(place, ())))
    return next((place.connection for place in back), None)


def _at_outlet(followed: Followed, outlet: Spot, jacks: tuple[Spot, ...]) -> Iterator[Stop]:
    empty = tuple(str(jack) for jack in jacks if jack not in followed.sound.plugged)
    if empty:
        yield Stop("no plug", str(outlet), empty)
    for cable in followed.plan.cables:
        ends = (*sockets(cable.source), *sockets(cable.to))
        if not is_midi(cable) and any(jack in ends for jack in jacks):
            fault = audio_fault(followed.rig, cable) or "it carries nothing"
            yield Stop("wrong cable", str(outlet), (worded(cable), fault))


def _at_inlet(followed: Followed, place: Place) -> Iterator[Stop]:
    fed = [s for s, (inlet, sides) in followed.sound.feeds.items() if inlet == place.connection and place.side in sides]
    for strip in fed:
        yield Stop("no outlet", str(strip))
    if not fed:
        yield Stop("no strip", str(followed.rig.jack_of(place.connection, place.side, sends=False)))
