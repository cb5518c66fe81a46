"""A plan with all that it leaves out of itself worked out from its cables, parts and strips."""

from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.flow.project_names import recalled
from solver.flow.settings import goals, settings
from solver.flow.timing import timing
from solver.jam.jam import Jam
from solver.plans import Plan, PlannedPart


def completed(jam: Jam, plan: Plan) -> Plan:
    """The same plan with the settings, strips of parts, timing, cautions and counts that its cables and parts come to.

    Project names that it does not tell are proposed.

    What it says otherwise of them is replaced, for nobody is to turn a wrong knob; cautions that only the plan knows
    stay, behind the others.
    """
    followed = Followed(jam, plan)
    names = {box: saved.name for box, saved in plan.recall.items()}
    whole = plan.model_copy(
        update={
            "parts": {name: _entering(followed, name, part) for name, part in plan.parts.items()},
            "settings": settings(jam, plan),
            "recall": recalled({jam.title: jam}, {jam.title: names})[jam.title],
            "timing": timing(followed),
            "cautions": tuple(dict.fromkeys((*cautions(followed), *plan.cautions))),
        }
    )
    return whole.model_copy(update={"goals": goals(whole)})


def _entering(followed: Followed, name: str, part: PlannedPart) -> PlannedPart:
    if part.strips is not None or name not in followed.parts:
        return part
    entered: dict[str, tuple[str, ...]] = {}
    for strip in followed.sound.entered[name]:
        entered[strip.box] = (*entered.get(strip.box, ()), strip.name)
    return part.model_copy(update={"strips": entered})
