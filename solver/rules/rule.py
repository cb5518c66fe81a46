"""What a rule is: an id, a sentence a musician reads, and two faces that know nothing of each other."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

if TYPE_CHECKING:
    from solver.flow.followed import Followed
    from solver.search.choices import Choices


class Rule(ABC):
    """One rule of the table."""

    id: ClassVar[str]
    sentence: ClassVar[str]
    of_sound: ClassVar[bool] = False
    """Whether it speaks of nothing but sound, so that it counts whatever notes and clock do."""

    @abstractmethod
    def constrain(self, choices: Choices) -> None:
        """Post the rule on the open choices of a plan."""

    @abstractmethod
    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield where a finished plan breaks the rule, judged from the followed signals alone."""
