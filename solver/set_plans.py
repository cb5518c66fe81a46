"""The plan of a set as plain frozen data: one wiring, and a plan for each jam on it."""

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field

from solver.gear.box import Box
from solver.gear.words import Allowed, Flag, Name, Names, Strict, Text
from solver.jam.sets import MOST_JAMS
from solver.plans import Cable, Count, Goals, Plan, Setting, Status, Value

SET_BESIDE = ("alternatives", "set")
"""Keys of a saved plan that are not the plan's own: the next best ones, and the set that it is for."""


class SetGoals(Goals):
    """What the plan of a set costs: what serves all jams counts once, ``by_hand`` what hands move between jams."""

    by_hand: Count = 0


class Change(Strict):
    """A setting that is other in a jam than in the one before that needed it: moved by hand, or recalled."""

    box: Name
    of: Literal["engine", "strip", "track"]
    where: Name
    what: Name
    value: Value
    was: Value
    by: Literal["hand", "project"]


class Between(Strict):
    """What is done before a jam: projects to recall, by box, and settings that change.

    ``unnamed`` are boxes whose project brings a setting that changes, though the jam names no slot of them.
    """

    before: Name
    recall: dict[Name, Text] = Field(default={})
    unnamed: Names = ()
    changes: tuple[Change, ...] = ()


class SetPlan(Strict):
    """Cables for all jams of a set, settings that boxes store for all of them, and each jam's own plan.

    ``jams`` has the plan of each jam by its file, with all cables and settings in it.
    """

    title: Name
    status: Status = "found"
    proof: dict[str, Flag] = Field(default={})
    cables: tuple[Cable, ...]
    settings: tuple[Setting, ...] = ()
    jams: dict[Name, Plan]
    between: tuple[Between, ...] = ()
    goals: SetGoals | None = None

    def to_json(self) -> dict[str, Any]:
        """The plan as JSON data, in a fixed order."""
        return self.model_dump(mode="json", by_alias=True)

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> "SetPlan":
        """Read back what ``to_json`` wrote, or a plan written by hand.

        Raises:
            pydantic.ValidationError: a field is missing, unknown or out of range.
        """
        return cls.model_validate({key: value for key, value in data.items() if key not in SET_BESIDE})


class CarriedSet(Strict):
    """What a saved plan carries of its set: the boxes once, and the data of each jam, with the names of its boxes."""

    title: Name
    boxes: dict[Name, Box]
    jams: Annotated[
        dict[Name, dict[str, Any]], Field(min_length=1, max_length=MOST_JAMS), Allowed(f"1 to {MOST_JAMS} jams")
    ]
