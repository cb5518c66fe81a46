"""What every refusal of a file has to be: whole lines of plain words that name it."""

import re
from collections.abc import Callable

from solver.reading import BadInput

FOREIGN = re.compile(r"Input should|validation|Extra inputs|Field required|pydantic|stand-in|constrained|tomllib")
"""Words of libraries that no musician reads."""


def said_well(read: Callable[[], object]) -> bool:
    """Whether something is read; where it is bad input, each problem is one line of its own, in plain words."""
    try:
        read()
    except BadInput as error:
        problems = error.problems
    else:
        return True
    lines = "\n".join(map(str, problems)).split("\n")
    assert len(lines) == len(problems) > 0
    assert [line for line in lines if FOREIGN.search(line) or not line.isprintable()] == []
    assert len(set(lines)) == len(lines)
    assert all(problem.line is None or problem.line > 0 for problem in problems)
    assert all(problem.file for problem in problems)
    return False
