"""Hazards to the aquatic environment, by sums with M-factors (CLP Annex I, 4.1.3.5.5)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from manualgen.knowledge.hazard_class import parse_class
from manualgen.knowledge.part import Part, Reached
from manualgen.knowledge.tables import Row, read_table


def aquatic_classes(parts: Sequence[Part]) -> Iterator[Reached]:
    """The acute class, where it is reached, and the worst chronic one."""
    listed = [
        p for p in parts if any(c.name.startswith("Aquatic") for c in p.hazards.classes)
    ]
    if not listed:
        return
    table = read_table("mixtures").row("aquatic")
    limit = Decimal(table.text("limit"))
    acute = _reached(listed, table.row("acute"), limit, chronic=False)
    worst = (
        r
        for row in table.rows("chronic")
        if (r := _reached(listed, row, limit, chronic=True)) is not None
    )
    yield from (r for r in (acute, next(worst, None)) if r is not None)


def _reached(
    parts: Sequence[Part], row: Row, limit: Decimal, *, chronic: bool
) -> Reached | None:
    shares = row.row("shares")
    total = Decimal(0)
    for name in shares.cells:
        for part in parts:
            weight = _weight(shares.text(name), part.hazards.m_factors[chronic])
            total += sum(
                (part.counted(h) * weight for h in part.of_class(name)), Decimal(0)
            )
    if total < limit:
        return None
    return Reached(parse_class(row.text("result")), f"sum {total:.4g} of {limit}")


def _weight(written: str, m_factor: Decimal) -> Decimal:
    """``10 M`` and ``M`` go by the M-factor, ``10`` does not."""
    number = written.removesuffix("M").strip()
    weight = Decimal(number or 1)
    return weight * m_factor if written.endswith("M") else weight
