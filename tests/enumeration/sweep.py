"""Compares the planner with trying everything on many jams: ``python -m tests.enumeration.sweep N SEED``."""

import sys
import time
from collections.abc import Iterator
from typing import Any

from pydantic import ValidationError

from solver.jam.jam import Jam
from tests.enumeration.agreement import Compared, compare, report
from tests.enumeration.rigs import seeded, small_enough


def sweep(seeds: range) -> Iterator[tuple[int, Jam, Compared]]:
    """Compare the jams of these seeds."""
    for seed in seeds:
        table = seeded(seed)
        yield seed, table, compare(table)


def smallest(table: Jam) -> Jam:
    """Take pieces off a jam as long as the planner and trying everything still differ on it."""
    data = table.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    shrinking = True
    while shrinking:
        shrinking = False
        for less in smaller(data):
            if _differs(less):
                data, shrinking = less, True
                break
    return Jam.model_validate(data)


def smaller(data: Any) -> Iterator[Any]:
    """The data with any one of its pieces left out, large ones first."""
    if isinstance(data, dict | list):
        keys = list(data) if isinstance(data, dict) else list(range(len(data)))
        for key in keys:
            yield _without(data, key)
        for key in keys:
            for less in smaller(data[key]):
                copy = data.copy()
                copy[key] = less
                yield copy


def _without(data: Any, key: Any) -> Any:
    copy = data.copy()
    del copy[key]
    return copy


def _differs(data: Any) -> bool:
    try:
        table = Jam.model_validate(data)
    except ValidationError:
        return False
    return small_enough(table) and bool(compare(table).differences)


def main(count: int, seed: int) -> int:
    """Sweep so many jams from a seed on; print every one on which the answers differ, cut small, and the shares."""
    start, possible, wrong = time.monotonic(), 0, 0
    for number, table, compared in sweep(range(seed, seed + count)):
        possible += compared.tried is not None
        if compared.differences:
            wrong += 1
            less = smallest(table)
            print(f"=== seed {number}: {compared.differences}\n{report(less, compare(less))}", flush=True)
    seconds = time.monotonic() - start
    print(f"{count} jams in {seconds:.0f} s: {possible} possible, {count - possible} impossible, {wrong} differ")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:3])))
