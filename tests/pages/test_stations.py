"""Station cards."""

from __future__ import annotations

import dataclasses

from manualgen.editions.line import Link
from manualgen.editions.sheet import PartBanner, SheetSection, StepItem, Text
from manualgen.model.blocks import PartKind
from manualgen.model.text import Words
from manualgen.pages.stations import render_stations, stations_of
from tests.pages.reading_html import read
from tests.pages.sample import CONTEXT, SHEET
from tests.pages.sample_text import HERE, text


def banner(label: str, kind: PartKind = PartKind.STATION) -> PartBanner:
    return PartBanner(kind, label, "", None, None)


def step(number: int) -> StepItem:
    return StepItem(number, f"step.{number}", (text(f"Do the thing {number}."),))


METHOD = SheetSection(
    "Method", "section.method", (step(1), banner("A"), step(2), banner("B"), step(3))
)
ROUND = dataclasses.replace(SHEET, sections=(METHOD,))


def test_a_station_ends_where_the_next_begins() -> None:
    assert [(s.banner.label, s.blocks) for s in stations_of(ROUND)] == [
        ("A", (step(2),)),
        ("B", (step(3),)),
    ]


def test_lessons_are_no_stations() -> None:
    assert stations_of(SHEET) == ()


def test_each_card_repeats_the_hazards() -> None:
    found = read(render_stations(ROUND, CONTEXT))
    assert found.faults == []
    assert found.classes["card"] == 2
    assert "".join(found.words).count("Causes skin irritation.") == 2


def test_a_card_refers_to_the_sheet_for_what_it_does_not_hold() -> None:
    see = Text((Link((Words("Table", HERE),), "4.1", SHEET.id, "titres"),))
    method = dataclasses.replace(METHOD, blocks=(banner("A"), see))
    round_of_one = dataclasses.replace(SHEET, sections=(method,))
    links = read(render_stations(round_of_one, CONTEXT)).links
    assert f"{SHEET.id}.html#titres" in links
