"""Tests of boxes: what is doubtful about them, and those that come with hardpan."""
