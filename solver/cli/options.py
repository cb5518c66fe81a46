"""What options of several commands may be."""

import math

import click


def seconds(_: click.Context, __: click.Parameter, number: float) -> float:
    """A time that can be waited for."""
    if not math.isfinite(number) or number <= 0:
        raise click.BadParameter("takes a number of seconds above 0.")
    return number
