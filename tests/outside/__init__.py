"""The main job against the world outside: one file a source, and beside each check what its source is."""
