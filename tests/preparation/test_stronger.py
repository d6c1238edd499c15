"""A weak acid out of a stronger one that the class is given as well."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction

import pytest

from manualgen.preparation.making_actions import dilute, handle
from manualgen.preparation.needs import Order, Sitting
from manualgen.preparation.plan import Plan, plan
from manualgen.preparation.sheet import sheet_of, writer_for
from manualgen.preparation.stock import stock_list
from manualgen.reports.preparation import plan_as_json
from manualgen.working.worked import Worked

WorkOut = Callable[..., Worked]


@pytest.fixture
def planned(work_out: WorkOut) -> Callable[..., tuple[Plan, Worked]]:
    def of_list(*listed: str) -> tuple[Plan, Worked]:
        lines = "".join(f"  - {entry}\n" for entry in listed)
        front = f"---\ntitle: T\nchemicals:\n{lines}---\n"
        worked = work_out(f"{front}\n## Method\n\n1. Look.\n")
        (work,) = worked.experiments
        return plan(Order((Sitting(work, 10),), Fraction(1, 10))), worked

    return of_list


@pytest.mark.parametrize("weak_first", [True, False])
def test_a_weak_acid_is_diluted_from_the_stronger_one_of_the_sheet(
    planned: Callable[..., tuple[Plan, Worked]], weak_first: bool
) -> None:
    listed = ("nitric acid, 0.40 mol/dm3, 9 cm3", "nitric acid, 2.0 mol/dm3, 40 cm3")
    made, worked = planned(*(listed if weak_first else listed[::-1]))
    strong, weak = made.solutions
    assert weak.stronger is not None
    assert weak.stronger.code == strong.code
    assert weak.making is not None
    # c₁V₁ = c₂V₂ by hand: for 100 cm³ of 0.40 mol/dm³, 20 cm³ of 2.0 mol/dm³, for which
    # more of that is made: 10 × 40 cm³ and a tenth, and the 20 cm³.
    assert weak.making.volume == 100
    assert weak.making.stock == 20
    assert strong.total == 460
    writer = writer_for(worked)
    first, second = dilute(made, writer).rows
    assert first.code == strong.code
    told = " ".join(second.how).replace("\u00a0", " ")
    assert f"20 cm³ of nitric acid, 2.0 mol dm⁻³ ({strong.code})" in told
    assert "one in ten" not in told
    # From 5 % w/w nitric acid is corrosive (CLP, Annex VI, 007-030-00-3); 2.0 mol/dm³
    # is 12 %, so it is poured with goggles and gloves.
    assert "Goggles" in " ".join(second.cautions)
    assert len(handle(made, writer).rows) == 1
    # 500 cm³ of 2.0 mol/dm³ is 1.00 mol, of 70 % w/w, 1.42 g/cm³ acid at 63.01 g/mol
    # 63.4 cm³; a 100 cm³ cylinder shows 63.5 cm³. Nothing else leaves the shelf.
    _, row, _ = stock_list(worked, [made], writer).splitlines()
    assert ",64 cm³," in row
    report = json.loads(plan_as_json(made, sheet_of(made, writer), writer))
    assert report["solutions"][1]["stock_volume"] is None
    assert report["solutions"][1]["diluted_from"] == {
        "code": strong.code,
        "volume": {"value": 20, "unit": "cm3"},
    }


@pytest.mark.parametrize(
    "listed",
    [
        # 40 cm³ of a solution of three figures keeps its own way.
        ("nitric acid, 0.400 mol/dm3, 9 cm3", "nitric acid, 2.0 mol/dm3, 40 cm3"),
        # Enough of the stock is taken to measure it: 12.7 cm³ by hand.
        ("nitric acid, 0.40 mol/dm3, 40 cm3", "nitric acid, 2.0 mol/dm3, 40 cm3"),
        # Of the stronger one, 2.5 cm³, it would be too little as well.
        ("nitric acid, 0.050 mol/dm3, 9 cm3", "nitric acid, 2.0 mol/dm3, 40 cm3"),
        ("nitric acid, 0.40 mol/dm3, 9 cm3", "sulfuric acid, 2.0 mol/dm3, 40 cm3"),
        ("ethanol, 1 % v/v, 9 cm3", "ethanol, 50 % v/v, 40 cm3"),
    ],
)
def test_everything_else_is_made_from_the_shelf(
    planned: Callable[..., tuple[Plan, Worked]], listed: tuple[str, str]
) -> None:
    made, _ = planned(*listed)
    assert len(made.solutions) == 2
    assert [s.stronger for s in made.solutions] == [None, None]
    assert all(s.making for s in made.solutions)
