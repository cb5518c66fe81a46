"""What options of several commands may be, and how their help ends."""

import difflib
import math
from typing import TYPE_CHECKING, Any

import click


def seconds(_: click.Context, __: click.Parameter, number: float) -> float:
    """A time that can be waited for."""
    if not math.isfinite(number) or number <= 0:
        raise click.BadParameter("takes a number of seconds above 0.")
    return number


def example(line: str, status: int = 0) -> str:
    """The end of a command's help: one real command line, kept as it is, and its exit status where it is not 0."""
    told = f", with exit status {status}" if status else ""
    return f"\b\nExample{told}:\n  {line}"


if TYPE_CHECKING:
    _Words = click.Choice[str]
else:
    _Words = click.Choice


class Word(_Words):
    """One of a few words; for another one, the word that looks like it is named."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The word that is meant."""
        if value not in self.choices:
            near = difflib.get_close_matches(str(value).lower(), self.choices, n=1)
            hint = f" Did you mean {near[0]}?" if near else ""
            self.fail(f"{value!r} is none of the words {', '.join(self.choices)}.{hint}", param, ctx)
        return value
