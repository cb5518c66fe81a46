"""Runs tests inside this process, as the source is and with a mutant of it."""

import io
from collections.abc import Callable, Iterable, Mapping
from contextlib import nullcontext, redirect_stdout
from pathlib import Path

import pytest
from _pytest.runner import runtestprotocol

from tests.mutation.mutants import Mutant

ROOT = Path(__file__).parents[2]
PLAIN = ("--capture=no", "-p", "no:cacheprovider", "-p", "no:xdist", "-p", "no:faulthandler")

Tests = Mapping[str, pytest.Item]
"""Tests by their node ids."""


class _Instead:
    """Does a job with the tests that pytest has found, instead of running each once."""

    def __init__(self, job: Callable[[Tests], None]) -> None:
        self._job = job
        self.done = False

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self._job({item.nodeid: item for item in session.items})
        self.done = True
        return True


def with_tests(asked: Iterable[str], job: Callable[[Tests], None]) -> None:
    """Do a job with all tests of these folders, files or node ids.

    Raises:
        RuntimeError: pytest did not find them, or not all.
    """
    instead, said = _Instead(job), io.StringIO()
    with redirect_stdout(said), pytest.MonkeyPatch.context() as patch:
        patch.delenv("PYTEST_ADDOPTS", raising=False)  # options of the outer run, such as those of xdist
        pytest.main([*PLAIN, f"--rootdir={ROOT}", *(str(ROOT / one) for one in asked)], plugins=[instead])
    if not instead.done:
        raise RuntimeError(said.getvalue())


def fails(test: pytest.Item, mutant: Mutant | None = None) -> bool:
    """Whether a test fails, as the source is or with a mutant of it."""
    with nullcontext() if mutant is None else mutant.applied():
        return any(report.failed for report in runtestprotocol(test, log=False, nextitem=None))
