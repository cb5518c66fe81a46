"""Where levels start before the line check."""

from collections.abc import Iterator

from solver.flow.company import company
from solver.flow.followed import Followed
from solver.flow.gains import Gains
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.levels import db_words
from solver.sheet.step import Label, Name, New, Step, names


def level_steps(jam: Jam, plan: Plan) -> Iterator[Step]:
    """A step for each strip in use, with the trim that ``hardpan trace`` works out, and for parts on no strip."""
    gains = Gains(Followed(jam, plan))
    for spot in map(Spot.parse, plan.strips):
        if gains.strips.get(spot):
            here = company(jam, gains, spot)
            does = (Name(spot.box), " strip ", Label(spot.name), ": fader at 0, trim ", New(db_words(here.trim)))
            yield Step(does, (*names(here.parts), "; go on by ear"))
    for name, part in plan.parts.items():
        if not any((part.strips or {}).values()):
            box, engine = Spot.parse(part.engine)
            yield Step(
                (Name(box), " engine ", Label(engine), ": level at its usual mark"), (Name(name), "; go on by ear")
            )
