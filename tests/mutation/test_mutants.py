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
        listed = dict.fromkeys(known[mutant.id] for mutant in mutants)
        sound = {name: tests[name] for name in listed if name in tests and not fails(tests[name])}
        wrong.extend(f"{name} is not there, or fails without a mutant" for name in listed if name not in sound)
        for mutant in mutants:
            name = known[mutant.id]
            if name in sound and not fails(sound[name], mutant):
                wrong.append(f"{mutant.id} survives {name}")

    with_tests(dict.fromkeys(known[mutant.id] for mutant in mutants), judge)
    assert wrong == [], COMMAND


def test_the_code_is_put_back() -> None:
    for mutant in every():
        before = mutant.target.__code__
        with mutant.applied():
            assert mutant.target.__code__ != before
        assert mutant.target.__code__ is before
