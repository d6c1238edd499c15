"""A comparison as one page that needs nothing beside it, for a phone or a desk.

What a reviewer must not overlook stands first; then each experiment with what
changed, what follows, and its page before and after with the changes marked.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import files

from markupsafe import Markup

from manualgen.pages.environment import TEMPLATES, environment
from manualgen.reports.changed_words import (
    Run,
    again,
    called,
    runs,
    standing,
    stands,
)
from manualgen.reports.compared_pages import SetPage, Versions, links, set_pages
from manualgen.review.changes import Change, Comparison, ExperimentChange, Status
from manualgen.review.writing import said

MOST_UNCHANGED_PAGES = 40
"""So many pages at most of experiments that say the same and print otherwise."""

_SHEETS = ("manual.css", "figures.css", "screen.css")
_FACES = re.compile(r"@font-face\s*{[^}]*}\s*")
_MAIN = re.compile(r"(?<![\w.#-])main(?![\w-])")
_FIRST = ("finding", "hazard", "gas", "product", "picture")
"""Kinds of changes that stand at the top, if they are not gone."""


@dataclass(frozen=True, slots=True)
class Told:
    """A change as the report shows it."""

    called: str
    where: str
    runs: tuple[Run, ...]
    """Where it has words before and after."""
    new: str
    gone: str
    consequence: str
    leak: bool
    students: bool
    links: tuple[tuple[str, str], ...]
    """``before`` and ``after``, and the ids that they lead to."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """An experiment in the report."""

    id: str
    title: str
    standing: str
    changes: tuple[Told, ...]
    pages: tuple[SetPage, ...]


def comparison_as_html(comparison: Comparison, versions: Versions) -> str:
    """The whole report; it loads nothing and runs nothing."""
    listed = (*comparison.experiments, *_only_printed(comparison, versions))
    embeddings = versions.embeddings(listed)
    chapters = tuple(_chapter(e, set_pages(e, versions, embeddings)) for e in listed)
    settings = versions.head.worked.manual.settings
    template = environment().get_template("review/comparison.html")
    return template.render(
        comparison=comparison,
        manual=settings.title,
        language=settings.language,
        counted=_counted(comparison),
        again=tuple(again(comparison)),
        first=tuple(_look_first(comparison)),
        changes=tuple(_told(change, (), in_file=True) for change in comparison.manual),
        chapters=chapters,
        style=Markup(_style()),
    )


def _only_printed(
    comparison: Comparison, versions: Versions
) -> Iterator[ExperimentChange]:
    """Experiments that say what they said and print otherwise."""
    known = {e.id for e in comparison.experiments}
    found: dict[str, tuple[str, ...]] = {}
    for reprint in comparison.reprint:
        for id_ in reprint.experiments:
            if id_ not in known:
                found[id_] = (*found.get(id_, ()), reprint.edition)
    works = versions.head.worked.experiments
    titles = {w.experiment.id: w.experiment.title for w in works}
    for id_, editions in list(found.items())[:MOST_UNCHANGED_PAGES]:
        yield ExperimentChange(id_, titles[id_], Status.CHANGED, (), editions, id_)


def _counted(comparison: Comparison) -> str:
    counts = Counter(e.status for e in comparison.experiments)
    return ", ".join(f"{counts[s]} {s.value}" for s in Status if counts[s])


def _look_first(comparison: Comparison) -> Iterator[tuple[ExperimentChange, Told]]:
    """What a reviewer should not overlook."""
    for experiment in comparison.experiments:
        for change in experiment.changes:
            is_new = change.kind in _FIRST and change.after is not None
            if change.leak or is_new or (change.consequence or "").startswith("now "):
                yield experiment, _told(change, ())


def _chapter(experiment: ExperimentChange, pages: tuple[SetPage, ...]) -> Chapter:
    changes = tuple(_told(change, pages) for change in experiment.changes)
    return Chapter(
        experiment.id, experiment.title, standing(experiment), changes, pages
    )


def _told(change: Change, pages: tuple[SetPage, ...], *, in_file: bool = False) -> Told:
    before, after = change.before, change.after
    return Told(
        called(change),
        stands(change, in_file=in_file),
        runs(before, after) if before and after else (),
        said(after) if after and not before else "",
        said(before) if before and not after else "",
        said(change.consequence or ""),
        change.leak,
        not change.teachers,
        tuple(links(change, pages)),
    )


def _style() -> str:
    """The pages' own style without the faces, and the report's."""
    sheets = files(TEMPLATES).joinpath("assets")
    pages = "".join(sheets.joinpath(s).read_text(encoding="utf-8") for s in _SHEETS)
    own = files(TEMPLATES).joinpath("review", "comparison.css")
    return _MAIN.sub(".sheet", _FACES.sub("", pages)) + own.read_text(encoding="utf-8")
