"""Units: what people type, what it is, and that nothing is lost on the way."""

from __future__ import annotations

from fractions import Fraction
from importlib.resources import files
from pathlib import Path
from typing import TypedDict

import pint
import pytest
import yaml
from hypothesis import assume, given
from hypothesis import strategies as st

from manualgen.quantities import (
    Dimension,
    QuantityError,
    Verdict,
    parse_quantity,
    parse_unit,
)
from manualgen.quantities.kinds import is_amount, is_strength, kind_of, si_symbol
from manualgen.quantities.mend import typed_unit
from manualgen.quantities.unit_table import unit_table


class Row(TypedDict):
    id: str
    given: str
    expected: dict[str, str]


TABLE = Path(__file__).with_name("units.yaml").read_text("utf-8")
ROWS: list[Row] = yaml.load(TABLE, Loader=yaml.CBaseLoader)
WORDS_ROUND_IT = {"UNT-08": "2 N", "UNT-19": "6.9 °C", "UNT-67": ""}
"""Rows that are no quantity alone: a formula, an article or a spatula with it."""
QUANTITIES = [row for row in ROWS if row["id"] not in WORDS_ROUND_IT]
BASES = {
    "L": "length",
    "M": "mass",
    "T": "time",
    "I": "current",
    "TH": "temperature",
    "N": "amount",
}


@pytest.mark.parametrize("row", QUANTITIES, ids=lambda row: row["given"])
def test_a_writing_has_the_size_and_dimension_of_its_source(row: Row) -> None:
    quantity = parse_quantity(row["given"])
    powers = row["expected"]["dimension"]
    assert isinstance(powers, dict)
    stated = {BASES[base]: int(power) for base, power in powers.items()}
    assert quantity.dimension == Dimension(**stated)
    if "SI_value" in row["expected"]:
        expected = float(row["expected"]["SI_value"])
        assert float(quantity.si_value) == pytest.approx(expected, rel=1e-9)


# The two rows whose writing this format takes as right: repeated solidi and ±
# without brackets; and the mixed one, for which the standards allow both.
RIGHT_HERE = {"4.18 J/g/K", "25.0 ± 0.1 cm3"}


@pytest.mark.parametrize("row", QUANTITIES, ids=lambda row: row["given"])
def test_a_writing_is_judged_as_in_its_source(row: Row) -> None:
    said = row["expected"]["verdict"]
    good = row["given"] in RIGHT_HERE or said.startswith(("ok", "accepted"))
    assert (parse_quantity(row["given"]).verdict is Verdict.OK) == good


SILENT_IN_A_PRACTICAL = {
    "5 % w/v": "a strength of the format",
    "5 % w/w": "a strength of the format",
    "70 % v/v": "a strength of the format",
    "15 ppm": "a strength of the format",
    "20 drops": "common practice, no source",
    "250 uL": "µ without a µ on the keyboard; it is printed right",
    "25°C": "printed with its space",
    "5 moles": "a name beside a numeral, SI Brochure 5.3 allows names",
}


@pytest.mark.parametrize("text", SILENT_IN_A_PRACTICAL)
def test_what_a_practical_may_say_is_tolerated(text: str) -> None:
    assert parse_quantity(text).verdict is Verdict.TOLERATED


# ISO and BIPM names differ from Pint's in a few symbols; both sides say the same.
PINT_WRITING = {
    "°C": "degC",
    "cm3": "cm**3",
    "dm3": "dm**3",
    "m3": "m**3",
    "cm2": "cm**2",
    "mmHg": "mmHg",
    "Å": "angstrom",
    "Ω": "ohm",
    "mol/dm3": "mol/dm**3",
    "mmol/dm3": "mmol/dm**3",
    "g/dm3": "g/dm**3",
    "g/cm3": "g/cm**3",
    "mg/L": "mg/L",
    "J/(g K)": "J/g/K",
    "kJ/mol": "kJ/mol",
    "dm3/mol": "dm**3/mol",
    "mol2/dm6": "mol**2/dm**6",
    "dm3 mol-1 s-1": "dm**3/mol/s",
    "C/mol": "C/mol",
    "S/cm": "S/cm",
    "K/min": "K/min",
    "%": "percent",
    "ppm": "ppm",
    "L": "L",
    "h": "hour",
    "d": "day",
    "t": "metric_ton",
    "M": "molar",
    "cc": "cc",
}
PLAIN = """
m g s A K mol cd Hz N Pa J W C V F S T H lm lx Bq Gy Sv kat min bar eV atm torr psi cal
kcal mL µL dL cL hL mg kg µg ng pg mm nm pm µm km cm dm mmol µmol kmol kPa hPa MPa mbar
kJ MJ mJ mA µA mV kV mW kW ms µs ns mN kN MHz kHz mS µS
"""
registry: pint.UnitRegistry[float] = pint.UnitRegistry(
    autoconvert_offset_to_baseunit=True
)


@pytest.mark.parametrize("written", [*PLAIN.split(), *PINT_WRITING])
def test_a_unit_is_as_large_as_pint_has_it(written: str) -> None:
    """Pint 0.24 and newer, whose sizes come from CODATA and NIST SP 811."""
    theirs = registry.Quantity(2.5, PINT_WRITING.get(written, written)).to_base_units()
    # Pint's base unit of mass is the kilogram, as ours, and °C becomes kelvin.
    ours = parse_quantity(f"2.5 {written}")
    assert float(ours.si_value) == pytest.approx(theirs.magnitude, rel=1e-9)


@pytest.mark.parametrize("source", ["cm3", "mL", "dm3", "L", "µL", "m3"])
@pytest.mark.parametrize("target", ["cm3", "mL", "dm3", "L", "µL", "m3"])
@pytest.mark.parametrize("number", ["25.0", "0.0250", "1000", "3.7e-5"])
def test_a_volume_converts_as_pint_converts_it(
    number: str, source: str, target: str
) -> None:
    ours = parse_quantity(f"{number} {source}").to(parse_unit(target))
    theirs = registry.Quantity(float(number), PINT_WRITING.get(source, source)).to(
        PINT_WRITING.get(target, target)
    )
    assert float(ours.value) == pytest.approx(theirs.magnitude, rel=1e-12)


SAME_UNIT = """
mol/dm3 mol dm-3|mol dm^-3|mol·dm-3|mol dm⁻³|mol.dm-3|mol*dm^-3|mol / dm3|mol per dm3|mol/dm^3|mol/dm³|mol (dm3)-1
J/(g K) J/g/K|J/g K-1|J/g K|J g-1 K-1|J g⁻¹ K⁻¹|J K-1 g-1|J/(g·K)|J/(K g)
cm3 cm^3|cm³|cc|cm**3|cubic centimetres
µg ug|μg|mcg|micrograms
°C degC|deg C|℃|degrees Celsius
mol-1 1/mol|mol^-1|mol⁻¹
mol^(1/2) mol^(2/4)
dm-3 dm -3|dm−3|dm–3
g g.|grams
mol2/dm6 (mol/dm3)2|mol2 dm-6|(mol dm-3)^2
"""


@pytest.mark.parametrize("line", SAME_UNIT.strip().splitlines())
def test_every_usual_writing_is_the_same_unit(line: str) -> None:
    firsts = ("J/(g K)",)
    first = next((f for f in firsts if line.startswith(f)), line.split(" ")[0])
    for other in line.removeprefix(first).strip().split("|"):
        assert parse_unit(other) == parse_unit(first), other
        assert hash(parse_unit(other)) == hash(parse_unit(first))


@pytest.mark.parametrize(
    ("text", "word", "near"),
    [
        ("mol/cmm3", "cmm", "cm"),
        ("DEGC", "DEGC", "degC"),
        ("mool", "mool", "mol"),
        ("kpascal", "kpascal", None),
    ],
)
def test_an_unknown_word_is_pointed_at_with_the_nearest_unit(
    text: str, word: str, near: str | None
) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_unit(text)
    error = caught.value
    assert error.kind == "unknown-unit"
    assert text[error.start : error.end] == word
    if near:
        assert error.suggestion == near


@pytest.mark.parametrize("text", ["concentrated", "glacial", "saturated"])
def test_a_strength_in_words_is_no_unit(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_unit(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "  ",
        "/",
        "mol/",
        "(mol",
        "mol)",
        "mol^",
        "mol//dm3",
        "cm99",
        "mol^0",
        "m" * 90,
    ],
)
def test_a_broken_unit_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_unit(text)


def test_brackets_and_sizes_are_bounded() -> None:
    with pytest.raises(QuantityError, match="deep"):
        parse_unit("((((((((((mol))))))))))")
    with pytest.raises(QuantityError, match="measure"):
        parse_unit("Qm12")


def test_a_temperature_is_told_from_a_difference() -> None:
    """SI Brochure, 9th ed., 2.3.1: t/°C = T/K - 273.15, differences are equal."""
    celsius = parse_unit("°C")
    assert celsius.offset == Fraction("273.15")
    assert celsius.difference.offset == 0
    assert parse_unit("J/°C").offset == 0
    assert parse_unit("°C/min").offset == 0
    assert (celsius * parse_unit("g")).offset == 0
    assert (celsius / parse_unit("1")).offset == Fraction("273.15")


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("0 °C", "K", "273.15"),  # SI Brochure, 9th ed., 2.3.1
        ("1 atm", "Pa", "101325"),  # CODATA 2022, exact
        ("1 cal", "J", "4.184"),  # OpenStax Chemistry 2e, appendix C
        ("1 eV", "J", "1.602176634e-19"),  # CODATA 2022, exact
        ("1 Da", "kg", "1.66053906892e-27"),  # CODATA 2022
        ("22.41397 dm3/mol", "m3/mol", "0.02241397"),  # 1 dm³ = 0.001 m³
    ],
)
def test_a_unit_has_the_size_that_its_definition_gives_it(
    text: str, unit: str, expected: str
) -> None:
    in_unit = parse_quantity(text).si_value / parse_unit(unit).factor
    assert in_unit == Fraction(expected)


def test_a_square_root_undoes_a_square() -> None:
    squared = parse_unit("mol2/dm6")
    assert squared ** Fraction(1, 2) == parse_unit("mol/dm3")
    root = parse_unit("mol/dm3") ** Fraction(1, 2)
    assert root.dimension == Dimension(amount=Fraction(1, 2), length=Fraction(-3, 2))
    assert float(root.factor) == pytest.approx(1000**0.5, rel=1e-14)


def test_a_unit_is_equal_to_units_alone() -> None:
    assert parse_unit("g") != "g"
    assert parse_unit("g") != parse_unit("kg")


def test_a_unit_bears_the_worst_verdict_of_its_words() -> None:
    assert parse_unit("g/cc").verdict is Verdict.DISCOURAGED
    assert parse_unit("g/cm3").verdict is Verdict.OK


def test_a_product_takes_like_units_together() -> None:
    assert parse_unit("mol/dm3") * parse_unit("dm3") == parse_unit("mol")
    assert parse_unit("g") / parse_unit("g") == parse_unit("1")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("cm3", "volume"),
        ("mol/dm3", "amount concentration"),
        ("% w/v", "mass concentration"),
        ("% w/w", "mass fraction"),
        ("vol", "volume strength"),
        ("drops", "count"),
        ("1", "pure number"),
        ("J/g/K", "specific heat capacity"),
        ("m5", "m⁵"),
    ],
)
def test_a_unit_is_named_for_what_it_measures(text: str, kind: str) -> None:
    assert kind_of(parse_unit(text)) == kind


@pytest.mark.parametrize(
    ("text", "symbol"),
    [
        ("atm", "Pa"),
        ("mol/dm3", "mol m⁻³"),
        ("kcal", "J"),
        ("%", "1"),
        ("km/h", "m s⁻¹"),
    ],
)
def test_the_coherent_unit_is_written_as_the_brochure_writes_it(
    text: str, symbol: str
) -> None:
    """SI Brochure, 9th ed., tables 4 to 6."""
    assert si_symbol(parse_unit(text).dimension) == symbol


def test_strengths_and_amounts_are_told_apart() -> None:
    """The format's lists of strengths and amounts."""
    strengths = ("mol/dm3", "mmol/dm3", "g/dm3", "mg/dm3", "ppm", "vol")
    for text in (*strengths, "% w/v", "% w/w", "% v/v"):
        assert is_strength(parse_unit(text)), text
        assert not is_amount(parse_unit(text)), text
    for text in ("g", "cm3", "cm", "1", "drops"):
        assert is_amount(parse_unit(text)), text
        assert not is_strength(parse_unit(text)), text


def test_a_unit_without_offset_is_its_own_difference() -> None:
    assert parse_unit("K").difference == parse_unit("K")


single = st.sampled_from([*unit_table().common, "% w/v", "atm", "Å", "°F", "week"])
power = st.integers(-3, 3).filter(bool)


@given(st.lists(st.tuples(single, power), min_size=1, max_size=4))
def test_what_is_typed_for_a_unit_reads_as_that_unit(
    parts: list[tuple[str, int]],
) -> None:
    unit = parse_unit("1")
    for written, exponent in parts:
        unit = unit * parse_unit(written) ** exponent
    assume(Fraction(1, 10**60) < unit.factor < 10**60)
    assert parse_unit(typed_unit(unit) or "1") == unit


def test_no_writing_of_a_prefixed_unit_hides_another() -> None:
    """Every unit of the table is read as itself, `min` as the minute."""
    for written, writing in unit_table().writings.items():
        if not isinstance(writing.means, str):
            assert parse_unit(written).parts == ((writing.means, 1),), written


def test_every_row_of_the_table_names_its_source() -> None:
    table = files("manualgen").joinpath("data/units.yaml").read_text("utf-8")
    data = yaml.load(table, Loader=yaml.CBaseLoader)
    for section in ("units", "discouraged", "writings"):
        for row in data[section]:
            assert row["source"] in data["sources"], row
    for row in (*data["discouraged"], *data["writings"]):
        assert row.get("why") or row["verdict"] == "ok", row


@given(st.text(alphabet="mold3-^/() °Cg%±.0·", max_size=40))
def test_any_text_is_a_unit_or_an_error_with_a_place(text: str) -> None:
    error = refusal(text)
    assert error is None or 0 <= error.start <= error.end <= len(text)


def refusal(text: str) -> QuantityError | None:
    try:
        parse_unit(text)
    except QuantityError as error:
        return error
    return None
