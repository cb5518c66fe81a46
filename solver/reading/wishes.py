"""One wish in the words of a jam file, given on the command line."""

import tomllib

from solver.codes import Code
from solver.jam.intents import Avoid, Keep
from solver.jam.jam import Jam
from solver.reading.broken import toml_problem
from solver.reading.checking import Checked
from solver.reading.problems import BadInput
from solver.reading.source import Source

_FIRST = "intent.1"


def wish_in(text: str, jam: Jam, option: str) -> Keep | Avoid:
    """The ``keep`` or ``avoid`` in a text.

    Args:
        text: One key with its value, such as ``avoid = { channels = [10] }``.
        jam: What the names in it are looked up in.
        option: Where the text was given, as it is to stand in messages.

    Raises:
        BadInput: the text is no TOML, is another kind of wish, or names what is not on the jam's table.
    """
    source = Source(option, text)
    try:
        data = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        raise BadInput([toml_problem(option, text, error)]) from None
    if len({"keep", "avoid"} & data.keys()) != 1:
        found = ", ".join(data) or "nothing"
        allowed = 'one keep or avoid, such as keep = { part = "bass", pan = "left" }'
        raise BadInput([source.problem(Code.ONE_KIND, (), found, allowed)])
    frame = {"title": jam.title, "leader": jam.leader, "listen": jam.listen, "boxes": jam.boxes, "part": jam.parts}
    checked = Checked(Jam, {**frame, "intent": [data]}, source)
    if checked.value is None or checked.problems:
        own = (problem._replace(key=problem.key.removeprefix(f"{_FIRST}.")) for problem in checked.problems)
        raise BadInput(own)
    wish = checked.value.intents[0]
    assert isinstance(wish, Keep | Avoid)
    return wish
