"""Tests of reading files."""
