"""What a plan file says of itself - title, settings, slots, counts, timing - against what it comes to."""

from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.settings import goals, settings
from solver.flow.timing import timing
from solver.flow.together import together
from solver.jam.jam import Jam
from solver.jam.sets import JamSet, slot_key
from solver.plans import Plan, Setting
from solver.set_plans import SetPlan


def misstated(jam: Jam, plan: Plan) -> tuple[str, ...]:
    """Sentences about what a plan says wrongly of itself; what it leaves out is not judged.

    None of these breaks a rule, but a musician would turn the wrong knob by them.
    """
    said = (_title, _settings, _recall, _goals, _timing)
    return tuple(note for judge in said for note in judge(jam, plan))


def set_misstated(of: JamSet, plan: SetPlan) -> Iterator[str]:
    """The same of the plan of a set, and jam by jam; of a jam, each sentence begins with its file."""
    if plan.title != of.title:
        yield f"The plan is written for {plan.title}, this set is {of.title}."
    for file, jam in of.jams.items():
        yield from (f"{file}: {note}" for note in misstated(jam, plan.jams[file]))
    is_so = together(of, plan.jams, plan)
    if plan.goals is not None and is_so.goals is not None:
        for what in ("cables", "silenced", "by_hand", "settings_moved"):
            said, counted = getattr(plan.goals, what), getattr(is_so.goals, what)
            if said != counted:
                yield f"The plan counts {said} for {what} of the set, it comes to {counted}."
    if "settings" in plan.model_fields_set and plan.settings != is_so.settings:
        yield "The plan lists what boxes store under settings, it comes to something else."
    said, counted = ([(one.before, one.changes) for one in of_set.between] for of_set in (plan, is_so))
    if "between" in plan.model_fields_set and said != counted:  # slots are judged jam by jam
        yield "The plan lists what is done between the jams under between, it comes to something else."


def _title(jam: Jam, plan: Plan) -> Iterator[str]:
    if plan.title != jam.title:
        yield f"The plan is written for {plan.title}, this jam is {jam.title}."


def _settings(jam: Jam, plan: Plan) -> Iterator[str]:
    if "settings" not in plan.model_fields_set:
        return
    needed = {_place(setting): setting for setting in settings(jam, plan)}
    listed: set[tuple[str, str, str]] = set()
    for setting in plan.settings:
        place, said = _place(setting), _said(setting)
        if place not in needed:
            yield f"The plan lists {said}, which is neither moved nor wanted."
        elif needed[place].value != setting.value:
            yield f"The plan lists {said}, it comes to {needed[place].value}."
        listed.add(place)
    for place, setting in needed.items():
        if place not in listed and setting.value != 0:
            yield f"The plan does not list {_said(setting)}."


def _recall(jam: Jam, plan: Plan) -> Iterator[str]:
    """Other slots, and names that are too long; a slot that was named since the plan was made is no fault of it."""
    for box, saved in plan.recall.items():
        is_so, length = jam.recall.get(box, ""), jam.boxes[box].name_length
        if saved.slot and slot_key(saved.slot) != slot_key(is_so):
            yield f"The plan recalls {saved.slot} on {box}, the jam {is_so or 'nothing'}."
        if length is not None and len(saved.name) > length:
            yield f"The plan names a project {saved.name}, the screen of {box} takes {length} letters."


def _goals(jam: Jam, plan: Plan) -> Iterator[str]:
    if plan.goals is not None:
        counted = goals(plan.model_copy(update={"settings": settings(jam, plan)}))
        for what in ("cables", "silenced", "settings_moved"):
            said, is_so = getattr(plan.goals, what), getattr(counted, what)
            if said != is_so:
                yield f"The plan counts {said} for {what}, it comes to {is_so}."


def _timing(jam: Jam, plan: Plan) -> Iterator[str]:
    taken = timing(Followed(jam, plan)) if plan.timing else ()
    for cable in plan.timing:
        if cable not in taken:
            yield f"The timing of the cable from {cable.source} to {cable.to} is not what it comes to in this jam."


def _place(setting: Setting) -> tuple[str, str, str]:
    return setting.box, setting.where, setting.what


def _said(setting: Setting) -> str:
    return f"{setting.what} {setting.value} on {setting.box}/{setting.where}"
