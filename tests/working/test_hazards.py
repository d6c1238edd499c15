"""The hazard box: limits by CLP as in tests/knowledge/worked.yaml, gas by pV = nRT by hand."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from manualgen.editions.catalogue import catalogue
from manualgen.editions.key import NO_KEY
from manualgen.editions.lay_out import lay_out
from manualgen.pages.context import context_for
from manualgen.pages.experiment import render_experiment
from manualgen.preparation.bottle_labels import class_labels
from manualgen.preparation.sheet import plans_of_year, writer_for
from manualgen.working.hazards import HazardBox, HazardEntry
from manualgen.working.worked import Worked

WorkOut = Callable[..., Worked]


def box(work_out: WorkOut, text: str, settings: str = "") -> HazardBox:
    worked = work_out(f"---\ntitle: Box\n{text}", settings=settings)
    return worked.experiments[0].hazards


def entry(found: HazardBox, name: str) -> HazardEntry:
    return next(e for e in found.entries if e.name == name)


ACID_AND_CHALK = """\
chemicals:
  - hydrochloric acid, 2.0 mol/dm3, 50 cm3
  - calcium carbonate, 1.00 g
---

## Method

1. Add the calcium carbonate to the acid.

```equation
CaCO3(s) + 2 HCl(aq) -> CaCl2(aq) + H2O(l) + CO2(g)
```
"""


def test_each_chemical_stands_at_its_strength(work_out: WorkOut) -> None:
    found = box(work_out, ACID_AND_CHALK)
    acid = entry(found, "hydrochloric acid").classification
    assert acid is not None
    assert acid.h_statements == (), "7.06 %, below the 10 % of Annex VI"
    assert acid.advice is not None


def test_a_gas_is_said_with_how_much_from_what_runs_out_first(
    work_out: WorkOut,
) -> None:
    """1.00 g / 100.09 g/mol = 0.00999 mol; x 8.314 x 293.15 / 101000 = 241 cm³."""
    gas = entry(box(work_out, ACID_AND_CHALK), "carbon dioxide").gas_m3
    assert gas is not None
    assert float(gas) * 1e6 == pytest.approx(241, abs=1)


def test_the_room_decides_the_volume_of_a_gas(work_out: WorkOut) -> None:
    """At 0 °C and 101.325 kPa a mole takes 22.414 dm³."""
    cold = "conditions: {temperature: 0 °C, pressure: 101.325 kPa}\n"
    gas = entry(box(work_out, ACID_AND_CHALK, cold), "carbon dioxide").gas_m3
    assert gas is not None
    assert float(gas) * 1e6 == pytest.approx(22414 * 1.00 / 100.09, abs=1)


def test_an_unknown_stands_as_students_see_it_with_all_that_it_may_be(
    work_out: WorkOut,
) -> None:
    found = box(
        work_out,
        "chemicals:\n"
        "  - {shown: white solid, sets: {groups 1-6: sodium carbonate,"
        " groups 7-12: copper(II) sulfate}, amount: 2 g}\n"
        "---\n## Method\n1. Look.\n",
    )
    (only,) = found.entries
    assert only.name == "white solid"
    assert only.strength is None
    assert only.classification is not None
    # H319 of the carbonate is covered by H318 of the sulfate
    assert only.classification.h_statements == ("H302", "H318", "H410")


def test_the_strength_of_an_unknown_is_not_in_the_box(work_out: WorkOut) -> None:
    found = box(
        work_out,
        "chemicals:\n"
        "  - {name: sodium hydroxide, shown: solution A, made: 0.0960 mol/dm3, amount: 120 cm3}\n"
        "---\n## Method\n1. Look.\n",
    )
    (only,) = found.entries
    assert (only.name, only.strength) == ("solution A", None)


def test_the_response_is_the_standard_s_in_number_order(work_out: WorkOut) -> None:
    found = box(
        work_out,
        "chemicals:\n  - sodium hydroxide, 2.0 mol/dm3, 5 cm3\n"
        "  - ethanol, 5 cm3\n---\n## Method\n1. Look.\n",
    )
    codes = [p.code for p in found.response]
    assert codes == sorted(codes, key=lambda c: [int(n[1:]) for n in c.split("+")])
    assert "P305+P351+P338" in codes


def test_what_is_for_spills_is_not_in_the_box(work_out: WorkOut) -> None:
    found = box(
        work_out,
        "chemicals:\n  - sodium carbonate, 50 g, for spills\n---\n## Method\n1. Look.\n",
    )
    assert found.entries == ()


def test_standing_rules_stand_in_the_box(work_out: WorkOut) -> None:
    rules = "standing_controls: [Eye protection is worn by everyone.]\n"
    found = box(work_out, ACID_AND_CHALK, rules)
    assert found.controls == ("Eye protection is worn by everyone.",)


def test_an_equation_that_only_explains_makes_nothing(work_out: WorkOut) -> None:
    found = box(
        work_out,
        "chemicals:\n  - sodium chloride, 2 g\n---\n## Method\n1. Look.\n\n"
        "```equation\nMg(s) + 2 HCl(aq) -> MgCl2(aq) + H2(g)\n```\n",
    )
    assert [e.name for e in found.entries] == ["sodium chloride"]


def test_a_product_in_solution_stands_at_the_strength_that_it_reaches(
    work_out: WorkOut,
) -> None:
    """0.0100 mol of copper(II) sulfate in 50 cm³: 0.200 mol/dm³."""
    found = box(
        work_out,
        "chemicals:\n  - sulfuric acid, 1.0 mol/dm3, 50 cm3, excess\n"
        "  - copper(II) oxide, 0.7955 g\n---\n## Method\n1. Look.\n\n"
        "```equation\nCuO(s) + H2SO4(aq) -> CuSO4(aq) + H2O(l)\n```\n",
    )
    made = entry(found, "copper(II) sulfate")
    assert made.made is not None
    assert made.made.moles is not None
    assert abs(made.made.moles - Fraction(1, 100)) < Fraction(1, 10**5)
    assert made.classification is not None
    # 0.2 x 249.7 / (10 x 1.03) = 4.8 %, over the 3 % of H318
    assert made.classification.h_statements == ("H318", "H410")


def test_a_gas_is_what_all_that_is_given_out_could_make(work_out: WorkOut) -> None:
    """The step takes 20 cm³, "repeat" is never counted: 50 cm³ of acid is 0.100 mol,
    2.00 g of chalk 0.01998 mol; x 8.314 x 293.15 / 101000 = 482 cm³ (by hand).
    """
    text = ACID_AND_CHALK.replace("1.00 g", "2.00 g").replace(
        "Add the calcium carbonate to the acid.",
        "Add `0.50 g` of the calcium carbonate to `20 cm3` of the acid.",
    )
    gas = entry(box(work_out, text), "carbon dioxide").gas_m3
    assert gas is not None
    assert float(gas) * 1e6 == pytest.approx(482, abs=1)


TO_BALANCE = """\
chemicals:
  - sodium hydrogencarbonate, 2.0 g
---

## Method

1. Stir the sodium hydrogencarbonate into `20 cm3` of water{heated}.

## Questions

1. Balance the equation. [1]

   ```equation to-balance
   NaHCO3(s) -> Na2CO3(s) + H2O(l) + CO2(g)
   ```

   > **Answer:** Balanced.
"""


@pytest.mark.parametrize(("heated", "made"), [("", 0), (" and boil it", 1)])
def test_an_equation_that_is_asked_about_counts_where_it_is_carried_out(
    work_out: WorkOut, heated: str, made: int
) -> None:
    found = box(work_out, TO_BALANCE.replace("{heated}", heated))
    assert [e.name for e in found.entries].count("carbon dioxide") == made


TRACE = """\
chemicals:
  - {entry}
---

## Method

1. Put `10 cm3` of the {called} into the flask.
"""


@pytest.mark.parametrize(
    ("entry", "called", "told"),
    [
        # CLP Annex II 2.8: "Contains (name of sensitising substance). May produce an
        # allergic reaction."; 0.020 mol/dm3 of K2S2O8 is 0.54 %, between 0.1 and 1 %.
        (
            "potassium peroxodisulfate, 0.020 mol/dm3, 20 cm3",
            "potassium peroxodisulfate",
            "Contains potassium peroxodisulfate. May produce an allergic reaction.",
        ),
        (
            "{name: potassium peroxodisulfate, strength: 0.020 mol/dm3, amount: 20 cm3, "
            "shown: solution A}",
            "solution A",
            "May produce an allergic reaction.",
        ),
    ],
)
def test_a_trace_of_a_sensitiser_is_named_unless_students_are_to_find_it_out(
    work_out: WorkOut, entry: str, called: str, told: str
) -> None:
    text = "---\ntitle: Box\n" + TRACE.format(entry=entry, called=called)
    worked = work_out(text)
    settings = worked.manual.settings
    sheet, _ = lay_out(worked.experiments[0], catalogue(worked.manual))
    page = render_experiment(sheet, NO_KEY, context_for(settings, "student"))
    assert told in page
    assert "(name)" not in page
    assert ("peroxodisulfate" in page) is ("Contains" in told)
    labels = class_labels(plans_of_year(worked)[0], writer_for(worked))
    assert told in labels[0].statements
