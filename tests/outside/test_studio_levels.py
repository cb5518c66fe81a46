"""Voltages of studio levels, by an audio electronics handbook."""

import math

import pytest

from solver.flow.levels import decibels
from tests.outside.checks import check

DBU, DBV = math.sqrt(0.6), 1.0
"""The volts of 0 dBu (a milliwatt in 600 ohms) and of 0 dBV."""


@check(
    "A line at +4 dBu is 11.78 dB above one at -10 dBV (11.79 comes of rounding 0 dBu to 0.775 V)",
    source="Audio electronics handbook, ISBN 978-0-240-81738-5, section 16.1 (excerpt; computed)",
    kind="published",
    right={"+4 dBu over -10 dBV": (4, -10, 11.7815), "0 dBu over 0 dBV": (0, 0, -2.2185)},
    wrong=(4, -10, 14),
)
def test_decibels_of_lines(of: tuple[float, float, float]) -> None:
    dbu, dbv, apart = of
    high, low = DBU * 10 ** (dbu / 20), DBV * 10 ** (dbv / 20)
    assert decibels(high / low) == pytest.approx(apart, abs=0.0001)
