"""The pipeline's own steps, each run as a program that prints what it took."""

from __future__ import annotations

import datetime
import gc
import json
import resource
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from manualgen.build.manifest import inputs_of
from manualgen.build.preview import Preview
from manualgen.build.prints import APPENDIX_PREFIX
from manualgen.build.report import report_of
from manualgen.build.site import BuildOptions, build_manual
from manualgen.build.stages import Asked, read_and_check
from manualgen.build.studio import Studio
from manualgen.build.study_cache import StudyCache
from manualgen.cli import COLLECT_AFTER
from manualgen.press.book import Labels, Part, join_book
from manualgen.press.store import Store
from manualgen.preview.live import Live
from manualgen.sources import Folder

TODAY = datetime.date(2026, 9, 1)


def check(content: str) -> dict[str, float]:
    """Read, work out and check everything in this process, twice; the second counts."""
    spent = []
    for _ in range(2):
        began = time.process_time()
        read_and_check(Path(content), Asked(None, TODAY, jobs=1, whole=False))
        spent.append(time.process_time() - began)
    return {"seconds": min(spent)}


def pages(small: str, large: str) -> dict[str, float]:
    """Check and write the pages of a small and a large manual, warm, on one core."""
    spent = {}
    for name, content in (("warm", small), ("small", small), ("large", large)):
        began = time.process_time()
        _build(Path(content), pdf=False, jobs=1)
        spent[name] = time.process_time() - began
    return spent


def cold(content: str, out: str, jobs: str) -> dict[str, float]:
    """Build two editions with their PDFs, without a cache or with the one there is."""
    began = time.monotonic()
    cache = Path(out).parent / "cache"
    inputs = inputs_of(Folder(Path(content)), TODAY, {})
    kept = StudyCache(Store(cache), inputs, None)
    asked = Asked(None, TODAY, jobs=int(jobs), cache=kept)
    checked = read_and_check(Path(content), asked)
    ready = time.monotonic()
    options = BuildOptions(jobs=int(jobs), cache=cache, inputs=inputs)
    build_manual(Path(content), checked.worked, Path(out), options)
    report_of(checked.worked, checked.findings)
    return {"seconds": time.monotonic() - began, "check": ready - began}


def join(site: str) -> dict[str, float]:
    """Join a site's prints into a book; the memory that this takes."""
    prints = sorted(Path(site, "teacher", "pdf").glob("*.pdf"))
    when = datetime.datetime(2026, 9, 1, tzinfo=datetime.UTC)
    join_book([Part(prints[0], "one", (Labels(APPENDIX_PREFIX),))], "T", "en-GB", when)
    before = _peak_mib()
    began = time.monotonic()
    join_book([Part(p, p.stem, (Labels(p.stem),)) for p in prints], "T", "en-GB", when)
    spent = time.monotonic() - began
    return {
        "seconds": spent,
        "MiB": _peak_mib() - before,
        "MiB an experiment": (_peak_mib() - before) / len(prints),
    }


def save(content: str) -> dict[str, float]:
    """Save an experiment nine times under a preview; the median until its page is there."""
    folder = Path(content)
    source = next(p for p in sorted(folder.rglob("*.md")))
    page = f"teacher/{source.stem}.html"
    live = Live(Preview(Studio(folder, None, TODAY)).make)
    live.renew()
    text = source.read_text(encoding="utf-8")
    spent = []
    for n in range(9):
        live.page(page)
        source.write_text(text + "\n" * n, encoding="utf-8")
        began = time.monotonic()
        live.renew()
        live.page(page)
        spent.append(time.monotonic() - began)
    return {"seconds": sorted(spent)[len(spent) // 2]}


def _build(content: Path, *, pdf: bool, jobs: int) -> None:
    checked = read_and_check(content, Asked(None, TODAY, jobs=jobs))
    with tempfile.TemporaryDirectory() as folder:
        options = BuildOptions(pdf=pdf, jobs=jobs)
        build_manual(content, checked.worked, Path(folder) / "site", options)


def _peak_mib() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


STEPS: dict[str, Callable[..., dict[str, float]]] = {
    "check": check,
    "pages": pages,
    "cold": cold,
    "join": join,
    "save": save,
}

if __name__ == "__main__":
    gc.set_threshold(COLLECT_AFTER)
    sys.stdout.write(json.dumps(STEPS[sys.argv[1]](*sys.argv[2:])))
