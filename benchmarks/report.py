"""Words what was measured as a page of docs."""

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from benchmarks.plot import parts
from benchmarks.variants import VARIANTS

TARGETS = {
    "plain (2, 4, 4)": 0.3,
    "plain (4, 8, 8)": 0.5,
    "plain (8, 8, 16)": 1.0,
    "plain (16, 8, 32)": 2.0,
    "set eight-bells": 10.0,
}
"""Seconds beyond the start of the libraries that the plain rigs, and eight jams on five boxes, should take at most."""

VARIANT_TARGET, SECOND_TARGET, MEMORY_TARGET = 2.0, 3.0, 250
HELP_TARGET, EXPLAIN_TARGET, WHAT_IF_TARGET = 1.5, 4.0, 2.0

NOTES = (Path(__file__).parent / "notes.md").read_text("utf-8")
"""What is the same whatever was measured."""

STAGES = ("read", "build", "search", "follow")


def report(found: dict[str, Any]) -> str:
    """The page."""
    sections = (
        ("Whole process", _whole(found)),
        ("Where the time goes", _split(found)),
        ("Explaining", [*_explained(found), "", *_conflicts(found)]),
        ("What if", _changed(found)),
        ("Growth", ["![Seconds to plan by parts](performance.svg)", "", *_growth(found)]),
        ("Side by side", [*_rivals(found), "", *_hand(found)]),
    )
    lines = ["# How long plans take", "", *_setting(found)]
    for title, body in sections:
        lines += ["", f"## {title}", "", *body]
    return "\n".join([*lines, "", NOTES.format(rounds=1 if found["quick"] else 5)])


def _setting(found: dict[str, Any]) -> Iterator[str]:
    machine = found["machine"]
    versions = ", ".join(f"{name} {number}" for name, number in machine["versions"].items())
    yield f"Measured on {machine['date']} with {machine['cores']} cores ({machine['system']}),"
    yield f"Python {machine['python']}, {versions}."
    yield f"Load of the machine after the whole processes: {machine['load']} (1 is one busy core)."
    yield "A rig (N, M, K) has N modules of M engines and a leader with K strips; `benchmarks/rigs.py` tells more."


def _table(head: Iterable[str], rows: Iterable[Iterable[str]]) -> Iterator[str]:
    listed = list(head)
    yield f"| {' | '.join(listed)} |"
    yield f"|{' --- |' * len(listed)}"
    yield from (f"| {' | '.join(row)} |" for row in rows)


def _target(name: str) -> float | None:
    variant = name.split(" ", maxsplit=1)[0]
    if name in TARGETS:
        return TARGETS[name]
    if variant not in VARIANTS or "(" not in name:
        return None
    return SECOND_TARGET if variant == "second" else VARIANT_TARGET


def _whole(found: dict[str, Any]) -> Iterator[str]:
    whole, inside = found["whole"], found["inside"]
    rows = [_process(name, taken, whole["libraries"], inside.get(name)) for name, taken in whole.items()]
    yield from _table(("what", "seconds", "work", "beyond the libraries (work)", "target", "MB", "answer"), rows)
    ratio = whole["help"]["seconds"] / whole["click"]["seconds"]
    most = max(float(taken["memory"]) for taken in whole.values())
    yield ""
    yield f"`hardpan --help` takes {ratio:.2f} times as long as `python -c 'import click'` (target {HELP_TARGET:g})."
    yield f"The memory target is {MEMORY_TARGET} MB; the most taken is {most:.0f} MB."
    yield from _refusals(found)


def _process(name: str, taken: dict[str, float], base: dict[str, float], inside: dict[str, Any] | None) -> list[str]:
    cells = [name, f"{taken['seconds']:.2f}", f"{taken['work']:.2f}"]
    memory = f"{taken['memory']:.0f}"
    if inside is None:
        return [*cells, "", "", memory, ""]
    extra, work = (taken[what] - base[what] for what in ("seconds", "work"))
    target = _target(name)
    answer = str(inside["status"])
    if answer == "planned":
        answer += " (proved)" if inside["proved"] else " (not proved)"
    return [*cells, f"{extra:.2f} ({work:.2f})", "" if target is None else f"{target:g}", memory, answer]


def _refusals(found: dict[str, Any]) -> Iterator[str]:
    """How the slowest proof that there is no plan compares with the plain rig of its size."""
    inside = found["inside"]
    sized = {name: one for name, one in inside.items() if name.split(" ")[0] in VARIANTS and "search" in one}
    refused = [name for name, one in sized.items() if one["status"] == "impossible"]
    if refused:
        slowest = max(refused, key=lambda name: float(sized[name]["search"]))
        plain = sized[f"plain {slowest.split(' ', maxsplit=1)[1]}"]
        yield f"The slowest proof that there is no plan ({slowest}) takes {sized[slowest]['search']:.2f} s of search,"
        yield f"the plan of the plain rig of its size {plain['search']:.2f} s."


def _split(found: dict[str, Any]) -> Iterator[str]:
    rows = [
        [name, *(f"{one[stage]:.3f}" for stage in STAGES), str(one["choices"]), _goals(one)]
        for name, one in found["inside"].items()
        if "read" in one and "(" in name
    ]
    yield from _table(("rig", *STAGES, "choices", "cables/silenced/moved"), rows)


def _goals(one: dict[str, Any]) -> str:
    return "/".join(map(str, one.get("goals", ()))) or str(one["status"])


def _explained(found: dict[str, Any]) -> Iterator[str]:
    """Whole processes that explain an impossible scenario, against those that only prove it impossible."""
    taken = found["explained"]
    names = [name.removeprefix("plan ") for name in taken if name.startswith("plan ")]
    times = {name: taken[f"explain {name}"] / taken[f"plan {name}"] for name in names}
    rows = [[n, f"{taken[f'plan {n}']:.2f}", f"{taken[f'explain {n}']:.2f}", f"{times[n]:.1f}"] for n in names]
    yield from _table(("impossible scenario", "plan, s", "explain, s", "times"), rows)
    yield ""
    yield f"Explaining takes at most {max(times.values()):.1f} times as long as planning (target {EXPLAIN_TARGET:g})."


def _conflicts(found: dict[str, Any]) -> Iterator[str]:
    rows = [
        [
            name,
            str(one["parts"]),
            f"{one['first']:.2f}",
            f"{one['statements']} ({'minimal' if one['minimal'] else 'not shown minimal'})",
            f"{one['whole']:.2f}",
            str(one["repairs"]),
        ]
        for name, one in found["conflicts"].items()
    ]
    yield from _table(("rig", "parts", "first conflict, s", "statements", "all that is told, s", "ways out"), rows)


def _changed(found: dict[str, Any]) -> Iterator[str]:
    """Whole processes that ask what if, against those that only plan the jam as it is."""
    rows = []
    for asked, seconds in found["changed"].items():
        name, _, change = asked.partition(" ")
        plan = found["whole"][name]["seconds"]
        rows.append([name, f"`{change}`", f"{plan:.2f}", f"{seconds:.2f}", f"{seconds / plan:.1f}"])
    yield from _table(("jam", "what if", "plan, s", "what if, s", "times"), rows)
    yield ""
    yield f"The target for a single what-if with a plan is {WHAT_IF_TARGET:g} times."


def _growth(found: dict[str, Any]) -> Iterator[str]:
    rows = [
        [size, str(one["parts"]), *(f"{one[stage]:.3f}" for stage in STAGES[1:]), _goals(one)]
        for size, one in found["growth"].items()
        if "read" in one
    ]
    yield from _table(("rig", "parts", *STAGES[1:], "cables/silenced/moved"), rows)


def _rivals(found: dict[str, Any]) -> Iterator[str]:
    rows = []
    for size, ways in found["rivals"].items():
        ours = ways["hardpan"]
        seconds = ours["build"] + ours["search"] + ours["follow"]
        models = [_rival(ways[way], seconds, ours) for way in ("twin", "highs")]
        rows.append([size, str(parts(size)), f"{seconds:.2f}", *models, _by_hand(ways["hand"], ours)])
    head = ("rig", "parts", "hardpan, s", "plain model by CP-SAT, s", "plain model by HiGHS, s", "by hand")
    yield from _table(head, rows)


def _rival(one: dict[str, Any], seconds: float, ours: dict[str, Any]) -> str:
    if "seconds" not in one or one["status"] == "not installed":
        return str(one.get("why", one["status"]))
    times = one["seconds"] / seconds
    if one["status"] == "undecided":
        proved = f", {len(one['goals'])} of 3 goals proved"
        return f"not done in {one['seconds']:.0f} (more than {times:.0f} times{proved})"
    same = "" if list(one["goals"]) == list(ours.get("goals", ())) else ", ANOTHER ANSWER"
    return f"{one['seconds']:.2f} ({times:.1f} times{same})"


def _by_hand(one: dict[str, Any], ours: dict[str, Any]) -> str:
    if one["status"] != "planned":
        return f"{one['status']}: {one.get('why', '')}"
    more = f", {one['goals'][0] - ours['goals'][0]} more than needed" if "goals" in ours else ""
    return f"{one['goals'][0]} cables{more}"


def _hand(found: dict[str, Any]) -> Iterator[str]:
    inside = found["inside"]
    yield "By hand on each variant:"
    yield ""
    rows = [[name, _goals(inside[name]), _by_hand(one, inside[name])] for name, one in found["hand"].items()]
    yield from _table(("rig", "hardpan", "by hand"), rows)
