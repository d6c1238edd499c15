"""Leads: from piece to piece over everything that stands, and back again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from manualgen.drawing.arrange import LEAD_RISE_MM, lead_level
from manualgen.drawing.geometry import Point
from manualgen.drawing.parts import Arrangement, Connection, Way
from manualgen.drawing.shape import Shape, Stroke, Style
from manualgen.drawing.tubing import Run, bent


def lay_leads(layout: Arrangement) -> tuple[Run, ...]:
    """The leads of a circuit, the one that closes it last and highest."""
    leads = [c for c in layout.connections if c.way is Way.LEAD]
    if not leads:
        return ()
    first, last = layout.shape(leads[0].source), layout.shape(leads[-1].target)
    if len(leads) == 1 and "sign" in first.others:
        return tuple(_both(layout, leads[0]))
    runs = [_between(layout, lead) for lead in leads]
    if len(first.terminals) > 1 and len(last.terminals) > 1:
        height = lead_level(layout) - LEAD_RISE_MM * 1.2
        closing = replace(leads[0], target=leads[-1].target)
        runs.append(_run(closing, first.terminals[0], last.terminals[-1], height))
    return tuple(runs)


def _both(layout: Arrangement, lead: Connection) -> Iterator[Run]:
    """Two leads from a sign above to the piece below it, side by side."""
    source, target = layout.shape(lead.source), layout.shape(lead.target)
    for end in (0, -1):
        start, stop = _terminals(source)[end], _terminals(target)[end]
        yield _run(lead, start, stop, start[1])


def _between(layout: Arrangement, lead: Connection) -> Run:
    """From the right terminal of one piece to the left terminal of the next."""
    start = _terminals(layout.shape(lead.source))[-1]
    stop = _terminals(layout.shape(lead.target))[0]
    return _run(lead, start, stop, lead_level(layout))


def _terminals(shape: Shape) -> tuple[Point, ...]:
    if shape.terminals:
        return shape.terminals
    box = shape.box
    return (((box.left + box.right) / 2, box.top),)


def _run(lead: Connection, start: Point, stop: Point, height: float) -> Run:
    points = bent((start, (start[0], height), (stop[0], height), stop))
    return Run(lead, points, (Stroke(points, Style.LEAD),))
