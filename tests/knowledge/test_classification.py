"""Classes and labels of solutions, against CLP's own limits worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from manualgen.knowledge import (
    Classification,
    StrengthError,
    chemicals,
    classify,
    classify_mixture,
    find_chemical,
    percent_ww,
)
from manualgen.quantities import Quantity, parse_quantity

HERE = Path(__file__).parent
WORDS = {"concentrated", "glacial", "saturated", ""}


def read(name: str) -> Any:
    return yaml.load((HERE / name).read_text(encoding="utf-8"), yaml.CBaseLoader)


WORKED = read("worked.yaml")
BANDS = read("bands.yaml")


def strength_of(text: str) -> Quantity | str | None:
    return (text or None) if text in WORDS else parse_quantity(text)


def classified(name: str, strength: Quantity | str | None) -> Classification:
    chemical = find_chemical(name)
    assert chemical is not None
    found = classify(chemical, strength)
    assert found is not None
    return found


@pytest.mark.parametrize(
    "row", WORKED["solutions"], ids=lambda r: f"{r['name']} {r['strength']}"
)
def test_a_solution_has_the_class_that_hand_calculation_gives(
    row: dict[str, Any],
) -> None:
    found = classified(row["name"], strength_of(row["strength"]))
    if "h" in row:
        assert list(found.h_statements) == row["h"]
    if "pictograms" in row:
        assert list(found.pictograms) == row["pictograms"]
    assert (found.signal_word or "") == row["signal"]


@pytest.mark.parametrize(
    "row",
    [r for r in WORKED["solutions"] if "percent" in r],
    ids=lambda r: f"{r['name']} {r['strength']}",
)
def test_a_strength_comes_to_the_mass_fraction_worked_by_hand(
    row: dict[str, Any],
) -> None:
    chemical = find_chemical(row["name"])
    assert chemical is not None
    percent = percent_ww(chemical, strength_of(row["strength"]))
    assert percent is not None
    assert abs(percent - Decimal(row["percent"])) <= Decimal("0.002")


@pytest.mark.parametrize(
    "row", WORKED["edges"], ids=lambda r: f"{r['name']} {r['at']} %"
)
def test_a_limit_is_reached_at_its_own_figure_and_not_below(
    row: dict[str, Any],
) -> None:
    at = Decimal(row["at"])
    for percent, statements in [(at, row["h"]), (at - Decimal("0.01"), row["below"])]:
        found = classified(row["name"], parse_quantity(f"{percent} % w/w"))
        assert list(found.h_statements) == statements, found.reason


def test_at_least_twenty_check_values_each_name_their_source() -> None:
    rows = [*WORKED["solutions"], *WORKED["edges"], *WORKED["mixtures"]]
    assert len(WORKED["solutions"]) >= 20
    assert all(row.get("source", "").strip() for row in rows)


@pytest.mark.parametrize("row", WORKED["mixtures"], ids=str)
def test_limits_of_several_ingredients_are_added(row: dict[str, Any]) -> None:
    parts = []
    for name, percent in row["parts"].items():
        chemical = find_chemical(name)
        assert chemical is not None
        parts.append((chemical, Decimal(percent)))
    assert list(classify_mixture(parts).h_statements) == row["h"]


def bands() -> list[tuple[str, dict[str, Any]]]:
    return [(row["name"], band) for row in BANDS for band in row.get("bands", [])]


@pytest.mark.parametrize(
    ("name", "band"), bands(), ids=lambda x: x if isinstance(x, str) else x["from"]
)
def test_a_band_between_limits_has_the_label_that_another_program_worked_out(
    name: str, band: dict[str, Any]
) -> None:
    chemical = find_chemical(name)
    assert chemical is not None
    low = Decimal(band["from"])
    high = Decimal(100) if band["to"] == "null" else Decimal(band["to"])
    # the limits are printed to four figures, so the lower edge is taken a hair above
    just_above = (low * Decimal("1.0005")) or Decimal("0.00001")
    for percent in (just_above, (low + high) / 2):
        strength = parse_quantity(f"{percent:f} % w/w")
        found = classify(replace(chemical, dissolved=None), strength)
        assert found is not None
        assert list(found.h_statements) == band["h"], found.reason
        assert list(found.pictograms) == band["pictograms"]
        assert (found.signal_word or "null") == band["signal"]
        assert [e for e in found.euh if e != "EUH208"] == band["euh"]


@pytest.mark.parametrize("row", BANDS, ids=lambda r: r["name"])
def test_a_pure_substance_has_the_label_of_its_entry(row: dict[str, Any]) -> None:
    found = classified(row["name"], None)
    pure = row["pure"]
    assert (found.signal_word or "null") == pure["signal"]
    assert list(found.pictograms) == pure["pictograms"]
    assert list(found.h_statements) == pure["h"]
    assert list(found.euh) == pure["euh"]


def test_a_solution_of_anhydrous_copper_sulfate_is_one_of_copper_sulfate() -> None:
    strength = parse_quantity("0.5 mol/dm3")
    anhydrous = classified("anhydrous copper(II) sulfate", strength)
    assert (
        anhydrous.h_statements
        == classified("copper(II) sulfate", strength).h_statements
    )


def test_an_extreme_ph_asks_for_eye_protection_where_no_class_does() -> None:
    """CLP Annex I, 3.2.3.1.2: pH 2 or less, 11.5 or more."""
    for name, strength in [
        ("limewater", None),
        ("hydrochloric acid", parse_quantity("0.1 mol/dm3")),
        ("sodium hydroxide", parse_quantity("0.1 mol/dm3")),
    ]:
        found = classified(name, strength)
        assert not found.h_statements
        assert found.advice in ("acidic", "alkaline")


def test_a_weak_acid_at_school_strength_gets_no_ph_advice() -> None:
    """0.1 mol/dm3 ethanoic acid has a pH of 2.9 (Ka = 1.8e-5)."""
    assert classified("ethanoic acid", parse_quantity("0.1 mol/dm3")).advice is None


def test_no_classification_ever_says_safe() -> None:
    for chemical in chemicals():
        found = classify(chemical)
        assert found is None or "safe" not in found.reason.casefold()


def test_a_unit_that_is_no_strength_is_refused_with_its_name() -> None:
    chemical = find_chemical("sodium chloride")
    assert chemical is not None
    with pytest.raises(StrengthError, match="s is no unit of strength"):
        percent_ww(chemical, parse_quantity("10 s"))
    with pytest.raises(StrengthError, match="hydrogen peroxide"):
        percent_ww(chemical, parse_quantity("20 vol"))


def test_a_range_of_strengths_counts_at_its_upper_end() -> None:
    """Sulfuric acid: 4.8 % at 0.5 mol/dm3, 9.2 % at 1 mol/dm3; limit 5 %."""
    found = classified("sulfuric acid", parse_quantity("0.5 to 1 mol/dm3"))
    assert found.h_statements == ("H315", "H319")


SEVERITY = {"Danger": 2, "Warning": 1, None: 0}


@given(
    st.sampled_from([c for c in chemicals() if c.hazards and c.form != "gas"]),
    st.decimals("0.001", "60", places=3),
    st.decimals("1.01", "1.6", places=2),
)
def test_a_stronger_solution_never_has_a_milder_signal_word(
    chemical: Any, percent: Decimal, factor: Decimal
) -> None:
    weaker = classify(chemical, parse_quantity(f"{percent} % w/w"))
    stronger = classify(chemical, parse_quantity(f"{percent * factor} % w/w"))
    assert weaker is not None
    assert stronger is not None
    assert SEVERITY[weaker.signal_word] <= SEVERITY[stronger.signal_word]


@given(st.sampled_from(chemicals()), st.decimals("0.001", "3", places=3))
def test_mass_fraction_grows_with_concentration_and_stays_below_one(
    chemical: Any, concentration: Decimal
) -> None:
    if chemical.basis is None:
        return
    one = percent_ww(chemical, parse_quantity(f"{concentration} mol/dm3"))
    two = percent_ww(chemical, parse_quantity(f"{concentration * 2} mol/dm3"))
    assert one is not None
    assert two is not None
    assert 0 < one <= two <= 100


def test_every_statement_that_the_table_uses_has_its_text() -> None:
    texts = yaml.load(
        (files("manualgen") / "data" / "statements.yaml").read_text(encoding="utf-8"),
        yaml.CBaseLoader,
    )["hazard_statements"]
    for chemical in chemicals():
        found = classify(chemical)
        if found is not None:
            assert {*found.h_statements, *found.euh} <= set(texts), chemical.name


@pytest.mark.parametrize("name", ["limewater", "calcium hydroxide"])
def test_limewater_is_below_every_limit_and_still_alkaline(name: str) -> None:
    """0.17 g in 100 g of water at 20 °C (handbook solubility, from memory): 0.16 % w/w,
    below the 1 % from which Skin Irrit. 2 and Eye Dam. 1 count (CLP Annex I); pH 12.4.
    """
    chemical = find_chemical(name)
    assert chemical is not None
    found = classify(chemical, None if name == "limewater" else "saturated")
    assert found is not None
    assert (found.h_statements, found.signal_word) == ((), None)
    assert found.advice is not None
