"""Station cards: each station of a Method on a card of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from manualgen.editions.key import NO_KEY
from manualgen.editions.sheet import Panel, Panels, PartBanner, Sheet
from manualgen.model.blocks import PartKind
from manualgen.pages.context import PageContext
from manualgen.pages.environment import environment
from manualgen.pages.page import Page


@dataclass(frozen=True, slots=True)
class Station:
    """What is done at one station."""

    banner: PartBanner
    blocks: Panels


def stations_of(sheet: Sheet) -> tuple[Station, ...]:
    """The stations of an experiment; none where its Method has no such parts."""
    return tuple(found for section in sheet.sections for found in _in(section.blocks))


def _in(blocks: Panels) -> Iterator[Station]:
    banner: PartBanner | None = None
    held: list[Panel] = []
    for panel in blocks:
        if isinstance(panel, PartBanner):
            if banner:
                yield Station(banner, tuple(held))
            banner = panel if panel.kind is PartKind.STATION else None
            held = []
        else:
            held.append(panel)
    if banner:
        yield Station(banner, tuple(held))


def cards_address(sheet: Sheet) -> str:
    """Where an experiment's cards stand, seen from its page."""
    return f"pdf/{sheet.id}.stations.pdf"


def render_stations(sheet: Sheet, context: PageContext) -> str:
    """Every station on a page of its own, to be laid out in the laboratory.

    A card holds what students hold.  What it refers to is on the sheet.
    """
    page = Page(sheet, NO_KEY, context, document="")
    return (
        environment()
        .get_template("stations.html")
        .render(
            page=page,
            sheet=sheet,
            context=context,
            say=page.say,
            stations=stations_of(sheet),
        )
    )
