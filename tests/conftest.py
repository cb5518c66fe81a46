"""What holds for all tests: drawn examples are the same on every run, and garbage is looked for less often."""

import gc

from hypothesis import settings

settings.register_profile("same", derandomize=True, deadline=None, database=None)
settings.load_profile("same")


def pytest_collection_finish() -> None:
    """Leave out of the search for garbage what stays until the end: modules, and thousands of tests."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 20)
