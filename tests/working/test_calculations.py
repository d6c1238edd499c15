"""Calculations worked out: values, what the teacher sees, and what goes wrong."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot, sqrt
from xml.etree import ElementTree

import pytest

from manualgen.working.worked import Worked
from tests.working.sheets import (
    TITRES,
    experiment,
    fence,
    line_of,
    numbers_of,
    shown,
    standard,
)

WorkOut = Callable[..., Worked]

VINEGAR = fence(
    "calculation",
    "c_b = 0.1000 ± 0.0002 mol/dm3",
    "V_b = titres.mean",
    "V_a = 25.00 ± 0.06 cm3",
    "V_f = 250.0 ± 0.3 cm3",
    "n_b = c_b * V_b -> mol",
    "n_a = n_b -> mol",
    "c_d = n_a / V_a -> mol/dm3",
    "c_v = c_d * V_f / V_a -> mol/dm3",
    "c_v = 0.858 mol/dm3",
)
BURETTE = ("burette, 50 cm3, class B",)


def test_the_vinegar_comes_to_its_concentration(work_out: WorkOut) -> None:
    # by hand: 0.1000 × 21.45 / 25.00 × 250.0 / 25.00 = 0.858 mol/dm3
    numbers = numbers_of(experiment(TITRES, VINEGAR), work_out)
    assert numbers.noted == ()
    assert shown(numbers, "c_v") == ("0.8580", None)
    assert [a.answer.symbol for a in numbers.calculations[0].answers] == ["c_v"]


def test_uncertainties_meet_with_the_pipette_counted_twice(work_out: WorkOut) -> None:
    # u/c by hand: c_b 0.0002, V_a twice 0.06/25.00, V_f 0.3/250.0, each over √3;
    # the mean titre's as in the readings' own test
    text = experiment(TITRES, VINEGAR, apparatus=BURETTE)
    numbers = numbers_of(text, work_out)
    readings = hypot(0.05 / sqrt(3), 0.05 / sqrt(3)) / sqrt(3)
    titre = hypot(readings, 0.1 / sqrt(3)) / 21.45
    shares = (0.002, 2 * 0.06 / 25.00, 0.3 / 250.0)
    expected = 0.858 * hypot(titre, *(share / sqrt(3) for share in shares))
    found = standard(numbers.scope.values["c_v"]) / 1000
    assert found == pytest.approx(expected)
    assert shown(numbers, "c_v") == ("0.858", "0.004")
    assert numbers.stated["c_v"].standard


def test_a_course_may_add_its_percentages_up(work_out: WorkOut) -> None:
    # two readings of 0.05 and the glass's 0.1 cm3: 0.20 cm3 in 21.45, not made
    # better by averaging; 0.2 %, 2 × 0.24 % and 0.12 % (common practice, no source)
    text = experiment(TITRES, VINEGAR, apparatus=BURETTE)
    numbers = numbers_of(text, work_out, settings="uncertainty: sum\n")
    percent = 0.20 / 21.45 + 0.002 + 2 * 0.0024 + 0.0012
    assert not numbers.stated["c_v"].standard
    assert float(numbers.stated["c_v"].half_width or 0) == pytest.approx(
        0.858 * percent, abs=0.0005
    )


def test_a_listed_pipette_lends_its_tolerance(work_out: WorkOut) -> None:
    # ISO 648: 25 cm3, class B, 0.06 cm3
    lines = fence("calculation", "V_a = 25.00 cm3 (pipette)")
    text = experiment(lines, apparatus=("pipette, 25 cm3, class B",))
    assert shown(numbers_of(text, work_out), "V_a") == ("25.00", "0.06")


def test_one_pipette_is_the_same_pipette_wherever_it_is_used(work_out: WorkOut) -> None:
    lines = fence(
        "calculation",
        "V_a = 25.00 cm3 (pipette)",
        "V_b = 25.00 cm3 (pipette)",
        "r = V_a / V_b -> 1",
    )
    text = experiment(lines, apparatus=("pipette, 25 cm3, class B",))
    assert standard(numbers_of(text, work_out).scope.values["r"]) == 0
    two = experiment(lines, apparatus=("2 pipettes, 25 cm3, class B",))
    found = standard(numbers_of(two, work_out).scope.values["r"])
    assert found == pytest.approx(sqrt(2) * 0.06 / sqrt(3) / 25)


def test_a_volume_from_the_burette_has_its_readings_too(work_out: WorkOut) -> None:
    lines = fence("calculation", "V = 21.55 cm3 (burette)")
    numbers = numbers_of(experiment(lines, apparatus=BURETTE), work_out)
    expected = hypot(0.05, 0.05, 0.1) / sqrt(3)
    found = standard(numbers.scope.values["V"]) / 1e-6
    assert found == pytest.approx(expected, rel=0.03)


def test_a_measured_value_is_the_teacher_s_datum(work_out: WorkOut) -> None:
    lines = fence("calculation", "V = [_73 cm3_]", "W = V * 2 -> cm3")
    assert shown(numbers_of(experiment(lines), work_out), "W") == ("1.5E+2", None)


def test_molar_masses_have_the_figures_of_their_weights(work_out: WorkOut) -> None:
    # CIAAW abridged weights: Na 22.990, Cl 35.45; Pb 207.2
    lines = fence("calculation", "M_s = M(NaCl) -> g/mol", "M_l = M(PbCl2) -> g/mol")
    numbers = numbers_of(experiment(lines), work_out)
    assert shown(numbers, "M_s") == ("58.44", None)
    assert shown(numbers, "M_l") == ("278.1", None)


def test_algebra_and_substitution_are_set_for_every_result(work_out: WorkOut) -> None:
    line = line_of(numbers_of(experiment(TITRES, VINEGAR), work_out), "c_v")
    words = [e.text for e in ElementTree.fromstring(line.substitution).iter("mtext")]
    assert words == [
        "0.08580\u00a0mol\u00a0dm⁻³",
        "250.0\u00a0cm³",
        "25.00\u00a0cm³",
    ]
    letters = [e.text for e in ElementTree.fromstring(line.algebra).iter("mi")]
    assert letters == ["c", "d", "V", "f", "V", "a"]


def test_the_house_style_reaches_the_mathematics(work_out: WorkOut) -> None:
    settings = "house_style: {volume: mL, units: solidus, decimal: comma}\n"
    lines = fence("calculation", "c = 0.10 mol/dm3", "n = c * (25.0 cm3) * 1.5 -> mol")
    line = line_of(numbers_of(experiment(lines), work_out, settings), "n")
    tree = ElementTree.fromstring(line.substitution)
    assert [e.text for e in tree.iter("mtext")] == ["0,10\u00a0mol/L", "25,0\u00a0mL"]
    assert [e.text for e in tree.iter("mn")] == ["1,5"]


def test_a_mean_and_a_formula_are_set_as_the_trade_sets_them(work_out: WorkOut) -> None:
    lines = fence("calculation", "m = titres.mean * M(MgSO4.7H2O) * (1 mol/dm3) -> g")
    line = line_of(numbers_of(experiment(TITRES, lines), work_out), "m")
    tree = ElementTree.fromstring(line.algebra)
    bar = tree.find("mover")
    assert bar is not None
    assert [e.text for e in bar] == ["Vt", "¯"]
    assert "MgSO₄·7H₂O" in [e.text for e in tree.iter("mtext")]
    assert "246.47\u00a0g\u00a0mol⁻¹" in line.substitution


def test_one_faulty_line_is_one_fault(work_out: WorkOut) -> None:
    lines = fence(
        "calculation",
        "c = 0.10 mol/dm3",
        "n = c * W -> mol",
        "k = n * 2 -> mol",
        "l = k + n -> mol",
    )
    noted = numbers_of(experiment(lines), work_out).noted
    assert [(n.check, n.fault.place.line) for n in noted] == [
        ("calculation-undefined", 13)
    ]


def test_a_wrong_unit_does_not_spoil_what_follows(work_out: WorkOut) -> None:
    lines = fence(
        "calculation",
        "c = 0.10 mol/dm3",
        "V = 25.0 cm3",
        "n = c * V -> g",
        "d = n / V -> mol/dm3",
    )
    numbers = numbers_of(experiment(lines), work_out)
    assert [n.fault.mend for n in numbers.noted] == [
        "another expression, or the unit mol"
    ]
    assert shown(numbers, "d")[0] == "0.10"


def test_an_answer_stands_in_for_a_result_that_cannot_be_computed(
    work_out: WorkOut,
) -> None:
    lines = fence(
        "calculation",
        "n = c * (25.0 cm3) -> mol",
        "n = 0.0025 mol",
        "d = n / (50.0 cm3) -> mol/dm3",
    )
    numbers = numbers_of(experiment(lines), work_out)
    assert len(numbers.noted) == 1
    assert shown(numbers, "d")[0] == "0.050"


def test_a_range_stands_for_its_middle(work_out: WorkOut) -> None:
    lines = fence("calculation", "T = 20 to 25 °C", "K = T -> K")
    numbers = numbers_of(experiment(lines), work_out)
    assert standard(numbers.scope.values["K"]) == pytest.approx(2.5 / sqrt(3))


def test_every_name_is_known_to_the_text(work_out: WorkOut) -> None:
    numbers = numbers_of(experiment(TITRES, VINEGAR), work_out)
    assert {"c_b", "V_b", "c_v", "titres.mean", "titres.sd"} <= numbers.names
    assert numbers.names >= set(numbers.stated) - {
        name for name in numbers.stated if name.startswith("mean(")
    }


def test_a_weighing_has_half_the_last_figure_of_its_balance(work_out: WorkOut) -> None:
    # GUM F.2.2.1
    lines = fence("calculation", "m = 2.05 g (balance)")
    numbers = numbers_of(
        experiment(lines, apparatus=("balance, reading to 0.01 g",)), work_out
    )
    assert shown(numbers, "m") == ("2.05", "0.005")


@pytest.mark.parametrize(
    ("written", "piece", "half_width"),
    [
        ("50 cm3 (measuring cylinder)", "measuring cylinder, 50 cm3", "1.0"),
        ("42 cm3 (gas syringe)", "gas syringe, 100 cm3", "0.5"),
        ("21.5 °C (thermometer)", "thermometer, reading to 0.5 °C", "0.5"),
        ("250.0 cm3 (graduated flask)", "volumetric flask, 250 cm3, class A", "0.15"),
        ("25.00 cm3 (bulb pipette)", "pipette, 25 cm3, class A", "0.03"),
    ],
)
def test_other_pieces_have_their_glass_s_or_their_scale_s_limits(
    written: str, piece: str, half_width: str, work_out: WorkOut
) -> None:
    # ISO 4788 and 1042 and 648; half a division of 1 cm3 (common practice, no source)
    lines = fence("calculation", f"x = {written}")
    numbers = numbers_of(experiment(lines, apparatus=(piece,)), work_out)
    assert shown(numbers, "x")[1] == half_width


@pytest.mark.parametrize(
    "piece",
    ["beaker, 250 cm3", "pipette, 10 cm3", "pipette", "balance, reading to 0.01 g"],
)
def test_a_piece_without_known_limits_is_asked_for(
    piece: str, work_out: WorkOut
) -> None:
    name = piece.partition(",")[0]
    lines = fence("calculation", f"V = 25.00 cm3 ({name})", "W = 2 * V -> cm3")
    numbers = numbers_of(experiment(lines, apparatus=(piece,)), work_out)
    assert [n.check for n in numbers.noted] == ["calculation-undefined"]
    assert shown(numbers, "W") == ("50.00", None)


def test_numbers_with_powers_and_deviations_are_set(work_out: WorkOut) -> None:
    lines = fence(
        "calculation",
        "x = 6.0e-3 * mean(titres.Vt) -> cm3",
        "y = titres.sd / titres.mean -> %",
    )
    numbers = numbers_of(experiment(TITRES, lines), work_out)
    power = ElementTree.fromstring(line_of(numbers, "x").algebra).find("msup")
    assert power is not None
    assert [e.text for e in power] == ["10", "−3"]
    share = ElementTree.fromstring(line_of(numbers, "y").algebra)
    assert "s" in [e.text for e in share.iter("mi")]


def test_a_line_that_cannot_be_read_is_no_second_fault_where_it_is_used(
    work_out: WorkOut,
) -> None:
    lines = fence(
        "calculation",
        "c = 0.10 mol/drop of",
        "n = c * (25.0 cm3) -> mol",
        "m = n -> mol",
    )
    worked = work_out(experiment(lines)).experiments[0]
    assert len(worked.experiment.noted) == 1
    assert worked.numbers.noted == ()


def test_a_root_of_anything_has_a_unit_to_be_stated_in(work_out: WorkOut) -> None:
    lines = fence("calculation", "V = 25.0 cm3", "x = sqrt(V * V * V)")
    noted = numbers_of(experiment(lines), work_out).noted
    assert [n.fault.mend for n in noted] == ["sqrt(V * V * V) -> m^(9/2)"]


def test_a_unit_that_nothing_has_is_not_offered_for_a_wrong_expression(
    work_out: WorkOut,
) -> None:
    lines = fence("calculation", "V = 25.0 cm3", "c = 0.10 mol/dm3", "n = c/V -> mol")
    noted = numbers_of(experiment(lines), work_out).noted
    assert [n.fault.mend for n in noted] == [None]


@pytest.mark.parametrize(
    ("lines", "shown"),
    [
        # 1/0.01346 is 74.3, and 1/0.013 would be 76.9
        (("k = 0.2991 s^-1", "f = 0.045", "r = k*f -> s^-1", "t = 1/r -> s"), "0.0135"),
        # 25.0/40.00 is 0.625 as it stands, and needs no figure more
        (
            ("m = 25.0 g", "M = 40.00 g/mol", "n = m/M -> mol", "w = 2*n -> mol"),
            "0.625",
        ),
    ],
)
def test_the_numbers_that_are_put_in_give_the_result_as_stated(
    lines: tuple[str, ...], shown: str, work_out: WorkOut
) -> None:
    last = numbers_of(experiment(fence("calculation", *lines)), work_out)
    line = [worked for block in last.calculations for worked in block.lines][-1]
    assert shown in (line.substitution or "")
