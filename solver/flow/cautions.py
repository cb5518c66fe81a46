"""What a musician should know about a plan that breaks no rule."""

from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.timing import MOST_THRUS, TIGHT, spread, thrus_before, timing
from solver.flow.wires import Place, sockets
from solver.flow.wording import listing, some
from solver.gear.rig import Emission
from solver.gear.words import Side, Spot

MOST_NAMED = 8
"""How many engines or strips of a box are named one by one."""


def cautions(followed: Followed) -> tuple[str, ...]:
    """Short plain sentences about a plan, none of which speaks against it."""
    return (
        *_voices(followed),
        *_late_notes(followed),
        *_long_chains(followed),
        *_along(followed),
        *_one_side(followed),
        *_bleeding(followed),
        *_left_up(followed),
    )


def _voices(followed: Followed) -> Iterator[str]:
    for name, box in followed.rig.boxes.items():
        parts = [part for part, home in followed.homes.items() if home.box == name]
        notes = sum(followed.jam.parts[part].notes for part in parts)
        if box.voices is not None and notes > box.voices:
            yield f"{name} can sound {box.voices} notes at once, {listing(parts)} can ask for {notes}."


def _late_notes(followed: Followed) -> Iterator[str]:
    late = [cable for cable in timing(followed) if spread(cable.notes) > TIGHT]
    for parts in dict.fromkeys(cable.parts for cable in late):
        same = [cable for cable in late if cable.parts == parts]  # such as those of a chain of thrus
        first = min(same, key=lambda cable: cable.thrus)
        yield (
            f"When all {first.notes} notes from {first.source} to {first.to} start together, the last is "
            f"{first.late_ms:.1f} ms late: let fewer notes start at once on this cable, or send some of its parts "
            "by another port, such as USB."
        )


def _long_chains(followed: Followed) -> Iterator[str]:
    for target in dict.fromkeys(lead.target for _, leads in followed.notes.leads for lead in leads):
        thrus = thrus_before(followed, target)
        if len(thrus) == MOST_THRUS + 1:
            yield (
                f"Notes for {target.port.box} pass more than {MOST_THRUS} thrus in a row: {listing(thrus)}. A thru box "
                "near the sender, one in to several thrus, makes the way short."
            )


def _carried_on(followed: Followed, part: str) -> set[Side]:
    """The sides on which a mono part leaves its own box over cables; all sides if it is heard in that box."""
    sound, box = followed.sound, followed.homes[part].box
    if box == followed.jam.ears.box:
        return {"left", "right"}
    places = (wire.source for wire in sound.wires if wire.source.connection.box == box)
    return {place.side for place in places if sound.voices_on(place.connection, place.side, part)}


def _along(followed: Followed) -> Iterator[str]:
    found: dict[tuple[tuple[str, ...], tuple[str, ...], tuple[tuple[str, int], ...]], list[Spot]] = {}
    for strip in followed.rig.strips:
        here = [part for part in followed.parts if strip in followed.heard_over[part]]
        unsaid = {part: _unsaid(followed, part, strip) for part in here}
        for effects in dict.fromkeys(effects for effects in unsaid.values() if effects):
            parts = tuple(part for part in here if unsaid[part] == effects)
            others = tuple(part for part in here if not set(effects) <= set(unsaid[part]))
            if others:
                found.setdefault((parts, others, effects), []).append(strip)
    for (parts, others, effects), strips in found.items():
        share, get, they, are = ("shares", "gets", "it", "is") if len(parts) == 1 else ("share", "get", "they", "are")
        amounts, none = (listing(form.format(*effect) for effect in effects) for form in ("{} {} %", "{} = 0"))
        yield (
            f"{listing(parts)} {share} {listing(strips)} with {listing(others)}, so {they} {get} {amounts} too. If "
            f"{they} {are} to stay without, ask for {none}."
        )


def _unsaid(followed: Followed, part: str, strip: Spot) -> tuple[tuple[str, int], ...]:
    """Each effect that a part gets on a strip though nothing is said of it for the part, and its amount."""
    said = {wanted.effect for wanted in followed.jam.wanted if wanted.part == part}
    amounts = {e: followed.effects.amount(Emission("strip", strip), e) for e in followed.rig.strips[strip].offers}
    return tuple((effect, amount) for effect, amount in amounts.items() if amount and effect not in said)


def _one_side(followed: Followed) -> Iterator[str]:
    found: dict[str, list[str]] = {}
    for part, home in followed.homes.items():
        if part not in followed.stereo and _carried_on(followed, part) in ({"left"}, {"right"}):
            found.setdefault(home.box, []).append(part)
    for box, parts in found.items():
        leave = "leaves" if len(parts) == 1 else "leave"
        yield (
            f"{listing(parts)} {leave} {box} on one side: choose sounds that lose nothing without the other. A stereo "
            "sound loses one half there, 3 dB if the two are unrelated."
        )


def _bleeding(followed: Followed) -> Iterator[str]:
    split: dict[Spot, dict[str, list[str]]] = {}
    for part, planned in followed.parts.items():
        outlet = Spot(followed.homes[part].box, planned.outlet)
        if planned.pan != "centre" and "mono" not in followed.rig.outlets[outlet].sides:
            split.setdefault(outlet, {}).setdefault(planned.pan, []).append(part)
    found: dict[str, list[str]] = {}
    for outlet, sides in split.items():
        if len(sides) == 2:
            found.setdefault(outlet.box, []).extend(part for parts in sides.values() for part in parts)
    for box, parts in found.items():
        ordered = listing(part for part in followed.parts if part in parts)
        yield (
            f"{ordered} share the two sides of {box}: its shared effects come back in stereo and bleed across, keep "
            "them at zero (common practice)."
        )


def _left_up(followed: Followed) -> Iterator[str]:
    in_use = {home.box for home in followed.homes.values()}
    in_use |= {s.box for cable in followed.plan.cables for e in (cable.source, cable.to) for s in sockets(e)}
    for box in followed.rig.boxes:
        strips, engines = _free_strips(followed, box), _free_engines(followed, box)
        said = []
        if strips:
            said.append(f"nothing comes in on {_named(strips)}, turn the faders down")
        if engines and box in in_use:
            said.append(f"no part is on {_named(engines)}, turn the levels down so that a stray note stays silent")
        if said:
            yield f"{box}: {'; '.join(said)}."


def _named(names: list[str]) -> str:
    return some(names, most=MOST_NAMED)


def _free_strips(followed: Followed, box: str) -> list[str]:
    """The strips of a box that no cable feeds, if parts pass others of its strips."""
    sound = followed.sound
    if not any(strip.box == box for entered in sound.entered.values() for strip in entered):
        return []
    fed = {wire.target for wire in sound.wires}
    fed |= {after for place in fed for after in sound.onward.get(place, ()) if not after.leaves}
    return [
        strip.name
        for strip, (inlet, sides) in sound.feeds.items()
        if strip.box == box and not any(Place(inlet, side, False) in fed for side in sides)
    ]


def _free_engines(followed: Followed, box: str) -> list[str]:
    notes = followed.notes
    return [
        engine.name
        for engine in followed.rig.engines
        if engine.box == box
        and engine not in followed.tenants
        and notes.channel(engine) != "off"
        and notes.level(engine) == "up"
    ]
