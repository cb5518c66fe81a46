"""Questions about open choices, each answered once with a literal."""

from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar, cast

from solver.search.model import Lit, Model


class Asked:
    """Remembers what it has answered."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self.asked: dict[tuple[object, ...], Lit] = {}


Question = TypeVar("Question", bound=Callable[..., Lit])


def once(method: Question) -> Question:
    """Ask a question once for the same arguments; the answer is folded again with what has been settled since."""

    @wraps(method)
    def ask(self: Asked, *args: Any) -> Lit:
        key = (method.__name__, *args)
        if key not in self.asked:
            self.asked[key] = method(self, *args)
        return self.model.value(self.asked[key])

    return cast(Question, ask)
