"""A plan with all that it leaves out of itself worked out from its cables, parts and strips."""

from collections.abc import Mapping

from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.flow.project_names import recalled
from solver.flow.settings import goals, settings
from solver.flow.timing import timing
from solver.flow.together import together
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan, PlannedPart, Recalled
from solver.set_plans import SetPlan


def completed(jam: Jam, plan: Plan) -> Plan:
    """The same plan with the settings, strips of parts, timing, cautions and counts that its cables and parts come to.

    Project names that it does not tell are proposed. What it says otherwise of the rest is replaced, for nobody is to
    turn a wrong knob; cautions that only the plan knows stay, behind the others.
    """
    recall = recalled({jam.title: jam}, {jam.title: _names(plan)})[jam.title]
    return _completed(jam, plan, recall)


def _completed(jam: Jam, plan: Plan, recall: Mapping[str, Recalled]) -> Plan:
    followed = Followed(jam, plan)
    whole = plan.model_copy(
        update={
            "parts": {name: _entering(followed, name, part) for name, part in plan.parts.items()},
            "settings": settings(jam, plan),
            "recall": recall,
            "timing": timing(followed),
            "cautions": tuple(dict.fromkeys((*cautions(followed), *plan.cautions))),
        }
    )
    return whole.model_copy(update={"goals": goals(whole)})


def _names(plan: Plan) -> dict[str, str]:
    """The project names that a plan tells, by box."""
    return {box: saved.name for box, saved in plan.recall.items()}


def _entering(followed: Followed, name: str, part: PlannedPart) -> PlannedPart:
    if part.strips is not None or name not in followed.parts:
        return part
    entered: dict[str, tuple[str, ...]] = {}
    for strip in followed.sound.entered[name]:
        entered[strip.box] = (*entered.get(strip.box, ()), strip.name)
    return part.model_copy(update={"strips": entered})


def completed_set(of: JamSet, plan: SetPlan) -> SetPlan:
    """The same of a set's plan, jam by jam, with what serves all jams and what is done between them."""
    recall = recalled(of.files, {file: _names(one) for file, one in plan.jams.items()})
    jams = {file: _completed(jam, plan.jams[file], recall[file]) for file, jam in of.jams.items()}
    return together(of, jams, plan)
