"""A product with another substance's formula, and what was meant.

Common practice, no source.
"""

from __future__ import annotations

import pytest

from manualgen.chemistry import balance, parse_equation
from manualgen.chemistry.product_slips import with_another_product

MEANT = {
    "Zn(s) + H2SO4(aq) -> ZnSO3(aq) + H2(g)": "Zn(s) + H2SO4(aq) -> ZnSO4(aq) + H2(g)",
    "CuO(s) + 2 HNO3(aq) -> Cu(NO2)2(aq) + H2O(l)": "CuO(s) + 2 HNO3(aq) -> Cu(NO3)2(aq) + H2O(l)",
    "BaCl2(aq) + Na2SO4(aq) -> BaSO3(s) + 2 NaCl(aq)": "BaCl2(aq) + Na2SO4(aq) -> BaSO4(s) + 2 NaCl(aq)",
    "Mg(s) + 2 HCl(aq) -> MgO(s) + H2(g)": "Mg(s) + 2 HCl(aq) -> MgCl2(aq) + H2(g)",
    "CaCO3(s) + 2 HCl(aq) -> CaCl2(aq) + H2O(l) + CO(g)": "CaCO3(s) + 2 HCl(aq) -> CaCl2(aq) + H2O(l) + CO2(g)",
    "AgNO3 + NaCl -> AgCl + NaNO2": "AgNO3 + NaCl -> AgCl + NaNO3",
}


@pytest.mark.parametrize("equation", MEANT)
def test_the_one_product_that_balances_is_suggested(equation: str) -> None:
    found = balance(parse_equation(equation))
    assert found.status == "impossible"
    assert str(found.suggestion) == MEANT[equation]


@pytest.mark.parametrize(
    "equation",
    [
        "Fe(s) + CuSO4(aq) -> ZnSO4(aq) + Cu(s)",
        "KCl -> NaCl",
        "CO2 -> CO + C",
        "C2H5OH -> C3H8",
        "K3[Fe(CN)6] + KAl(SO4)2 -> Fe2(SO4)3",
    ],
)
def test_nothing_is_suggested_where_several_would_do_or_none(equation: str) -> None:
    assert with_another_product(parse_equation(equation)) is None
