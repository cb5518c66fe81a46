"""Each mutant of the source has a test that passes without it and fails with it."""

import pytest

from tests.mutation.killers import equivalent, killers
from tests.mutation.killing import Tests, fails, with_tests
from tests.mutation.mutants import Mutant, every

COMMAND = "run python -m tests.mutation, and write a test for each mutant that it says survives"


def _files() -> dict[str, list[Mutant]]:
    files: dict[str, list[Mutant]] = {}
    for mutant in every():
        files.setdefault(mutant.file, []).append(mutant)
    return files


def test_each_mutant_has_a_killer_or_a_reason_and_nothing_else_has() -> None:
    listed = [*killers(), *equivalent()]
    now = [mutant.id for mutant in every()]
    assert sorted(set(now) - set(listed)) == [], COMMAND
    assert sorted(set(listed) - set(now)) == [], COMMAND
    assert len(listed) == len(set(listed)), COMMAND


@pytest.mark.parametrize("file", _files())
def test_killers_pass_and_fail_with_their_mutants(file: str) -> None:
    known = killers()
    mutants = [mutant for mutant in _files()[file] if mutant.id in known]
    wrong: list[str] = []

    def judge(tests: Tests) -> None:
        for killer in dict.fromkeys(known[mutant.id] for mutant in mutants):
            if killer not in tests or fails(tests[killer]):
                wrong.append(f"{killer} is not there, or fails without a mutant")
        for mutant in mutants:
            killer = tests.get(known[mutant.id])
            if killer is not None and not fails(killer, mutant):
                wrong.append(f"{mutant.id} survives {known[mutant.id]}")

    with_tests(dict.fromkeys(known[mutant.id] for mutant in mutants), judge)
    assert wrong == [], COMMAND
