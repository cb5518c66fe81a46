"""Outlets and inlets: where sound leaves and enters a box, and the jacks that hold its sides."""

from typing import Annotated, Literal, NamedTuple

from pydantic import model_validator

from solver.codes import Code
from solver.gear.cables import AudioPlug
from solver.gear.words import Allowed, Fault, Name, Side, Strict, refuse


class Jack(NamedTuple):
    """One audio socket: the label printed beside it, and the side or sides that it holds."""

    label: str
    sides: tuple[Side, ...]
    plug: AudioPlug

    @property
    def stereo(self) -> bool:
        """Whether one plug in it carries both sides."""
        return len(self.sides) == 2


class Connection(Strict):
    """An outlet or inlet: a pair of jacks, one stereo jack, or one mono jack."""

    name: Name
    left: Name | None = None
    right: Name | None = None
    stereo: Name | None = None
    mono: Name | None = None
    plug: Annotated[AudioPlug, Allowed('"6.35" or "3.5"')] = "6.35"

    @property
    def jacks(self) -> tuple[Jack, ...]:
        """Its sockets, left before right."""
        if self.mono is not None:
            return (Jack(self.mono, ("mono",), self.plug),)
        if self.stereo is not None:
            return (Jack(self.stereo, ("left", "right"), self.plug),)
        assert self.left is not None and self.right is not None
        return (Jack(self.left, ("left",), self.plug), Jack(self.right, ("right",), self.plug))

    @property
    def sides(self) -> tuple[Side, ...]:
        """``("mono",)``, or left and right."""
        return ("mono",) if self.mono is not None else ("left", "right")

    @property
    def paired(self) -> bool:
        """Whether it has one jack for each side."""
        return self.left is not None

    def shape_faults(self) -> list[Fault]:
        """What is wrong with the jacks that it names."""
        given = {key for key in ("left", "right", "stereo", "mono") if getattr(self, key) is not None}
        if given in ({"left", "right"}, {"stereo"}, {"mono"}):
            return []
        found = " and ".join(sorted(given)) if given else "no jack"
        code = Code.NEEDS_MORE if given < {"left", "right"} else Code.ONE_KIND
        return [Fault(code, (), found, "left and right, or stereo alone, or mono alone")]


class Outlet(Connection):
    """Where sound leaves a box."""

    alone: Annotated[Literal["sum", "own"], Allowed('"sum" or "own"')] = "own"
    mirrors: Name | None = None

    @model_validator(mode="after")
    def _check(self) -> "Outlet":
        faults = self.shape_faults()
        if self.alone == "sum" and not faults and not self.paired:
            allowed = '"sum" only on a pair of jacks (left and right)'
            faults.append(Fault(Code.OUT_OF_PLACE, ("alone",), '"sum"', allowed))
        refuse(faults)
        return self


class Inlet(Connection):
    """Where sound enters a box."""

    alone: Annotated[Literal["copy", "own"], Allowed('"copy" or "own"')] = "own"

    @model_validator(mode="after")
    def _check(self) -> "Inlet":
        faults = self.shape_faults()
        if self.alone == "copy" and not faults and not self.paired:
            allowed = '"copy" only on a pair of jacks (left and right)'
            faults.append(Fault(Code.OUT_OF_PLACE, ("alone",), '"copy"', allowed))
        refuse(faults)
        return self
