"""A set file, the set in it, and the set after some changes: a jam more or less, or a change of one of its jams."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path as FilePath
from typing import NamedTuple

from solver.codes import Code
from solver.gear.words import quoted
from solver.jam.editing import Cut, Put, Step
from solver.reading.asked import Request
from solver.reading.changed import Changed
from solver.reading.problems import BadInput
from solver.reading.rewriting import RewriteError, rewritten
from solver.reading.sets import jam_of_set, set_from, set_source
from solver.reading.source import Option


class Rewritten(NamedTuple):
    """A file, its text as it is and as it would be."""

    file: str
    old: str
    new: str


class ChangedSet:
    """One set file and what is asked to change in it.

    Attributes:
        before: The set as the files have it.
        after: The set as it would be.
        said: A sentence for each jam that comes or goes.
        inner: The changes of one of its jams, by the jam's name in the set; None where there are none.
    """

    def __init__(self, file: str, inside: str | None, requests: Iterable[Request]) -> None:
        """Read a set file, then what is asked.

        Args:
            file: The set file.
            inside: The jam that other changes than "--add-jam" and "--drop-jam" are about, as the set names it.
            requests: Options with their values.

        Raises:
            BadInput: the file, what is asked, or the set after it says what cannot be.
        """
        listed = list(requests)
        data, self._source = set_source(file)
        self.before = set_from(data, self._source)
        self.said: list[str] = []
        self._steps: list[Step] = []
        names = list(self.before.files)
        for option, text in listed:
            if option == "--drop-jam":
                place = names.index(jam_of_set(self.before, option, text))
                self._steps.append(Cut(("jams", place)))
                self.said.append(f"{self.before.files[names[place]].title} is left out")
        gone = [step.path for step in self._steps]
        if len(set(gone)) < len(gone) or len(gone) == len(names):
            last = len(set(gone)) == len(gone)
            what = "the last jam" if last else "a jam that is left out already"
            code = Code.STAYS if last else Code.CLASH
            raise BadInput([Option("--drop-jam", "").problem(code, (), what, "each jam once, and not all of them")])
        kept = [name for place, name in enumerate(names) if ("jams", place) not in gone]
        for option, text in listed:
            if option == "--add-jam":
                name = FilePath(os.path.relpath(text, FilePath(file).parent)).as_posix()
                self._steps.append(Put(("jams", len(kept)), name))
                kept.append(name)
        joined = set_from({**data, "jams": kept}, self._source)
        new = [name for name in kept if name not in names]
        self.said += [f"{joined.files[name].title} joins, as number {kept.index(name) + 1}" for name in new]
        others = [request for request in listed if request.option not in ("--add-jam", "--drop-jam")]
        self.inner = self._within(inside, others, kept)
        self.after = joined
        if self.inner is not None:
            self.after = joined.changed({**joined.files, self.inner[0]: self.inner[1].after})

    @property
    def file(self) -> str:
        """The set file."""
        return self._source.file

    def _within(self, inside: str | None, requests: list[Request], kept: list[str]) -> tuple[str, Changed] | None:
        if inside is None and not requests:
            return None
        if inside is None:
            option = Option(requests[0].option, "")
            allowed = "with --in, which names the jam of the set"
            raise BadInput([option.problem(Code.NOT_FOR_FILE, (), "a change of a jam", allowed)])
        name = jam_of_set(self.before, "--in", inside)
        if name not in kept:
            option = Option("--in", inside)
            raise BadInput([option.problem(Code.CLASH, (), quoted(inside), "a jam that stays in the set")])
        return name, Changed(str(FilePath(self.file).parent / name), requests)

    def rewritten(self) -> list[Rewritten]:
        """The files that the changes are made in.

        Raises:
            BadInput: a file's layout does not let them be made.
        """
        found: list[Rewritten] = []
        text = self._source.text
        try:
            new = rewritten(text, self._steps)
        except RewriteError as error:
            said = f"{error.why}: make this change by hand"
            raise BadInput([self._source.problem(Code.LAYOUT, error.path, said)]) from None
        if self._steps:
            found.append(Rewritten(self.file, text, new))
        if self.inner is not None:
            found.append(Rewritten(self.inner[1].file, self.inner[1].text, self.inner[1].rewritten()))
        return found
