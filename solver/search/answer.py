"""Turns the choices that hold into a plan."""

from collections.abc import Mapping
from typing import Any

from solver.flow.settings import goals, settings
from solver.gear.cables import Kind
from solver.gear.rig import Emission
from solver.gear.words import Channel, Spot
from solver.jam.intents import Layer
from solver.plans import Cable, Plan, PlannedEngine, PlannedPart, PlannedStrip
from solver.search.choices import Choices
from solver.search.solve import Answer


def plan_from(choices: Choices, answer: Answer, proof: Mapping[str, bool]) -> Plan:
    """The plan that an answer stands for, without its cautions."""
    jam = choices.jam
    plan = Plan(
        title=jam.title,
        status="proved" if all(proof.values()) else "found",
        proof=dict(proof),
        cables=(*_audio(choices, answer), *_midi(choices, answer)),
        parts={part: _part(choices, answer, part) for part in jam.parts},
        strips={
            str(strip): _strip(choices, answer, strip)
            for strip in jam.rig.strips
            if any(answer.holds(choices.enters(part, strip)) for part in jam.parts)
        },
        engines={str(engine): _engine(choices, answer, engine) for engine in jam.rig.engines},
    )
    plan = plan.model_copy(update={"settings": settings(jam, plan)})
    return plan.model_copy(update={"goals": goals(plan)})


def _cable(kind: Kind, start: str | tuple[str, str], end: str | tuple[str, str]) -> Cable:
    return Cable.model_validate({"kind": kind, "from": start, "to": end})


def _audio(choices: Choices, answer: Answer) -> list[Cable]:
    found = [
        (straight.start, _cable(straight.kind, str(straight.start), str(straight.end)))
        for straight in choices.wires.audio
        if answer.holds(straight.given)
    ]
    for cable in choices.wires.breakouts:
        if answer.holds(cable.given):
            left, right = (next(spot for spot, lit in leg.items() if answer.holds(lit)) for leg in cable.legs)
            single, legs = str(cable.single), (str(left), str(right))
            first = cable.single if cable.sends else left
            ends = (single, legs) if cable.sends else (legs, single)
            found.append((first, _cable(cable.kind, *ends)))
    order = {spot: place for place, spot in enumerate(choices.rig.jacks)}
    return [cable for _, cable in sorted(found, key=lambda pair: order[pair[0]])]


def _midi(choices: Choices, answer: Answer) -> list[Cable]:
    leads = [lead for lead in choices.wires.leads if answer.holds(lead.given)]
    return [_cable(lead.kind, str(lead.start), str(lead.end)) for lead in leads]


def _part(choices: Choices, answer: Answer, part: str) -> PlannedPart:
    layer = choices.jam.layer_of(part)
    engine = next(spot for spot in choices.rig.engines if answer.holds(choices.lives(part, spot)))
    track = next(spot for spot in choices.rig.tracks if answer.holds(choices.plays(layer, spot)))
    channel = next(option for option in choices.track_options if answer.holds(choices.sends(layer, option)))
    outlet, pan = _placed(choices, answer, Emission("engine", engine))
    strips = {
        box: tuple(
            spot.name for spot in choices.rig.strips if spot.box == box and answer.holds(choices.enters(part, spot))
        )
        for box in choices.rig.boxes
    }
    return PlannedPart.model_validate(
        {
            "engine": str(engine),
            "track": str(track),
            "channel": None if channel == "off" else channel,
            "outlet": outlet,
            "pan": pan,
            "strips": {box: names for box, names in strips.items() if names},
        }
    )


def _placed(choices: Choices, answer: Answer, emitter: Emission) -> tuple[str, str]:
    outlet = next(spot for spot in choices.rig.ways_out(emitter) if answer.holds(choices.emits(emitter, spot)))
    return outlet.name, next(pan for pan in choices.rig.pans(emitter) if answer.holds(choices.pans(emitter, pan)))


def _treated(choices: Choices, answer: Answer, emitter: Emission) -> dict[str, Any]:
    wanted = {want.effect for want in choices.jam.wanted if answer.holds(choices.passes(want.part, emitter))}
    amounts = {
        effect: next((a for a, lit in choices.amounts(emitter, effect).items() if answer.holds(lit)), 0)
        for effect in choices.rig.emitters[emitter].offers
        if effect in wanted
    }
    key = next((part for part, lit in choices.keys(emitter).items() if answer.holds(lit)), None)
    return {"settings": amounts, "key": key}


def _strip(choices: Choices, answer: Answer, strip: Spot) -> PlannedStrip:
    emitter = Emission("strip", strip)
    outlet, pan = _placed(choices, answer, emitter)
    treated = _treated(choices, answer, emitter)
    return PlannedStrip.model_validate({"outlet": outlet, "pan": pan, **treated})


def _engine(choices: Choices, answer: Answer, engine: Spot) -> PlannedEngine:
    options: list[Channel] = [o for o in choices.engine_options(engine) if answer.holds(choices.listens(engine, o))]
    shifts = [
        steps
        for _, intent in choices.jam.stated(Layer)
        for part, steps in intent.shift.items()
        if answer.holds(choices.lives(part, engine))
    ]
    treated = _treated(choices, answer, Emission("engine", engine))
    level = "zero" if answer.holds(choices.silenced(engine)) else "up"
    return PlannedEngine.model_validate(
        {"channel": options[0], "level": level, "shift": shifts[0] if shifts else 0, **treated}
    )
