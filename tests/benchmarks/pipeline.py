"""How fast the pipeline is, as ratios that hold on any machine.

    python tests/benchmarks/pipeline.py [--quick] [--out FOLDER]

makes manuals of several sizes from the demonstration, measures the pipeline and,
beside it, the bare libraries on the same files, prints a table, and writes
``results.json`` and ``results.html`` with plots.  Each ratio has its limit; the
status is 1 where one is exceeded.  All of it takes a quarter of an hour on two idle
cores; ``--quick`` measures smaller manuals in a few minutes, to see that it runs.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

from report import page
from running import HERE, measured, run
from synthetic import write_manual

RESULTS = HERE / "results"
MANUALGEN = [sys.executable, "-m", "manualgen"]


@dataclass(frozen=True, slots=True)
class Sizes:
    """How many experiments the manuals have."""

    printed: int = 60
    checked: int = 200
    small: int = 10
    large: int = 1000


QUICK = Sizes(printed=12, checked=40, small=10, large=60)


@dataclass(frozen=True, slots=True)
class Row:
    """One thing measured, and what it may be at most."""

    what: str
    value: float
    limit: float
    unit: str = ""
    detail: str = ""

    @property
    def holds(self) -> bool:
        """Whether it is within its limit."""
        return self.value <= self.limit


@dataclass(frozen=True, slots=True)
class Bench:
    """Where the manuals are, and how large they are."""

    folder: Path
    sizes: Sizes

    def manual(self, count: int) -> Path:
        """The content folder of a manual of so many experiments."""
        content = self.folder / f"content-{count}"
        if not content.exists():
            write_manual(content, count)
        return content

    def rows(self) -> Iterator[Row]:
        """Everything that is measured, one after the other."""
        yield self._checking()
        yield from self._growing()
        yield from self._memory()
        yield from self._printing()
        yield self._joining()
        yield self._saving()

    def _checking(self) -> Row:
        content = self.manual(self.sizes.checked)
        ours = measured("ours.py", "check", content)["seconds"]
        bare = measured("bare.py", "parse", content)["seconds"]
        return Row(
            f"check of {self.sizes.checked}, one process ÷ bare markdown-it-py",
            ours / bare,
            8,
            detail=f"{ours:.2f} s ÷ {bare:.2f} s",
        )

    def _growing(self) -> Iterator[Row]:
        small, large = self.sizes.small, self.sizes.large
        spent = measured("ours.py", "pages", self.manual(small), self.manual(large))
        each = spent["large"] / large, spent["small"] / small
        yield Row(
            f"check and HTML, an experiment of {large} ÷ one of {small}",
            each[0] / each[1],
            1.2,
            detail=f"{1000 * each[0]:.0f} ms ÷ {1000 * each[1]:.0f} ms",
        )

    def _memory(self) -> Iterator[Row]:
        content = str(self.manual(self.sizes.large))
        out = str(self.folder / "pages")
        for what, words in (
            ("check", ["check", content]),
            ("HTML", ["build", content, "--no-pdf", "--out", out]),
        ):
            done = run([*MANUALGEN, *words])
            yield Row(
                f"{what} of {self.sizes.large}: peak memory of all processes",
                done.peak_mib,
                400,
                "MiB",
                f"{done.seconds:.1f} s in all",
            )

    def _printing(self) -> Iterator[Row]:
        """A cold build, the bare library on its pages, a change, and no change.

        Where others use the machine, the processor's time tells more than the clock.
        """
        content, out = self.manual(self.sizes.printed), self.folder / "cold" / "site"
        jobs = os.cpu_count() or 1
        cold = measured("ours.py", "cold", content, out, jobs)
        bare = measured("bare.py", "print", out, self.folder / "bare", jobs)
        bare_seconds = bare["seconds"] + bare["start"]
        what = f"cold build of {self.sizes.printed}, two editions ÷ bare Playwright"
        yield _ratio(what, cold["seconds"], bare_seconds, 1.25)
        yield _ratio(f"{what}, processor", cold["processor"], bare["processor"], 1.25)
        again = self._after_a_change(content, out, jobs)
        what = f"one of {self.sizes.printed} changed ÷ cold"
        start = bare["start"]
        yield _ratio(
            f"{what}, browser start apart",
            again["seconds"] - start,
            cold["seconds"] - start,
            0.12,
        )
        start = measured("bare.py", "print", out, self.folder / "bare", 1, 0)[
            "processor"
        ]
        yield _ratio(
            f"{what}, browser start apart, processor",
            again["processor"] - start,
            cold["processor"] - start * jobs,
            0.12,
        )
        yield self._unchanged(content)

    def _after_a_change(self, content: Path, out: Path, jobs: int) -> dict[str, float]:
        source = sorted(content.rglob("*.md"))[0]
        text = source.read_text(encoding="utf-8")
        changed = text.replace("## Method", "Mind the clock.\n\n## Method", 1)
        source.write_text(changed, encoding="utf-8")
        try:
            return measured("ours.py", "cold", content, out, jobs)
        finally:
            source.write_text(text, encoding="utf-8")

    def _unchanged(self, content: Path) -> Row:
        words = ["build", str(content), "--no-pdf"]
        run([*MANUALGEN, *words], self.folder)
        again = run([*MANUALGEN, *words], self.folder)
        return Row("nothing changed: a build, with start-up", again.seconds, 1, "s")

    def _joining(self) -> Row:
        told = measured("ours.py", "join", self.folder / "cold" / "site")
        return Row(
            f"joining the book of {self.sizes.printed}: memory an experiment",
            told["MiB an experiment"],
            3,
            "MiB",
            f"{told['seconds']:.1f} s",
        )

    def _saving(self) -> Row:
        content = self.folder / "demonstration"
        shutil.copytree(HERE.parents[1] / "content", content)
        told = measured("ours.py", "save", content)
        return Row("preview: save to page, demonstration", told["seconds"], 0.3, "s")


def _ratio(what: str, ours: float, theirs: float, limit: float) -> Row:
    return Row(what, ours / theirs, limit, detail=f"{ours:.1f} s ÷ {theirs:.1f} s")


def table(rows: list[Row]) -> str:
    """The rows as plain text."""
    width = max(len(row.what) for row in rows)
    return "".join(
        f"{row.what:<{width}}  {row.value:8.2f}  ≤ {row.limit:g} {row.unit:4} "
        f"{'' if row.holds else 'OVER: '}{row.detail}\n"
        for row in rows
    )


def main() -> int:
    """Measure, print, write and judge."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="smaller manuals")
    parser.add_argument("--out", type=Path, default=RESULTS, metavar="FOLDER")
    options = parser.parse_args()
    os.environ.setdefault("SOURCE_DATE_EPOCH", "1788220800")
    rows: list[Row] = []
    with tempfile.TemporaryDirectory() as folder:
        for row in Bench(Path(folder), QUICK if options.quick else Sizes()).rows():
            rows.append(row)
            sys.stderr.write(table([row]))
    options.out.mkdir(parents=True, exist_ok=True)
    told = [{**asdict(row), "holds": row.holds} for row in rows]
    text = json.dumps({"version": 1, "rows": told}, ensure_ascii=False, indent=1)
    (options.out / "results.json").write_text(text + "\n", encoding="utf-8")
    (options.out / "results.html").write_text(page(told), encoding="utf-8")
    sys.stdout.write(table(rows))
    return 0 if all(row.holds for row in rows) else 1


if __name__ == "__main__":
    sys.exit(main())
