"""Follows notes and sound through a finished plan, with no solver in sight."""
