"""What the lists of chemicals and of apparatus have in common."""

from __future__ import annotations

import re
from collections.abc import Iterator

from manualgen.model.lab import ShareBy, Sharing
from manualgen.quantities import QuantityError, parse_quantity
from manualgen.reading.faults import Faults
from manualgen.reading.yaml_tree import Node, Scalar

MOST_ENTRIES = 200
LONGEST_ENTRY = 500

_SHARING = re.compile(r"(?:(\d{1,3}) )?per (class|station)")


def sharing_of(text: str) -> Sharing | None:
    """The sharing that a text states, if it states one; a number left out is 1.

    >>> sharing_of("2 per class")
    Sharing(number=2, by=<ShareBy.CLASS: 'per class'>)
    """
    found = _SHARING.fullmatch(text)
    if not found:
        return None
    return Sharing(int(found[1] or 1), ShareBy(f"per {found[2]}"))


def bounded(nodes: tuple[Node, ...], faults: Faults) -> Iterator[Node]:
    """The entries of a list, but for what no list of a practical can be."""
    for n, node in enumerate(nodes[:MOST_ENTRIES]):
        if n and (whole := _parted(nodes[n - 1], node)):
            message = "a comma parts the entries of a list in brackets"
            faults.syntax(node.place, message, whole)
        elif isinstance(node, Scalar) and len(node.text) > LONGEST_ENTRY:
            message = f"an entry of more than {LONGEST_ENTRY} characters is not read"
            faults.syntax(node.place, message)
        else:
            yield node
    if len(nodes) > MOST_ENTRIES:
        message = f"only the first {MOST_ENTRIES} entries of a list are read"
        faults.syntax(nodes[MOST_ENTRIES].place, message)


def _parted(before: Node, node: Node) -> str | None:
    """``burette, 50 cm3`` in brackets and without quotes is two entries."""
    if not (isinstance(before, Scalar) and isinstance(node, Scalar)):
        return None
    if before.place.line != node.place.line or not before.text[:1].isalpha():
        return None
    try:
        parse_quantity(node.text)
    except QuantityError:
        return None
    return f'"{before.text}, {node.text}"'
