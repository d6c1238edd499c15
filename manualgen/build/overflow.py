"""Pages that came out wider than their paper, as findings.

Whatever reaches past the right edge makes the browser shrink the whole print,
squared paper and writing lines with it, so it stops the build.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from manualgen.editions.catalogue import Numbered, catalogue
from manualgen.model.finding import Fault, Finding, Severity
from manualgen.model.place import Place
from manualgen.press.jobs import Print, WideElement
from manualgen.working.worked import Worked

CHECK = "page-overflow"


def overflow_findings(worked: Worked, prints: Iterable[Print]) -> tuple[Finding, ...]:
    """A finding for each element that is too wide, once for both editions."""
    numbers = catalogue(worked.manual)
    titles = {e.id: e.title_place for e in worked.manual.experiments}
    found = [
        finding
        for done in prints
        if done.scale < 1
        for finding in _findings(done, numbers, titles)
    ]
    return tuple(dict.fromkeys(found))


def _findings(
    done: Print, numbers: dict[str, Numbered], titles: dict[str, Place]
) -> Iterator[Finding]:
    experiment = Path(done.job.html).stem
    if experiment not in titles:
        return
    for wide in done.wide or (WideElement("page", "", "", 0),):
        place = _place(numbers[experiment], wide.id) or titles[experiment]
        yield Finding(CHECK, Severity.ERROR, Fault(place, _message(wide)), experiment)


def _place(numbered: Numbered, anchor: str) -> Place | None:
    places = (p for p, target in numbered.by_place.items() if target.anchor == anchor)
    return next(places, None)


def _message(wide: WideElement) -> str:
    if not wide.excess_mm:
        return "the page is wider than its paper, and the whole print would shrink"
    return (
        f"this is {wide.excess_mm:.0f} mm wider than the page, and the whole print "
        "would shrink: break it up or shorten its longest word"
    )
