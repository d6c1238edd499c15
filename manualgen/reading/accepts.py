"""Findings that an author accepts: ``accept:`` in an experiment or the manual."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.model.experiment import Accept
from manualgen.reading.faults import Faults
from manualgen.reading.fields import Fields
from manualgen.reading.yaml_tree import Mapping, Node

_KEYS = ("check", "why", "at")
_SAMPLE = "{check: vague-quantity, why: The end-point is judged by eye.}"


def read_accepts(nodes: tuple[Node, ...], faults: Faults) -> Iterator[Accept]:
    """The acceptances that name a check and give a reason."""
    for node in nodes:
        if not isinstance(node, Mapping):
            faults.syntax(node.place, "an accept names a check and says why", _SAMPLE)
            continue
        fields = Fields(node, _KEYS, faults, "of accept")
        check, why = fields.text("check"), fields.text("why")
        if check and why:
            yield Accept(check.text, why.text, fields.string("at"), node.place)
            continue
        for key in ("check", "why"):
            if fields.lacks(key):
                faults.syntax(node.place, f"an accept has {key}:", _SAMPLE)
