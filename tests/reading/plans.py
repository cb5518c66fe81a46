"""A plan file for the table of the reading tests."""

PLAN = """\
{
  "title": "Low Tide",
  "status": "found",
  "cables": [
    {"kind": "6.35 mono", "from": "barge/L/MONO", "to": "tiller/IN 1"},
    {
      "kind": "3.5 stereo > 2x 6.35 mono",
      "from": "tiller/PHONES",
      "to": ["tiller/IN 1", "tiller/IN 2"]
    },
    {"kind": "din", "from": "tiller/MIDI OUT", "to": "barge/MIDI IN"}
  ],
  "parts": {
    "kick": {"engine": "tiller/PAD 1", "track": "tiller/TRK 1", "channel": null, "outlet": "MAIN"},
    "bass": {
      "engine": "barge/1",
      "track": "tiller/EXT 1",
      "channel": 5,
      "outlet": "MAIN",
      "pan": "left",
      "strips": {"tiller": ["IN 1"]}
    }
  },
  "strips": {
    "tiller/IN 1": {"outlet": "MAIN", "pan": "centre", "settings": {"ducking": 30, "reverb": 20}, "key": "kick"}
  },
  "engines": {
    "barge/1": {"channel": 5, "level": "up", "settings": {}, "key": null},
    "tiller/PAD 1": {"channel": "off"}
  },
  "settings": [
    {"box": "barge", "of": "engine", "where": "1", "what": "channel", "value": 5, "was": 3, "stored": "project"}
  ],
  "goals": {"cables": 2, "settings_moved": 1},
  "cautions": []
}
"""
