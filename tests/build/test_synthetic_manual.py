"""The manual that the benchmarks measure is a sound one, and its practicals differ."""

from __future__ import annotations

import datetime
from pathlib import Path

from manualgen.build import check, read_and_work
from manualgen.model.finding import Severity
from tests.benchmarks.synthetic import write_manual

COUNT = 45


def test_a_manual_of_any_number_has_no_errors_and_no_two_practicals_alike(
    tmp_path: Path,
) -> None:
    names = write_manual(tmp_path / "content", COUNT)
    worked = read_and_work(tmp_path / "content", None, datetime.date(2026, 9, 1))
    assert tuple(w.experiment.id for w in worked.experiments) == names
    assert len(names) == COUNT
    assert not [f for f in check(worked) if f.severity is Severity.ERROR]
    texts = {p.read_text(encoding="utf-8") for p in tmp_path.rglob("*.md")}
    bodies = {"\n".join(text.splitlines()[3:]) for text in texts}
    assert len(bodies) == COUNT


def test_the_same_number_gives_the_same_manual(tmp_path: Path) -> None:
    for name in ("one", "other"):
        write_manual(tmp_path / name, 8)
    made = [
        {p.relative_to(tmp_path / name): p.read_bytes() for p in files}
        for name in ("one", "other")
        if (files := sorted(f for f in (tmp_path / name).rglob("*") if f.is_file()))
    ]
    assert made[0] == made[1]
