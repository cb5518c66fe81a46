"""Low Tide with names that try to break whatever shows them, and the same jam of any shape of plan for the sheets."""

from solver.jam.jam import Jam
from solver.plans import Plan
from tests.sheet.low_tide import JAM, PLAN, renamed

SCRIPT = "<script>window.hacked = 1</script>"
NAMES = {
    "Low Tide": f"{SCRIPT}</title></style>",
    "kick": '"><img src=x onerror="window.hacked = 1">',
    "bass": "</bdi></label><svg onload=window.hacked=1>",
    "arp": "&lt;b&gt; & 'quoted' \"twice\" `code` {{ 7 * 7 }}",
    "tiller": "🎛️👩‍🚀 | * _under_ [link](javascript:window.hacked=1)",
    "barge": "שלום עולם (מודול)",
    "EXT 1": '=HYPERLINK("http://example.invalid")',
    "EXT 2": "مرحبا 12 → 3",
    "IN 1": "x" * 200,
    "IN 2": "-->]]> <!-- \\ \u202e",
    "PAD 1": "+cmd|' /C calc'!A0",
    "R": "@SUM(1+1)",
    "MIDI OUT": "# 1. - > www.example.invalid http://example.invalid :smile:",
    "glass": "-2+3",
    "rust": "word " * 39 + "ends",
    "bank B, slot 3": "</script><script>window.hacked = 1</script>",
}


def hostile() -> tuple[Jam, Plan]:
    """The jam and its plan, with these names in the place of its own."""
    return Jam.model_validate(renamed(JAM, NAMES)), Plan.from_json(renamed(PLAN, NAMES))
