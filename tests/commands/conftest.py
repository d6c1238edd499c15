"""The small manual that several tests of `manualgen prepare` begin with."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from tests.commands.preparing import FILES, Report, Run, prepared


@pytest.fixture
def folder(content: Callable[[Mapping[str, str]], Path]) -> Path:
    return content(FILES)


@pytest.fixture
def report(folder: Path, capsys: Run) -> Report:
    def of_small_manual(*words: str) -> dict[str, Any]:
        return prepared(folder, capsys, *words)

    return of_small_manual
