"""The figures inside answers, notes and theory, which no worksheet works out.

Each is found in the text by the words about it and worked out again from what
those words say. Handbook values are named where they stand.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

import pytest

from tests.content.again import result
from tests.content.source_text import GAS_CONSTANT, molar_mass, paths, si, source

NUMBER = r"([−-]?\d[\d.]*(?: [a-zA-Z%°][^\s`]*)?)"
MOLAR_VOLUME = si(24.1, "dm3/mol")
"""At 20 °C and 101 kPa: R T / p = 24.13 dm³/mol."""


@dataclass(frozen=True)
class Figure:
    """A figure of an experiment: the words about it, ``#`` where it stands."""

    experiment: str
    words: str
    value: float
    """In the coherent SI unit."""
    about: float = 0.0
    """How far "about" goes; half of the last figure if nothing is said."""


FORMATION = {
    "NaHCO3": -950.81,
    "Na2CO3": -1130.68,
    "HCl(aq)": -167.16,
    "NaCl(aq)": -407.27,
    "H2O": -285.83,
    "CO2": -393.51,
}
"""kJ/mol at 298 K; NBS tables of 1982, from memory."""
BY_ACID_1 = (FORMATION["NaCl(aq)"] + FORMATION["H2O"] + FORMATION["CO2"]) - (
    FORMATION["NaHCO3"] + FORMATION["HCl(aq)"]
)
BY_ACID_2 = (2 * FORMATION["NaCl(aq)"] + FORMATION["H2O"] + FORMATION["CO2"]) - (
    FORMATION["Na2CO3"] + 2 * FORMATION["HCl(aq)"]
)

FIGURES = (
    Figure(
        "iron-tablet", "`55.85 g/mol` = `#` [1]; `1.164", 0.065e-3 / molar_mass("Fe")
    ),
    Figure(
        "iron-tablet",
        "`151.9 g/mol` = `#` [1]",
        0.065e-3 / molar_mass("Fe") * molar_mass("FeSO4"),
    ),
    Figure("iron-tablet", "`1.164 mmol` × `#` =", molar_mass("FeSO4")),
    Figure("iron-tablet", "`65 mg` / `#` =", molar_mass("Fe")),
    Figure(
        "iron-tablet",
        "A rough titre near `#` is right",
        5 * 65e-6 / molar_mass("Fe") / 10 / 5 / si(0.00500, "mol/dm3"),
    ),
    Figure("peroxide-catalyst", "gives about `#` of oxygen", 2.5e-3 * MOLAR_VOLUME),
    Figure(
        "electrolysis-stations",
        "V_m = # # molar",
        GAS_CONSTANT * 293.15 / si(101, "kPa"),
    ),
    Figure("thiosulfate-rate", "of `0.100 mol/dm3` is `#` [1]; it needs", 0.80e-3),
    Figure("thiosulfate-rate", "it needs twice that, `#`, of acid", 1.6e-3),
    Figure("thiosulfate-rate", "of `1.0 mol/dm3` is `#`, which is more", 2.0e-3),
    Figure(
        "thiosulfate-rate",
        "a group would make about `#` of sulfur dioxide",
        (2 * (8.0 + 7.0 + 6.0 + 5.0 + 4.0 + 3.0) + 4.5) * 0.100e-3 * MOLAR_VOLUME,
    ),
    Figure(
        "thiosulfate-rate", "c_p = # # concentration", si(0.100 * 4.5 / 10, "mol/dm3")
    ),
    Figure(
        "baking-soda",
        "predicts a loss of #,",
        (molar_mass("H2O") + molar_mass("CO2")) / (2 * molar_mass("NaHCO3")),
    ),
    Figure("epsom-water", "7 × `18.02 g/mol` = `#` in", 7 * molar_mass("H2O")),
    Figure("epsom-water", "`126.1 g/mol` in `#` [1]", molar_mass("MgSO4(H2O)7")),
    Figure(
        "epsom-water",
        "which is `#` [1].",
        7 * molar_mass("H2O") / molar_mass("MgSO4(H2O)7"),
    ),
    Figure(
        "carbonate-hess",
        "`5.0 g` / `84.0 g/mol` = `#` [1]",
        5e-3 / molar_mass("NaHCO3"),
    ),
    Figure("carbonate-hess", "`5.0 g` / `#` =", molar_mass("NaHCO3")),
    Figure("carbonate-hess", "× `2.0 mol/dm3` = `#` of acid", 0.0500 * 2.0),
    Figure(
        "carbonate-hess", "and `#` of acid is left", 0.10 - 5e-3 / molar_mass("NaHCO3")
    ),
    Figure("carbonate-hess", "here `#` [1]", 2 * result("carbonate-hess", "H_3"), 60),
    Figure(
        "carbonate-hess",
        "give about `#` for the decomp",
        1e3 * (BY_ACID_1 - BY_ACID_2 / 2),
    ),
    Figure("carbonate-hess", "from about `#` and", 1e3 * BY_ACID_1, 800),
    Figure("carbonate-hess", "kJ/mol` and `#`. Classes", 1e3 * BY_ACID_2, 800),
    Figure("neutralisation-enthalpy", "in a rise of `#`, which", 6.6 + 273.15, 0.05),
    Figure("neutralisation-enthalpy", "which is # [1]; the volume", 0.1 / 6.57),
    Figure("ester-equilibrium", "** `#` of `51.1", result("ester-equilibrium", "n_a")),
    Figure("ester-equilibrium", "mmol` of `#` [1]", result("ester-equilibrium", "n_0")),
    Figure(
        "ester-equilibrium",
        "which is `#` [1]",
        result("ester-equilibrium", "n_a") / result("ester-equilibrium", "n_0"),
    ),
    Figure("alum", "`0.50 g` / `27.0 g/mol` = `#` [1]", 0.50e-3 / molar_mass("Al")),
    Figure("alum", "`0.50 g` / `#` =", molar_mass("Al")),
    Figure("alum", "from two of aluminium, so `#` [1]", 0.75e-3 / molar_mass("Al")),
    Figure("alum", "× `24 dm3/mol` = `#` [1]", 0.75e-3 / molar_mass("Al") * 0.024),
    Figure(
        "alum",
        "The gas is hydrogen, `#` of it",
        1.5 * 0.52e-3 / molar_mass("Al") * MOLAR_VOLUME,
        si(50, "cm3"),
    ),
    Figure("fruit-ester", "has a mass of `#` [1]", si(4.0 * 1.05, "g")),
    Figure(
        "fruit-ester", "which is `#` [1]; there", si(4.2, "g") / molar_mass("C2H4O2")
    ),
    Figure(
        "fruit-ester", "there are only `#` of", result("fruit-ester", "n_a"), 0.5e-3
    ),
    Figure(
        "copper-colorimeter",
        "unit, `#` on our line",
        result("copper-colorimeter", "line.gradient"),
    ),
    Figure("halide-tests", "for [Step](#acidify) holds `#`. Twelve", 0.400 * 2.0),
    Figure("nitrate-solubility", "At about #.", 38 + 273.15, 1),
)


@pytest.mark.parametrize("figure", FIGURES, ids=lambda f: f"{f.experiment}: {f.words}")
def test_a_figure_in_words_is_what_its_words_come_to(figure: Figure) -> None:
    before, after = re.split(r"(?<!\()#(?![a-z])", figure.words, maxsplit=1)
    pattern = re.escape(before) + NUMBER + re.escape(after)
    found = re.findall(pattern, source(figure.experiment).prose)
    assert len(found) == 1, pattern
    number, _, unit = found[0].replace("−", "-").partition(" ")
    places = len(number.partition(".")[2])
    last = abs(si(10.0**-places, unit.replace("°C", "K") or "1"))
    unit = unit or "1"
    assert si(float(number), unit) == pytest.approx(
        figure.value, abs=figure.about or 0.501 * last, rel=1e-9
    )


@pytest.mark.parametrize(
    ("experiment", "words", "name", "unit"),
    [
        ("vinegar", "Expect `#` to `#`", "c_v", "mol/dm3"),
        ("standard-alkali", "Titres lie between `#` and `#`", "V_b", "cm3"),
        ("baking-soda", "most groups find # to #.", "loss", "%"),
        ("epsom-water", "gives *x* between # and #.", "x_k", "1"),
        ("carbonate-hess", "Classes find between `#` and `#`", "H_3", "kJ/mol"),
        ("ester-equilibrium", "of a class lie between # and #, and", "K", "1"),
        ("alum", "The yield of this recipe is # to # if", "Y", "%"),
        ("fruit-ester", "Yields lie between # and #.", "y", "%"),
        ("peroxide-catalyst", "comes out between # and #.", "q", "1"),
    ],
)
def test_the_sample_result_lies_in_the_range_that_the_teacher_is_told(
    experiment: str, words: str, name: str, unit: str
) -> None:
    pattern = NUMBER.join(re.escape(part) for part in words.split("#"))
    found = re.findall(pattern, source(experiment).prose)
    assert len(found) == 1, pattern
    low, high = (si(float(end.split(" ")[0]), unit) for end in found[0])
    assert low <= result(experiment, name) <= high


def test_every_answer_with_a_result_in_it_is_worked_out_here() -> None:
    worked_out = {(f.experiment, f.words) for f in FIGURES}
    for experiment in paths():
        prose = source(experiment).prose
        for answer in re.findall(r"\*\*Answer[^*]*:\*\*(.*?)(?=\*\*|##|\n|$)", prose):
            for figure in re.findall(r"(?:=|is|so|only|here) `[\d.]+ [^`]*`", answer):
                told = figure.split("`")[1]
                assert any(
                    e == experiment and _finds(words, told, prose)
                    for e, words in worked_out
                ), f"{experiment}: {figure}"


def _finds(words: str, told: str, prose: str) -> bool:
    return re.sub(r"(?<!\()#(?![a-z])", told, words, count=1) in prose
