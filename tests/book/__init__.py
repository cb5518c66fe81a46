"""Tests of the book of a folder."""
