"""Tests of what is followed through finished plans, and of the rules that judge it."""
