"""A change that no file states yet: another box plays."""

from solver.reasons.changes import edits
from solver.reasons.edits import edited
from solver.sheet.edits import Source, edit_text
from tests.building import desk, jam, module, named


def test_another_box_may_play_where_nothing_says_who() -> None:
    ports = [named("MIDI IN", way="in"), named("MIDI OUT", way="out")]
    reef = module(track=[named("reef", channel=1)], midi=ports)
    dock = desk(track=[], engine=[], strip=[named("IN 1", from_="LINE/left")])
    of = jam({"dock": dock, "reef": reef, "cove": module()}, {"bass": {"on": "cove"}})
    (told,) = (edit for edit in edits(of) if edit.path == ("intent", 0))
    after = edited(of, [told])
    assert after is not None
    assert [intent.model_dump(by_alias=True, exclude_defaults=True) for intent in after.intents] == [
        {"play": ("bass",), "from": "reef"}
    ]
    assert edit_text(told, Source("a.toml", lambda path: 1)) == (
        'a.toml: add an [[intent]] with play = ["bass"], from = "reef"'
    )
    assert edits(after) != [] == [edit for edit in edits(after) if edit.path == ("intent", 1)]
