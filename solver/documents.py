"""JSON documents: data as text, and a plan with the jam that it is for, so that its sheets need no other file."""

import json
from collections.abc import Iterable
from typing import Any

from pydantic import BaseModel

from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan
from solver.set_plans import SetPlan


def json_text(data: Any) -> str:
    """A JSON document that ends with a line feed."""
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def plan_document(jam: Jam, plan: Plan, others: Iterable[Plan] | None = None) -> dict[str, Any]:
    """A plan as it is saved: with its jam, the boxes inlined and defaults left out.

    Args:
        jam: what the plan is for.
        plan: the plan.
        others: the next best ones, where they were asked for.
    """
    beside = {} if others is None else {"alternatives": [other.to_json() for other in others]}
    return plan.to_json() | beside | {"jam": _data_of(jam)}


def set_document(of: JamSet, plan: SetPlan, others: Iterable[SetPlan] | None = None) -> dict[str, Any]:
    """The plan of a set as it is saved: with its jams, and their boxes once."""
    beside = {} if others is None else {"alternatives": [other.to_json() for other in others]}
    boxes = {name: _data_of(box) for name, box in of.boxes.items()}
    jams = {file: _data_of(jam) | {"boxes": list(jam.boxes)} for file, jam in of.files.items()}
    return plan.to_json() | beside | {"set": {"title": of.title, "boxes": boxes, "jams": jams}}


def _data_of(thing: BaseModel) -> dict[str, Any]:
    """A box or jam as data, defaults left out."""
    return thing.model_dump(mode="json", by_alias=True, exclude_defaults=True)


def is_plan(raw: bytes) -> bool:
    """Whether a file is a JSON document with the keys that every plan of a jam or set has."""
    try:
        data = json.loads(raw)
    except (ValueError, RecursionError):
        return False
    return isinstance(data, dict) and {"title", "cables"} <= data.keys() and bool({"parts", "jams"} & data.keys())
