"""Tests of what the documentation shows and says."""
