"""Tests of the jams that come with hardpan."""
