"""Leads: from piece to piece over everything that stands, and back again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from manualgen.drawing.arrange import LEAD_RISE_MM, lead_level
from manualgen.drawing.geometry import Point
from manualgen.drawing.parts import Arrangement, Connection, Way
from manualgen.drawing.shape import Shape, Stroke, Style
from manualgen.drawing.tubing import Run, bent

RISE_MM: Final = LEAD_RISE_MM * 1.2
"""From one level of leads up to the next."""


def lay_leads(layout: Arrangement) -> tuple[Run, ...]:
    """The leads of a circuit, the one that closes it last and highest."""
    leads = [c for c in layout.connections if c.way is Way.LEAD]
    if not leads:
        return ()
    first, last = layout.shape(leads[0].source), layout.shape(leads[-1].target)
    if len(leads) == 1 and "sign" in first.others:
        return tuple(_both(layout, leads[0]))
    if "sign" in first.others:
        return tuple(_around(layout, leads))
    sources = [lead.source for lead in leads]
    runs = [
        _between(layout, lead, is_second=lead.source in sources[:number])
        for number, lead in enumerate(leads)
    ]
    is_branched = len(set(sources)) < len(sources)
    if not is_branched and len(first.terminals) > 1 and len(last.terminals) > 1:
        height = lead_level(layout) - RISE_MM
        closing = replace(leads[0], target=leads[-1].target)
        runs.append(_run(closing, first.terminals[0], last.terminals[-1], height))
    return tuple(runs)


def _around(layout: Arrangement, leads: list[Connection]) -> Iterator[Run]:
    """From sign to sign in a row, and down to what stands below on both sides."""
    first, last = layout.shape(leads[0].source), layout.shape(leads[-1].target)
    for lead in leads:
        start = _terminals(layout.shape(lead.source))[-1]
        target = layout.shape(lead.target)
        if "sign" in target.others:
            yield _run(lead, start, _terminals(target)[0], start[1])
        else:
            yield _down(lead, start, _terminals(target)[-1])
    closing = replace(leads[0], target=leads[-1].target)
    if "sign" not in last.others:
        yield _down(closing, _terminals(first)[0], _terminals(last)[0])


def _down(lead: Connection, start: Point, stop: Point) -> Run:
    """From a sign's end down to a terminal below it, under its neighbours."""
    return _run(lead, start, stop, stop[1] - LEAD_RISE_MM / 4)


def _both(layout: Arrangement, lead: Connection) -> Iterator[Run]:
    """Two leads from a sign above to the piece below it, side by side."""
    source, target = layout.shape(lead.source), layout.shape(lead.target)
    for end in (0, -1):
        start, stop = _terminals(source)[end], _terminals(target)[end]
        yield _run(lead, start, stop, start[1])


def _between(layout: Arrangement, lead: Connection, is_second: bool) -> Run:
    """From the right terminal of one piece to the left terminal of the next.

    A second lead from a piece leaves its other terminal, over the first.
    """
    start = _terminals(layout.shape(lead.source))[0 if is_second else -1]
    stop = _terminals(layout.shape(lead.target))[0]
    return _run(lead, start, stop, lead_level(layout) - RISE_MM * is_second)


def _terminals(shape: Shape) -> tuple[Point, ...]:
    if shape.terminals:
        return shape.terminals
    box = shape.box
    return (((box.left + box.right) / 2, box.top),)


def _run(lead: Connection, start: Point, stop: Point, height: float) -> Run:
    points = bent((start, (start[0], height), (stop[0], height), stop))
    return Run(lead, points, (Stroke(points, Style.LEAD),))
