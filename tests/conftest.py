"""What holds for all tests."""

import gc


def pytest_collection_finish() -> None:
    """Leave out of the search for garbage what stays until the end: modules, and thousands of tests."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 20)
