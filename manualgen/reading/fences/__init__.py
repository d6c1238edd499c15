"""The fences: equations, readings, calculations, graphs and drawings."""

from __future__ import annotations

from manualgen.model.blocks import Block
from manualgen.reading.fences.calculation import read_calculation
from manualgen.reading.fences.equation import read_equations
from manualgen.reading.fences.graph import read_graph
from manualgen.reading.fences.head import Fence, read_head
from manualgen.reading.fences.readings import read_readings
from manualgen.reading.fences.setup import read_setup
from manualgen.reading.surroundings import Surroundings
from manualgen.reading.tree import Body, Node

__all__ = ["read_fence"]

_READERS = {
    "equation": read_equations,
    "readings": read_readings,
    "calculation": read_calculation,
    "graph": read_graph,
    "setup": read_setup,
}


def read_fence(node: Node, body: Body, around: Surroundings) -> Block | None:
    """The block that a fence holds, or None where there is none to be had."""
    fence: Fence = read_head(node, body, around.faults)
    reader = _READERS.get(fence.kind.text)
    if reader is None:
        if fence.kind.text:
            place = fence.kind.place()
            around.faults.unknown(place, "block", fence.kind.text, _READERS)
        else:
            message = f"a fence says what it is: {', '.join(_READERS)}"
            around.faults.syntax(fence.place, message)
        return None
    return reader(fence, around)
