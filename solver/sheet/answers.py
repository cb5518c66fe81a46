"""What is said when there is no plan to show, or none yet."""

from solver.codes import Code
from solver.flow.wording import counted
from solver.outcome import Progress
from solver.sheet.cells import wrap

STOPPED = "Stopped: this is the best plan found so far."

_GOALS = {
    "cables": ("cable", "cables"),
    "moved_plugs": ("plug to move", "plugs to move"),
    "changed": ("thing to change", "things to change"),
    "silenced": ("engine turned down", "engines turned down"),
    "by_hand": ("setting to move between jams", "settings to move between jams"),
    "settings_moved": ("setting to move", "settings to move"),
}


def impossible_text(title: str, file: str, width: int) -> str:
    """Say that nothing meets every wish, and who tells why."""
    lines = [
        f"Impossible, proved: no set of cables and settings meets every wish of {title}.",
        f"Next: hardpan explain {file} tells why, and what the cheapest ways out are.",
    ]
    return _lines(lines, width)


_AT_WORK = {
    "conflicts": "looking for what cannot be had together",
    "gear": "looking for the gear that matters",
    "wishes": "trying which wishes go together",
    "repairs": "trying ways out",
    "reasons": "trying to do without each thing",
}


def undecided_text(title: str, width: int, stopped: bool = False) -> str:
    """Say that neither a plan nor a proof was found, because time was up or because the user stopped the search."""
    when = "until you stopped it" if stopped else "in the time given"
    following = "let it run" if stopped else "give it more time: --time-limit takes seconds"
    lines = [
        f"Not decided: {when}, neither a plan for {title} was found nor a proof that there is none. [{Code.UNDECIDED}]",
        f"Next, {following}.",
    ]
    return _lines(lines, width)


def progress_text(progress: Progress) -> str:
    """How far the work is, such as ``4 s: best so far 6 cables, at least 4``."""
    if progress.goal == "changes":
        return f"{int(progress.seconds)} s: {progress.best} of {progress.bound} changes tried"
    if progress.goal in _AT_WORK:
        return f"{int(progress.seconds)} s: {_AT_WORK[progress.goal]}"
    one, many = _GOALS.get(progress.goal, ("", ""))
    said = []
    if one and progress.best is not None:
        said.append(f"best so far {counted(progress.best, one, many)}")
    if one and progress.bound is not None:
        least = str(progress.bound) if said else counted(progress.bound, one, many)
        said.append(f"at least {least}")
    if progress.goal == "cables" and progress.best is None:
        said.insert(0, "no plan yet")
    at_work = "no plan yet" if progress.goal == "all" else "tidying the plan"
    return f"{int(progress.seconds)} s: {', '.join(said) or at_work}"


def _lines(paragraphs: list[str], width: int) -> str:
    return "".join(f"{line}\n" for paragraph in paragraphs for line in wrap(paragraph, width))
