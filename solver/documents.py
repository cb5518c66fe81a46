"""JSON documents: data as text, and a plan with the jam that it is for, so that its sheets need no other file."""

import json
from collections.abc import Iterable
from typing import Any

from solver.jam.jam import Jam
from solver.plans import Plan


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
    carried = jam.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    return plan.to_json() | beside | {"jam": carried}


def is_plan(raw: bytes) -> bool:
    """Whether a file is a JSON document with the keys that every plan has."""
    try:
        data = json.loads(raw)
    except (ValueError, RecursionError):
        return False
    return isinstance(data, dict) and {"title", "cables", "parts"} <= data.keys()
