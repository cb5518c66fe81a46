"""Tests of hardpan."""
