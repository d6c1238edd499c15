"""The statements that the hazard boxes print are those of the sources named.

`hazard_statements.yaml` is worked out by hand from CLP's Annex VI and its
limits; the percentages are molmass's. What the built-in table has from
elsewhere, or from memory, is not held to anything here.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml

from manualgen.quantities import Quantity
from manualgen.working.hazards import HazardEntry
from tests.content.source_text import CONTENT, molar_mass, si, worked

HERE = Path(__file__).parent
TABLE = Path(__file__).parents[2] / "manualgen" / "data" / "hazards.yaml"
ROWS = yaml.load((HERE / "hazard_statements.yaml").read_text(), Loader=yaml.CBaseLoader)
DENSITIES = (1.00, 1.10)
"""g/cm³ of the dilute solutions, from and to."""


def entries() -> Iterator[tuple[str, HazardEntry]]:
    """What the boxes print of one chemical by its name, and in which experiment."""
    for work in worked().experiments:
        for entry in work.hazards.entries:
            if len(entry.chemicals) == 1:
                yield work.experiment.id, entry


def strength_of(entry: HazardEntry) -> float | str | None:
    """A number of mol/dm³, a word or nothing."""
    match entry.strength:
        case Quantity(unit=unit, value=value) if unit.text == "mol/dm3":
            return float(value)
        case None:
            return None
        case other:
            return str(getattr(other, "value", other))


def wanted(row: dict[str, str]) -> float | str | None:
    """The strength of a row, as `strength_of` tells it."""
    strength = row.get("strength")
    if strength is None:
        return None
    return float(strength) if strength[0].isdigit() else strength


def printed(entry: HazardEntry) -> tuple[str, ...]:
    """The codes of the statements of a line of the box."""
    return entry.classification.h_statements if entry.classification else ()


@pytest.mark.parametrize("row", ROWS, ids=lambda r: f"{r['chemical']} {wanted(r)}")
def test_a_chemical_has_the_statements_of_its_source(row: dict[str, str]) -> None:
    found = [
        (experiment, printed(entry))
        for experiment, entry in entries()
        if entry.chemicals[0].name == row["chemical"]
        and strength_of(entry) == wanted(row)
        and entry.name == row["chemical"]
    ]
    assert found, "not in the demonstration"
    for experiment, statements in found:
        assert statements == tuple(row["statements"]), experiment


@pytest.mark.parametrize(
    "row",
    [row for row in ROWS if "percent" in row],
    ids=lambda r: f"{r['chemical']} {r['strength']}",
)
def test_the_strength_lies_between_the_limits_named(row: dict[str, str]) -> None:
    low, high = map(float, row["percent"])
    mass = si(float(row["strength"]), "mol/dm3") * molar_mass(row["formula"])
    for density in DENSITIES:
        percent = 100 * mass / si(density, "g/cm3")
        assert low <= percent < high


def test_every_listed_chemical_that_annex_vi_classifies_is_held_to_it() -> None:
    table = yaml.load(TABLE.read_text(), Loader=yaml.CBaseLoader)["chemicals"]
    sources = {row["name"]: row.get("source", "") for row in table}
    known = {(row["chemical"], wanted(row)) for row in ROWS}
    for experiment, entry in entries():
        name = entry.chemicals[0].name
        held = sources.get(name, "").startswith("Annex VI no.")
        listed = entry.made is None and entry.name == name
        if held and listed and printed(entry):
            assert (name, strength_of(entry)) in known, experiment


def test_an_unknown_has_the_statements_of_all_that_it_may_be_at_its_strength() -> None:
    table = {(row["chemical"], wanted(row)): row["statements"] for row in ROWS}
    boxes = {work.experiment.id: work.hazards.entries for work in worked().experiments}
    (rinse,) = (e for e in boxes["copper-colorimeter"] if e.name == "rinse water X")
    assert list(printed(rinse)) == table["copper(II) sulfate", 0.1], "1.6 % of 1 to 3"
    (alkali,) = (e for e in boxes["standard-alkali"] if e.name == "alkali A")
    assert list(printed(alkali)) == table["sodium hydroxide", 0.1]
    for experiment, shown in (
        ("halide-tests", "solution X"),
        ("halogen-displacement", "solution H"),
        ("metal-ions", "solution U"),
    ):
        unknown = next(e for e in boxes[experiment] if e.name == shown)
        assert len(unknown.chemicals) == 3
        iodide = [e for e in boxes[experiment] if e.name == "potassium iodide"]
        assert set(printed(unknown)) >= {s for e in iodide for s in printed(e)}


def test_the_departments_own_chemicals_have_the_statements_of_their_own_sources() -> (
    None
):
    store = yaml.load(
        (CONTENT / "chemicals.yaml").read_text(encoding="utf-8"),
        Loader=yaml.CBaseLoader,
    )
    own = {name: row for name, row in store.items() if "hazards" in row}
    assert own
    for experiment, entry in entries():
        if entry.name in own:
            assert list(printed(entry)) == own[entry.name]["hazards"], experiment
            assert own[entry.name]["source"]
