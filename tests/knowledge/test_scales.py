"""To what listed pieces are read; all common practice, no source."""

from __future__ import annotations

import pytest

from manualgen.knowledge.apparatus import Piece, Vocabulary
from manualgen.knowledge.scales import Scale, scales_of
from manualgen.model.lab import ListedApparatus
from manualgen.model.place import Place
from manualgen.quantities import parse_quantity

BURETTE = parse_quantity("0.05 cm3")
HERE = Place("example.md")


def listed(name: str, capacity: str = "", reading_to: str = "") -> ListedApparatus:
    return ListedApparatus(
        name,
        HERE,
        HERE,
        capacity=parse_quantity(capacity) if capacity else None,
        resolution=parse_quantity(reading_to) if reading_to else None,
    )


def scales(*pieces: ListedApparatus, own: tuple[Piece, ...] = ()) -> list[Scale]:
    return list(scales_of(pieces, BURETTE, Vocabulary(own)))


@pytest.mark.parametrize(
    ("name", "capacity", "step"),
    [
        ("burette", "50 cm3", "0.05 cm3"),
        ("measuring cylinder", "50 cm3", "0.5 cm3"),
        ("measuring cylinder", "100 cm3", "0.5 cm3"),
        ("measuring cylinder", "", "0.05 cm3"),
        ("micropipette", "", "0.001 cm3"),
        ("gas syringe", "100 cm3", "0.5 cm3"),
        ("thermometer", "", "0.5 K"),
        ("digital thermometer", "", "0.1 K"),
        ("top-pan balance", "", "0.01 g"),
    ],
)
def test_a_piece_has_its_usual_step(name: str, capacity: str, step: str) -> None:
    (scale,) = scales(listed(name, capacity))
    assert scale.step.si_value == parse_quantity(step).si_value


def test_what_the_list_says_goes_before_what_is_usual() -> None:
    (scale,) = scales(listed("balance", reading_to="1 mg"))
    assert scale.step.si_value == parse_quantity("0.001 g").si_value
    assert scale.is_stated
    assert scale.kind == "mass"


def test_a_step_in_celsius_is_a_difference() -> None:
    (scale,) = scales(listed("thermometer", reading_to="0.2 °C"))
    assert scale.step.si_value == parse_quantity("0.2 K").si_value
    assert scale.kind == "temperature"


def test_what_is_not_read_has_no_scale() -> None:
    assert scales(listed("pipette", "25 cm3"), listed("tongs"), listed("beaker")) == []
    assert scales(listed("a thing of our own")) == []


def test_the_departments_own_piece_is_read_as_the_department_says() -> None:
    own = Piece("potometer", resolution=parse_quantity("0.1 cm3"))
    (scale,) = scales(listed("potometer"), own=(own,))
    assert scale.is_stated
    assert scale.step == parse_quantity("0.1 cm3")
