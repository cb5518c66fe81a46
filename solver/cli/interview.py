"""Questions put to whoever sits at the terminal, or answered by options where nobody does."""

import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, NoReturn

import click

from solver.cli.answering import complain, leave
from solver.cli.exits import Exit
from solver.cli.saving import SaveError, new_target_of
from solver.gear.nearest import nearest
from solver.making.questions import LAST, Choice, Interview, NotSoError, Question, Replies

NOTHING_WRITTEN = "Stopped: nothing is written."
INTRODUCTION = (
    "Enter takes what stands in brackets. At every question: back goes back to the last one, quit writes nothing,",
    "? tells more. A name that would be taken for one of these words goes in double quotes.",
)

Questions = Callable[[Replies], Interview]


def at_a_terminal() -> bool:
    """Whether somebody is there to answer."""
    return sys.stdin is not None and sys.stdin.isatty()


def replies_to(questions: Questions, given: Mapping[str, str], asking: bool) -> dict[str, Any]:
    """Walk through an interview to its end.

    Args:
        questions: makes the questions from the replies so far.
        given: answers that are known already, as they would be typed, by the keys of the questions. An empty one
            takes the default, and need not be asked for.
        asking: whether to ask for what is not given; else its default is taken.

    Raises:
        click.UsageError: a given answer will not do or is not asked for, or one without a default is not given.
        click.exceptions.Exit: whoever was asked stopped.
    """
    walk = _Walk(questions)
    if asking:
        complain(INTRODUCTION)
    while (question := walk.next()) is not None:
        if question.key in given and not (asking and walk.refused(question, given[question.key])):
            walk.reply(question, given[question.key])
        elif question.key != LAST and [choice.reply for choice in question.choices] == [question.default]:
            walk.reply(question, "")
        elif asking:
            walk.ask(question)
        elif question.default is None:
            raise click.UsageError(f"{question.option} is missing: {question.words}")
        else:
            walk.reply(question, "")
    for key, text in given.items():
        if text and key not in walk.replies:
            raise click.UsageError(_unasked(key, text, list(walk.replies)))
    return walk.replies


def _unasked(key: str, text: str, asked: list[str]) -> str:
    """That an answer is given to what is not asked."""
    option = next((option for ends, option in OPTIONS.items() if key.endswith(ends) or key.startswith(ends)), None)
    if option is not None:
        return f"{option} {text!r}: there is nothing to choose here with what else is said."
    near = nearest(key, asked)
    hint = f"did you mean {near}?" if near else "the answer ? to a question shows how it is called."
    return f"--answer {key}={text}: nothing is called so among what is asked with what else is said; {hint}"


OPTIONS = {
    ".sound": "--sound",
    "layer": "--layer",
    "treat": "--treat",
    "clock": "--clock",
    "drawer": "--drawer",
    "engine.channels": "--channels",
    "midi": "--midi",
    "part": "--part",
}
"""The options of questions that may not be asked, by how their keys begin or end."""


MOST_REPEATED = 6
"""A list with more choices is not shown twice in a row unless it is asked for."""

NOTHING = "-"
"""Stands for an empty answer where Enter would take what was typed before."""


class _Walk:
    """A way through an interview, on which one can go back."""

    def __init__(self, questions: Questions) -> None:
        self.replies: dict[str, Any] = {}
        self._questions = questions
        self._asked: list[str] = []
        self._typed: dict[str, str] = {}
        self._listed: tuple[Choice, ...] = ()

    def next(self) -> Question | None:
        """The first question without a reply."""
        return next((q for q in self._questions(self.replies) if q.key not in self.replies), None)

    def take(self, question: Question, answer: Any, typed: str | None) -> None:
        """Keep an answer, and what was typed if it was asked for."""
        self.replies[question.key] = answer
        if typed is not None:
            self._asked.append(question.key)
            self._typed[question.key] = "" if typed == question.default else typed

    def reply(self, question: Question, text: str) -> None:
        """Take an answer that was not typed."""
        try:
            self.take(question, question.answer(text), None)
        except NotSoError as error:
            raise click.UsageError(_refusal(question, text, error)) from None

    def refused(self, question: Question, text: str) -> bool:
        """Whether a given answer will not do, so that the question has to be asked."""
        try:
            question.answer(text)
        except NotSoError as error:
            complain(["", _refusal(question, text, error)])
            return True
        return False

    def ask(self, question: Question) -> None:
        """Ask until there is an answer, or until it is another question's turn."""
        default = self._default(question)
        again = len(question.choices) > MOST_REPEATED and question.choices == self._listed
        complain(["", question.words, *(["  (the same list as before; ? shows it)"] if again else _listed(question))])
        self._listed = question.choices or self._listed
        while True:
            typed = _typed(_prompt(question, default)).strip()
            if typed.casefold() == "quit" or (question.key == LAST and typed.casefold() in ("n", "no")):
                _stop()
            if typed.casefold() == "back":
                if self._back():
                    return
                complain(["This is the first question."])
                continue
            if typed == "?":
                by_option = [f"As an option: {_as_option(question)}"] if question.option else []
                complain([question.help, *by_option, *_listed(question)])
                continue
            text = "" if typed == NOTHING and question.default == "" else typed or default or ""
            try:
                self.take(question, question.answer(text), text)
            except NotSoError as error:
                complain([str(error)])
            else:
                return

    def _default(self, question: Question) -> str | None:
        """What was typed here before one went back, if it still will do; else the question's own default."""
        before = self._typed.get(question.key)
        if before:
            try:
                question.answer(before)
            except NotSoError:
                return question.default
        return before or question.default

    def _back(self) -> bool:
        """Forget the last reply that was typed, and those that followed from it."""
        if not self._asked:
            return False
        last = self._asked.pop()
        keys = list(self.replies)
        for key in keys[keys.index(last) :]:
            del self.replies[key]
        return True


def typed_target(text: str, force: bool) -> Path:
    """Where a new file is to stand, as it was typed for an answer.

    Raises:
        NotSoError: it cannot stand there.
    """
    try:
        return new_target_of(Path(text), force)
    except SaveError as error:
        raise NotSoError(str(error)) from None


def _refusal(question: Question, text: str, error: NotSoError) -> str:
    """Which answer will not do, and why."""
    asked = question.option or question.words
    return f"{asked} {text!r}: {error}" if text else f"{asked}: {error}"


def _as_option(question: Question) -> str:
    """How the answer is given on the command line; an option that ends in a key has its answer behind an =."""
    return f"{question.option}=..." if " " in question.option else question.option


def _listed(question: Question) -> list[str]:
    if question.key == LAST:
        return []
    wide = max((len(choice.reply) for choice in question.choices), default=0)
    return [
        f"  {number:>2}  {choice.reply.ljust(wide)}  {choice.words}".rstrip()
        for number, choice in enumerate(question.choices, start=1)
    ]


def _prompt(question: Question, default: str | None) -> str:
    if default and question.default == "":
        return f"[{default}; {NOTHING} for {question.nothing}]: "
    if default:
        return f"[{default}]: "
    return f"[{question.nothing}]: " if question.nothing and default is not None else ": "


def _typed(prompt: str) -> str:
    try:
        return str(click.prompt(prompt, default="", show_default=False, prompt_suffix="", err=True))
    except (click.Abort, UnicodeDecodeError):
        complain([""])
        _stop()


def _stop() -> NoReturn:
    complain([NOTHING_WRITTEN])
    leave(Exit.UNDECIDED)
