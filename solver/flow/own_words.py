"""What a plan file says of itself - title, settings, counts, timing - against what its cables and parts come to."""

from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.settings import goals, settings
from solver.flow.timing import timing
from solver.jam.jam import Jam
from solver.plans import Plan, Setting


def misstated(jam: Jam, plan: Plan) -> tuple[str, ...]:
    """Sentences about what a plan says wrongly of itself; what it leaves out is not judged.

    None of these breaks a rule, but a musician would turn the wrong knob by them.
    """
    return (*_title(jam, plan), *_settings(jam, plan), *_goals(jam, plan), *_timing(jam, plan))


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
