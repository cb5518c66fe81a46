"""What ``hardpan export`` does: reads or makes a plan, makes each file of it, and only then writes them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, NoReturn

import solver
from solver.cli.answering import (
    Answer,
    answering,
    complain,
    give_breaches,
    give_impossible,
    give_undecided,
    leave,
    line_width,
    status_of,
)
from solver.cli.exits import Exit
from solver.cli.saving import SaveError, save, target_of
from solver.cli.telling import telling
from solver.codes import Code
from solver.flow.own_words import misstated, set_misstated
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import Impossible, Planned, PlannedSet, Undecided
from solver.reading import (
    Saved,
    SavedSet,
    is_set_file,
    is_set_plan_file,
    read_jam,
    read_plan,
    read_saved,
    read_saved_set,
    read_set,
)
from solver.reading.sets import jam_of_set
from solver.sheet.answers import STOPPED
from solver.sheet.cells import clean, wrap
from solver.sheet.formats import FORMATS, SET_FORMATS
from solver.sheet.hand_steps import hand_steps

if TYPE_CHECKING:
    from solver.checking import Breach


class Wanted(NamedTuple):
    """What the options ask: the jam of a plan that carries none, one jam of a set, and the form of the answer."""

    jam: Path | None
    inside: str | None
    as_json: bool
    time_limit: float


def answer(file: Path, targets: Sequence[Path], wanted: Wanted) -> None:
    """Export the plan in a file, or the plan of the jam or set in a file."""
    with answering(wanted.as_json) as given:
        is_toml = file.suffix.lower() == ".toml"
        is_set = is_set_file(file) if is_toml else is_set_plan_file(file)
        if wanted.jam is not None and (is_toml or is_set):
            said = f"{file} is a jam itself, or has its jams: --jam goes with the plan of one jam."
            raise SaveError(Code.NOT_FOR_FILE, said)
        if wanted.inside is not None and not is_set:
            raise SaveError(Code.NOT_FOR_FILE, f"{file} is no set: --in names a jam of a set.")
        places = [(target, target_of(target, file if is_toml else None, _ending(target))) for target in targets]
        twice = [target for target, place in places if [other for _, other in places].count(place) > 1]
        if twice:
            raise SaveError(Code.NAMED_TWICE, f"{twice[0]}: is named twice. Name each file once.")
        if is_set:
            whole = _set_in(given, file, wanted.time_limit)
            if wanted.inside is None:
                _export_set(given, whole, places)
            saved = _one_of(whole, wanted.inside)
        else:
            saved = _planned(given, file, wanted.time_limit) if is_toml else _read(given, file, wanted.jam)
        made = [(place, FORMATS[_ending(target)].made(*saved)) for target, place in places]
        for place, what in made:
            save(place, what)
        _tell(given, saved, [str(target) for target in targets])


def _set_in(given: Answer, file: Path, time_limit: float) -> SavedSet:
    """The plan of the set in a file, which may be a set file or a plan."""
    return _planned_set(given, file, time_limit) if file.suffix.lower() == ".toml" else _read_set(given, file)


def _one_of(saved: SavedSet, name: str) -> Saved:
    """One jam of a set, with its own plan on the set's wiring."""
    file = jam_of_set(saved.of, "--in", name)
    return Saved(saved.of.alone(file), saved.plan.jams[file])


def _export_set(given: Answer, saved: SavedSet, places: Sequence[tuple[Path, Path]]) -> NoReturn:
    """Export the plan of a set."""
    for target, _ in places:
        if _ending(target) not in SET_FORMATS:
            known = ", ".join(SET_FORMATS)
            said = f"{target}: of a whole set, {known} can be made. --in JAM makes the others of one jam."
            raise SaveError(Code.WRONG_ENDING, said)
    made = [(place, SET_FORMATS[_ending(target)](*saved)) for target, place in places]
    for place, what in made:
        save(place, what)
    written = [str(target) for target, _ in places]
    data = {"title": saved.plan.title, "status": saved.plan.status, "written": written}
    given.give(lambda: "".join(f"Written: {clean(name)}\n" for name in written), lambda: data)
    leave(Exit.WELL)


def _read_set(given: Answer, file: Path) -> SavedSet:
    """The saved plan of a set that keeps every rule; else the command ends."""
    saved = read_saved_set(file)
    _judge(given, saved.of, file, solver.check(*saved), tuple(set_misstated(*saved)))
    return saved


def _planned_set(given: Answer, file: Path, time_limit: float) -> SavedSet:
    """The best plan of a set; the command ends where there is none."""
    asked = read_set(file)
    with telling() as tell:
        outcome = solver.plan(asked, time_limit=time_limit, progress=tell)
    if not isinstance(outcome, PlannedSet):
        _give_none(given, asked, file, outcome)
    if outcome.stopped:
        complain([STOPPED])
    return SavedSet(asked, outcome.best)


def _tell(given: Answer, saved: Saved, written: list[str]) -> None:
    """Name what is written; beside a MIDI file, also what hands do for it."""
    by_hand = hand_steps(*saved) if any(name.lower().endswith(".mid") for name in written) else ()
    lines = [f"Written: {clean(name)}" for name in written]
    if by_hand:
        lines += ["", "By hand, for the line check with the MIDI file:"]
        lines += [line for step in by_hand for line in wrap(step, line_width(), "- ", "  ")]
    data = {"title": saved.plan.title, "status": saved.plan.status, "written": written}
    given.give(
        lambda: "".join(f"{line}\n" for line in lines), lambda: data | ({"by_hand": list(by_hand)} if by_hand else {})
    )


def _ending(target: Path) -> str:
    """The ending of a file that can be made.

    Raises:
        SaveError: there is none, or nothing is made with such an ending.
    """
    ending = target.suffix.lower()
    if ending in FORMATS:
        return ending
    hint = "" if ending != ".pdf" else " For a PDF, make a page (.html) and print it."
    said = f"{target}: its ending says what to make, one of {', '.join(FORMATS)}.{hint}"
    raise SaveError(Code.WRONG_ENDING, said)


def _read(given: Answer, file: Path, jam: Path | None) -> Saved:
    """A saved plan that keeps every rule; else the command ends."""
    if jam is None:
        saved = read_saved(file)
    else:
        its = read_jam(jam)
        saved = Saved(its, read_plan(file, its))
    _judge(given, saved.jam, file, solver.check(*saved), misstated(*saved))
    return saved


def _judge(given: Answer, jam: Jam | JamSet, file: Path, breaches: Sequence[Breach], notes: Sequence[str]) -> None:
    """Note what a plan says wrongly of itself; the command ends where it breaks rules."""
    complain(f"Note: {note}" for note in notes)
    if breaches:
        complain([f"Nothing is written: {file} breaks rules."])
        give_breaches(given, jam, breaches, notes, "")
        leave(Exit.FAILED)


def _planned(given: Answer, file: Path, time_limit: float) -> Saved:
    """The best plan of a jam; the command ends where there is none."""
    jam = read_jam(file)
    with telling() as tell:
        outcome = solver.plan(jam, time_limit=time_limit, progress=tell)
    if not isinstance(outcome, Planned):
        _give_none(given, jam, file, outcome)
    if outcome.stopped:
        complain([STOPPED])
    return Saved(jam, outcome.best)


def _give_none(given: Answer, jam: Jam | JamSet, file: Path, outcome: Impossible | Undecided) -> NoReturn:
    if isinstance(outcome, Impossible):
        give_impossible(given, jam, str(file))
    else:
        give_undecided(given, jam, outcome)
    leave(status_of(outcome))
