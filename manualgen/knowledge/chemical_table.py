"""Chemicals from the table ``hazards.yaml``, read once."""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache

from manualgen.chemistry import Formula, parse_formula
from manualgen.knowledge.chemical import Chemical, Form, HazardData, Ingredient
from manualgen.knowledge.hazard_class import parse_class, parse_limit
from manualgen.knowledge.tables import Row, read_table


@lru_cache(maxsize=1)
def chemicals() -> tuple[Chemical, ...]:
    """Every row of the built-in table."""
    return tuple(_chemical(row) for row in read_table("hazards").rows("chemicals"))


@lru_cache(maxsize=1)
def classification_sources() -> tuple[tuple[str, str], ...]:
    """The abbreviations that the rows' sources use, with what they stand for."""
    sources = read_table("hazards").row("sources")
    return tuple((name, sources.text(name).strip()) for name in sources.cells)


def _chemical(row: Row) -> Chemical:
    name = row.text("name")
    formula = _formula(row.text("formula"))
    return Chemical(
        name=name,
        substance=row.text("substance", name),
        also=row.texts("also"),
        formula=formula,
        basis=_formula(row.text("percent_of")) or formula,
        hydrates=tuple(parse_formula(text) for text in row.texts("hydrates")),
        form=Form(row.text("form")),
        cas=row.text("cas") or None,
        hazards=_hazards(row) if "classes" in row else None,
        ingredients=_ingredients(row),
        strength_of=row.text("of") or None,
        dissolved=row.text("dissolved") or None,
        concentrated=row.number("concentrated"),
        saturated=row.number("saturated"),
        density=row.number("density"),
        acid_from=row.number("acid_from"),
        alkali_from=row.number("alkali_from"),
        kin=frozenset(row.texts("kin")),
        disposal=row.text("disposal"),
        note=row.text("note"),
        source=row.text("source"),
    )


def _hazards(row: Row) -> HazardData:
    return HazardData(
        classes=tuple(parse_class(text) for text in row.texts("classes")),
        source=row.text("source"),
        seen=row.text("seen"),
        limits=tuple(parse_limit(text) for text in row.texts("limits")),
        flammable=tuple(parse_limit(text) for text in row.texts("flammable")),
        estimates=row.numbers("ate"),
        inhaled=row.text("inhaled", "dust"),
        m_factors=_m_factors(row),
        euh=row.texts("euh"),
    )


def _m_factors(row: Row) -> tuple[Decimal, Decimal]:
    numbers = tuple(Decimal(text) for text in row.texts("m_factors")) or (Decimal(1),)
    return numbers[0], numbers[-1]


def _ingredients(row: Row) -> tuple[Ingredient, ...]:
    return tuple(Ingredient(name, n) for name, n in row.numbers("made_of"))


def _formula(text: str) -> Formula | None:
    return parse_formula(text) if text else None
