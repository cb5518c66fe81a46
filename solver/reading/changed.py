"""A jam file, the jam in it, and the jam that it would hold after some changes."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path as FilePath
from typing import Any

from solver.codes import Code
from solver.gear.box import Box
from solver.jam.editing import Changes, Cut, Path, Step, after
from solver.jam.jam import Jam
from solver.reading.asked import Request, ask_all
from solver.reading.changes import NEW, Asked, Asking, Origin
from solver.reading.checking import Checked
from solver.reading.jams import jam_from, jam_source
from solver.reading.problems import BadInput, Problem, key_text
from solver.reading.rewriting import RewriteError, rewritten
from solver.reading.source import Source
from solver.reading.statements import is_intent


class Changed:
    """One jam file and what is asked to change in it.

    Attributes:
        before: The jam as the file has it.
        after: The jam as the file would have it.
        changes: What is changed; paths are those of the file.
        stages: The steps that this takes, those of each stage on what the stage before leaves.
    """

    def __init__(self, file: str, requests: Iterable[Request]) -> None:
        """Read a jam file, then what is asked.

        Raises:
            BadInput: the file, what is asked, or the jam after it says what cannot be.
        """
        data, self._source = jam_source(file)
        boxes: dict[FilePath, Box | None] = {}
        self.before = jam_from(data, self._source, boxes)
        asking = Asking(file, data)
        ask_all(requests, asking)
        asked = asking.done()
        self.changes: Changes = asked.changes
        _refuse_misshapen(data, self._source, asked)
        self.stages: tuple[tuple[Step, ...], ...] = self.changes.stages(data)
        for steps in self.stages:
            data = after(data, steps)
        self._pieced = _Pieced(self._source, asked, self.stages, len(data.get("intent", ())))
        self.after = jam_from(data, self._pieced, boxes) if any(self.stages) else self.before

    @property
    def file(self) -> str:
        """The jam file."""
        return self._source.file

    @property
    def text(self) -> str:
        """The text of the file as it is."""
        return self._source.text

    @property
    def box_files(self) -> dict[str, FilePath]:
        """The box file of each box that is put on the table, by its name there."""
        puts = (*self.changes.sets, *self.changes.adds)
        folder = FilePath(self.file).parent
        return {str(put.path[1]): folder / put.value for put in puts if put.path[0] == "boxes"}

    def line(self, path: Path) -> int | None:
        """The line of a path of the jam after the changes; None where the file does not say it."""
        return self._pieced.own_line(path)

    def rewritten(self) -> str:
        """The text of the file after the changes.

        Raises:
            BadInput: its layout does not let them be made one by one.
        """
        text = self._source.text
        for steps in self.stages:
            try:
                text = rewritten(text, steps)
            except RewriteError as error:
                said = f"{error.why}: make this change by hand"
                raise BadInput([self._source.problem(Code.LAYOUT, error.path, said)]) from None
        return text


def _refuse_misshapen(data: dict[str, Any], source: Source, asked: Asked) -> None:
    """Refuse values that their keys cannot take, before anything is looked up in them.

    Raises:
        BadInput: there are such values.
    """
    new = after(data, asked.changes.sets)
    boxes = {name: Box.model_construct(name=name) for name in new["boxes"]}
    told = _Told(source, asked.origins)
    checked = Checked(Jam, {**new, "boxes": boxes}, told, lambda fault: False)
    problems = [problem for problem in checked.problems if problem.file != source.file]
    if problems:
        raise BadInput(problems)


class _Told(Source):
    """A changed file: what is set or added stands where it was asked for, all else where it stood."""

    def __init__(self, base: Source, origins: Iterable[Origin]) -> None:
        super().__init__(base.file, base.text)
        self._origins = list(origins)

    def problem(
        self,
        code: Code,
        path: Path,
        found: str,
        allowed: str = "",
        suggestion: str | None = None,
        *,
        key: str | None = None,
    ) -> Problem:
        """A problem where the key path was asked for, or where it stands in the file."""
        for known, source, at in reversed(self._origins):
            if path[: len(known)] == known:
                return source.problem(code, (*at, *path[len(known) :]), found, allowed, suggestion, key=key)
        return super().problem(code, path, found, allowed, suggestion, key=key)


class _Pieced(_Told):
    """A changed file whose intents have moved up where some are left out, and with those that are added behind."""

    def __init__(self, base: Source, asked: Asked, stages: Iterable[Iterable[Step]], intents: int) -> None:
        cut = {step.path[1] for steps in stages for step in steps if isinstance(step, Cut) and is_intent(step.path)}
        added = sum(_is_new(path) for path, *_ in asked.origins)
        self._stood = [place for place in range(intents - added + len(cut)) if place not in cut]
        places = iter(range(len(self._stood), intents))
        origins = [
            (("intent", next(places)) if _is_new(path) else self._now(path), source, at)
            for path, source, at in asked.origins
        ]
        super().__init__(base, [origin for origin in origins if origin[0]])
        left_out = [(self._now(path), source, at) for path, source, at in asked.left_out]
        self._reasons = [*self._origins, *(origin for origin in left_out if origin[0])]

    def problem(
        self,
        code: Code,
        path: Path,
        found: str,
        allowed: str = "",
        suggestion: str | None = None,
        *,
        key: str | None = None,
    ) -> Problem:
        """A problem where the key path was asked for; else where something in it is changed, or where it stands."""
        asked_for = any(path[: len(known)] == known for known, *_ in self._origins)
        if len(path) > 1 and not asked_for:
            for known, source, at in reversed(self._reasons):
                if known[: len(path)] == path:
                    named = key_text(self._old(path)) if key is None else key
                    return source.problem(code, at, found, allowed, suggestion, key=named)
        return super().problem(code, path if asked_for else self._old(path), found, allowed, suggestion, key=key)

    def own_line(self, path: Path) -> int | None:
        """The line of a key path, where the file as it stands says it."""
        new = any(
            path[: len(known)] == known or (len(path) > 2 and known[: len(path)] == path) for known, *_ in self._origins
        )
        return None if new or path[:1] not in self._lines else self.line(self._old(path))

    def _old(self, path: Path) -> Path:
        """A path of the jam after the changes, as it was before."""
        if is_intent(path[:2]) and int(path[1]) < len(self._stood):
            return ("intent", self._stood[int(path[1])], *path[2:])
        return path

    def _now(self, path: Path) -> Path:
        """A path of the jam before the changes, as it is after; the empty one where nothing is left of its intent."""
        if not is_intent(path[:2]):
            return path
        place = int(path[1])
        return ("intent", self._stood.index(place), *path[2:]) if place in self._stood else ()


def _is_new(path: Path) -> bool:
    """Whether a path is that of an intent that is added."""
    return is_intent(path) and int(path[1]) >= NEW
