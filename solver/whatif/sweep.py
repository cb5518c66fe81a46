"""Single changes worth knowing, each planned: what may break, what one more would gain, what each wish costs."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple

from solver.asking import ask
from solver.flow.settings import goals_of
from solver.flow.wires import sockets
from solver.flow.wording import counted, intent_words, listing
from solver.gear.words import Spot
from solver.jam.editing import Changes, changed
from solver.jam.jam import MOST_CABLES, Jam
from solver.outcome import Impossible, Outcome, Planned, Undecided
from solver.plans import Goals, Plan
from solver.reasons.changes import one_thru_box
from solver.reasons.easing import one_more_cable, one_more_out, one_more_outlet, one_more_strip
from solver.search.clock import Clock
from solver.whatif.difference import Side, difference

About = Literal["lose", "more", "without"]
"""Something is lost, there is one more of something, or a wish is left out."""

Tell = Callable[[int, int], None]
"""Is told how many changes are tried, of how many."""


class Change(NamedTuple):
    """One change: in words, the statement that it is about, if any, and the jam after it."""

    about: About
    says: str
    after: Jam
    statement: str = ""


class Then(NamedTuple):
    """What a plan after a change costs, and what hands have to do for it.

    ``same`` where nothing has to be moved; ``proved`` where no plan has fewer cables.
    """

    goals: Goals
    plugs: int = 0
    settings: int = 0
    same: bool = True
    proved: bool = True


Ending = Then | Literal["impossible", "undecided"]


class Row(NamedTuple):
    """A change and what becomes of the plan: a plan near the one as it is, or none, or it is not decided."""

    change: Change
    then: Ending


class Sweep(NamedTuple):
    """What the jam as it is ends in, and a row for each change; ``done`` where there was time for all."""

    base: Outcome
    rows: tuple[Row, ...]
    done: bool


def sweep(jam: Jam, clock: Clock, tell: Tell = lambda tried, of: None) -> Sweep:
    """Try every single change worth knowing.

    The searches share what they find: a change that takes nothing away from the plan in hand leaves it the best, and
    changes that end in the same jam are planned once.
    """
    base = ask(jam, 0, clock.left, None)
    if isinstance(base, Undecided):
        return Sweep(base, (), done=False)
    best = base.best if isinstance(base, Planned) else None
    every = list(changes(jam, best))
    known: list[tuple[Jam, Ending]] = []
    rows: list[Row] = []
    for number, change in enumerate(every):
        if clock.over:
            return Sweep(base, tuple(rows), done=False)
        tell(number, len(every))
        then = next((said for after, said in known if after == change.after), None)
        if then is None:
            untouched = best is not None and change.about == "lose" and _holds(best, jam, change.after)
            then = Then(goals_of(best)) if best is not None and untouched else _planned(jam, best, change.after, clock)
            known.append((change.after, then))
        rows.append(Row(change, then))
    return Sweep(base, tuple(rows), done=all(isinstance(row.then, Then) or row.then != "undecided" for row in rows))


def changes(jam: Jam, best: Plan | None) -> Iterator[Change]:
    """Every single change worth knowing: what is lost, one more of something, one wish less."""
    yield from _losses(jam, best)
    for name, box in jam.boxes.items():
        if box.strips or name == jam.ears.box:
            like = f", like {box.strips[-1].name}" if box.strips else ""
            yield Change("more", f"one more strip on {name}{like}", _with(jam, name, one_more_strip(box)))
    for name, box in jam.boxes.items():
        if name != jam.ears.box and box.engines:
            more = one_more_outlet(box, stereo=False)
            yield Change("more", f"one more mono outlet on {name}", _with(jam, name, more))
    for name, box in jam.boxes.items():
        if any(port.way in ("out", "both") for port in box.ports) and box.tracks:
            yield Change("more", f"one more MIDI out on {name}", _with(jam, name, one_more_out(box)))
    thru = one_thru_box(jam)
    if thru is not None:
        yield Change("more", "a MIDI thru box, one in to four thrus", _with(jam, *thru))
    for kind in jam.rig.kinds if jam.cables is not None else ():
        yield Change("more", f"one more cable of {kind}", one_more_cable(jam, kind))
    for place, intent in enumerate(jam.intents):
        after = changed(jam, Changes(drops=(("intent", place),)))
        yield Change("without", f"without {intent_words(intent)}", after, f"intent.{place + 1}")


def _losses(jam: Jam, best: Plan | None) -> Iterator[Change]:
    """Each kind of cable that the plan uses, one less than it needs or a spare; then each box."""
    used: dict[str, int] = {}
    for cable in best.cables if best is not None else ():
        used[cable.kind] = used.get(cable.kind, 0) + 1
    for kind in jam.rig.kinds:
        count = used.get(kind, 0)
        held = MOST_CABLES if jam.cables is None else jam.cables.get(kind, 0)
        if count and jam.cables is not None and held > count:
            after = jam.changed(cables={**jam.cables, kind: held - 1})
            yield Change("lose", f"lose a cable of {kind}: the drawer has {counted(held - count, 'spare')}", after)
        elif count:
            drawer = jam.cables if jam.cables is not None else dict.fromkeys(jam.rig.kinds, MOST_CABLES)
            left = f"{count - 1} of {count} left" if count > 1 else "the only one"
            yield Change("lose", f"lose a cable of {kind}: {left}", jam.changed(cables={**drawer, kind: count - 1}))
    for name in jam.boxes:
        if name not in (jam.leader, jam.ears.box):
            homeless = [part for part, said in jam.parts.items() if said.on and Spot.parse(said.on).box == name]
            moves = f"; {listing(homeless)} may live elsewhere" if homeless else ""
            yield Change("lose", f"lose the box {name}{moves}", changed(jam, Changes(drops=(("boxes", name),))))


def _with(jam: Jam, name: str, box: object) -> Jam:
    return jam.changed(boxes={**jam.boxes, name: box})


def _planned(jam: Jam, best: Plan | None, after: Jam, clock: Clock) -> Ending:
    """What a changed jam ends in, near the plan as it is."""
    outcome = ask(after, 0, clock.left, None, best)
    if not isinstance(outcome, Planned):
        return "impossible" if isinstance(outcome, Impossible) else "undecided"
    plan = outcome.best
    boxes = {
        name: after.boxes.get(name, box) for name, box in jam.boxes.items()
    }  # with one more jack, a box is the same
    told = difference(Side(jam.changed(boxes=boxes), best) if best is not None else None, Side(after, plan))
    return Then(goals_of(plan), told.plugs, told.turned, told.none, plan.proof.get("cables", False))


def _holds(best: Plan, before: Jam, after: Jam) -> bool:
    """Whether the plan has nothing of what is lost: no cable that the drawer lacks then, nothing of a box that goes."""
    gone = before.boxes.keys() - after.boxes.keys()
    touched = {plug.box for cable in best.cables for ends in (cable.source, cable.to) for plug in sockets(ends)}
    touched |= {Spot.parse(part.engine).box for part in best.parts.values()}
    touched |= {setting.box for setting in best.settings}
    kinds = [str(cable.kind) for cable in best.cables]
    held = {str(kind): count for kind, count in (after.cables or {}).items()}
    enough = after.cables is None or all(kinds.count(kind) <= held.get(kind, 0) for kind in kinds)
    return touched.isdisjoint(gone) and enough
