"""Explanations that several tests look at, each made once, and with all the time it needs.

Tests of time limits, of progress and of what two runs have in common make their own.
"""

from collections.abc import Callable
from typing import Any, TypeVar

import pytest

import solver
from solver.cli import explain_answer
from solver.jam.intents import Avoid, Keep
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.reasons import explained
from solver.reasons.explained import WhyImpossible

SHARES = ("CONFLICT_SECONDS", "FACT_SECONDS", "REPAIR_SECONDS", "WHY_SECONDS")
LONG = 600.0
"""Seconds for everything, so that no answer depends on how fast the machine is."""
ENOUGH = 60.0
"""Whoever gives less time than this wants to see what is said when it is up."""

R = TypeVar("R")
Known = dict[tuple[object, ...], Any]
_known: Known = {}
_explain, _fewer, _instead = solver.explain, explained.fewer, explained.instead


def _once(key: tuple[object, ...], make: Callable[[], R]) -> R:
    if key not in _known:
        with pytest.MonkeyPatch.context() as patch:
            for share in SHARES:
                patch.setattr(explained, share, LONG)
            _known[key] = make()
    found: R = _known[key]
    return found


def _content(of: Jam | JamSet) -> tuple[object, ...]:
    if isinstance(of, Jam):
        return (of.model_dump_json(by_alias=True),)
    jams = ((file, jam.model_dump_json(by_alias=True)) for file, jam in of.jams.items())
    return (of.title, of.first, *of.others, *jams)


def explain(of: Any, *, every: bool = False, time_limit: float | None = None, progress: object = None) -> Any:
    """What ``solver.explain`` says."""
    if time_limit is not None and time_limit < ENOUGH:
        return _explain(of, every=every, time_limit=time_limit)
    return _once(("explain", _content(of), every), lambda: _explain(of, every=every, time_limit=None))


def why_impossible(of: Jam) -> WhyImpossible:
    """Why a jam is impossible."""
    why = explain(of)
    assert isinstance(why, WhyImpossible)
    return why


def fewer(jam: Jam, time_limit: float | None, progress: object = None) -> Any:
    """What ``solver.reasons.explained.fewer`` says."""
    if time_limit is not None and time_limit < ENOUGH:
        return _fewer(jam, time_limit)
    return _once(("fewer", _content(jam)), lambda: _fewer(jam, None))


def instead(jam: Jam, wish: Keep | Avoid, time_limit: float | None, progress: object = None) -> Any:
    """What ``solver.reasons.explained.instead`` says."""
    if time_limit is not None and time_limit < ENOUGH:
        return _instead(jam, wish, time_limit)
    return _once(("instead", _content(jam), repr(wish)), lambda: _instead(jam, wish, None))


def let_commands_know(patch: pytest.MonkeyPatch) -> None:
    """Have ``hardpan explain`` say what is known already."""
    patch.setattr(solver, "explain", explain)
    patch.setattr(explain_answer, "fewer", fewer)
    patch.setattr(explain_answer, "instead", instead)
