"""Amounts of pure liquids that only the chemistry tables know.

The density of pentan-3-one, 0.814 g/cm3 at 20 °C, as in handbooks of the CRC type,
from memory; its molar mass by hand from CIAAW's abridged weights: 86.134 g/mol.
"""

from __future__ import annotations

import pytest

from manualgen.quantities import parse_quantity
from manualgen.working.amounts import moles_in
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import look_up


def test_a_volume_of_a_pure_liquid_is_an_amount_by_its_density() -> None:
    liquid = look_up("pentan-3-one", Laboratory())
    assert liquid is not None
    moles = moles_in(parse_quantity("10.0 cm3"), liquid, None)
    assert moles is not None
    assert float(moles) == pytest.approx(10.0 * 0.814 / 86.134, rel=1e-4)


def test_a_volume_of_a_solid_is_none() -> None:
    salt = look_up("rubidium bromide", Laboratory())
    assert salt is not None
    assert moles_in(parse_quantity("10.0 cm3"), salt, None) is None
    assert look_up("unobtainium bromide", Laboratory()) is None
