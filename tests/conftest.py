"""What holds for all tests: drawn examples are the same on every run, however long they take."""

from hypothesis import settings

settings.register_profile("same", derandomize=True, deadline=None, database=None)
settings.load_profile("same")
