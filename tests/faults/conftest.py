"""A place for builds to fail in."""

import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.faults.building import Works


@pytest.fixture
def works() -> Iterator[Works]:
    """A small manual in a folder of its own."""
    with tempfile.TemporaryDirectory(prefix="faults-") as name:
        made = Works(Path(name))
        made.write(0)
        yield made
