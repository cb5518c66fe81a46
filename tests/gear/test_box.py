"""A box is looked at for what is wrong once, and again where it has been changed."""

import pytest
from pydantic import ValidationError

from solver.gear import box_faults
from solver.gear.box import Box
from tests.building import desk, jam, module


def test_a_box_in_several_jams_is_looked_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    looked: list[str] = []

    def look(box: Box) -> list[object]:
        looked.append(box.name)
        return list(box_faults.box_faults(box))

    monkeypatch.setattr("solver.gear.box.box_faults", look)
    boxes = {"dock": desk(), "reef": module(), "cove": module()}
    first, second = jam(boxes, ("bass",)), jam(boxes, ("arp",))
    assert first.boxes == second.boxes
    assert looked == ["Desk", "Module", "Module"]


def test_a_changed_copy_is_looked_at_again() -> None:
    reef = module()
    twice = reef.model_copy(update={"engines": (*reef.engines, *reef.engines)})
    assert reef.model_copy() == reef
    with pytest.raises(ValidationError, match="a name that no other"):
        jam({"dock": desk(), "reef": twice}, ("bass",))
