"""Changes of a jam as options of a command, or in a file of their own."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from pathlib import Path as FilePath
from typing import Annotated, Any, NamedTuple

from pydantic import Field

from solver.codes import Code
from solver.gear.words import Allowed, Name, Names, Strict, Text
from solver.reading.broken import toml_problem
from solver.reading.changes import Asking
from solver.reading.checking import Checked
from solver.reading.problems import BadInput, Problem
from solver.reading.source import Option, Source, toml_source
from solver.reading.statements import key_parts


class ChangesFile(Strict):
    """What a file of changes may hold."""

    boxes: Annotated[dict[Name, Text], Allowed("a table of names and box files in quotes")] = Field(default={})
    part: Annotated[dict[Name, dict[str, Any]], Allowed("[part.NAME] tables")] = Field(default={})
    intent: Annotated[tuple[dict[str, Any], ...], Allowed("[[intent]] tables")] = ()
    drop: Names = ()
    set: Annotated[dict[Name, Any], Allowed('a table of statements and values, such as "cables.din" = 3')] = Field(
        default={}
    )


class Request(NamedTuple):
    """One option and its value."""

    option: str
    text: str


_A_PART = 'a part and what is said of it, such as hats = { on = "reef" }'


def ask_all(requests: Iterable[Request], asking: Asking) -> None:
    """Ask for all that options say.

    Args:
        requests: "--add-box NAME=FILE", "--remove-box NAME", "--add-part TOML", "--drop-part NAME",
            "--add-intent TOML", "--drop ID", "--drawer KIND=N", "--set ID=VALUE" and "--from FILE", in any order.
        asking: Collects the changes.

    A value that is no TOML, or not what its option takes, is noted there.
    """
    for request in requests:
        try:
            _ask(*request, asking)
        except BadInput as error:
            asking.note(error.problems)


def _ask(option: str, text: str, asking: Asking) -> None:
    if text != text.encode(errors="ignore").decode():
        raise BadInput([Problem(Code.NOT_UTF8, option, None, "", "text that is no UTF-8", "text in UTF-8")])
    source = Option(option, text)
    match option:
        case "--from":
            _ask_in(text, asking)
        case "--remove-box":
            asking.remove_box(text, source, ())
        case "--drop-part":
            asking.drop_part(text, source, ())
        case "--drop":
            asking.drop(text, source, ())
        case "--add-box":
            asking.add_box(*_named(text, source), source, ())
        case "--drawer":
            kind, count = _halves(text, source, "a kind of cable and how many, such as din=3")
            asking.set(f"cables.{kind}", _value(count, source), source, ())
        case "--set":
            statement, value = _assigned(text, source)
            asking.set(statement, _value(value, source), source, ())
        case "--add-part":
            parts = _table(text, source)
            if not parts:
                raise BadInput([source.problem(Code.OPTION_SHAPE, (), source.written(text), _A_PART)])
            for name, part in parts.items():
                asking.add_part(name, part, source, (name,))
        case "--add-intent":
            asking.add_intent(_table(text, source), source, ())


def _ask_in(file: str, asking: Asking) -> None:
    """Ask for all changes that stand in a file."""
    data, source = toml_source(file, "a file of changes")
    checked = Checked(ChangesFile, data, source)
    if checked.value is None or checked.problems:
        raise BadInput(checked.problems)
    for name, box in data.get("boxes", {}).items():
        asking.add_box(name, box, source, ("boxes", name), FilePath(file).parent)
    for name, part in data.get("part", {}).items():
        asking.add_part(name, part, source, ("part", name))
    for place, intent in enumerate(data.get("intent", ())):
        asking.add_intent(intent, source, ("intent", place))
    for place, statement in enumerate(data.get("drop", ())):
        asking.drop(statement, source, ("drop", place))
    for statement, value in data.get("set", {}).items():
        asking.set(statement, value, source, ("set", statement))


def _table(text: str, source: Source) -> Any:
    """Keys and values on one line, with or without the braces around them; a name alone has nothing to say."""
    text = text.strip()
    if key_parts(text) is not None:
        text = f"{text} = {{}}"
    return _toml(text if text.startswith("{") else f"{{ {text} }}", source)


def _value(text: str, source: Source) -> Any:
    """A value; what does not look like one of TOML's is a text that needs no quotes."""
    if re.match(r"""\s*[\["'{]""", text):
        return _toml(text, source)
    try:
        found = tomllib.loads(f"value = {text}")
    except ValueError:
        return text.strip()
    return found["value"] if len(found) == 1 else text.strip()


def _toml(text: str, source: Source) -> Any:
    try:
        return tomllib.loads(f"value = {text}")["value"]
    except (ValueError, RecursionError) as error:
        problem = toml_problem(source.file, text, error)
        found = re.sub(r" \(at [^()]*\)$", "", problem.found)
        raise BadInput([problem._replace(line=None, found=found)]) from None


def _halves(text: str, source: Source, allowed: str) -> tuple[str, str]:
    """What stands before and behind the first equals sign."""
    first, sign, rest = (half.strip() for half in text.partition("="))
    if not (first and sign and rest):
        raise BadInput([source.problem(Code.OPTION_SHAPE, (), source.written(text), allowed)])
    return first, rest


def _named(text: str, source: Source) -> tuple[str, str]:
    """The name of a box and its file, each with or without the quotes of TOML around it."""
    for place, sign in enumerate(text):
        name = key_parts(text[:place]) if sign == "=" else None
        file = text[place + 1 :].strip()
        if name is not None and len(name) == 1 and file:
            return name[0], str(_toml(file, source)) if file[0] in "\"'" else file
    return _halves(text, source, "a name and a box file, such as reef=boxes/reef.toml")


def _assigned(text: str, source: Source) -> tuple[str, str]:
    """The id and the value; an equals sign in a quoted name does not part them."""
    places = [place for place, sign in enumerate(text) if sign == "="]
    for place in places:
        if key_parts(text[:place]) is not None:
            return text[:place].strip(), text[place + 1 :]
    return _halves(text, source, "a statement and its value, such as part.bass.on=reef")
