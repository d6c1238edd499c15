"""What a solution is made from: what stands on the shelf, as the store keeps it.

The store's own words come first; then what suppliers usually sell as a liquid;
then the solid in its usual form, taken as pure, or the pure liquid.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from manualgen.chemistry import Formula
from manualgen.knowledge import (
    Chemical,
    Classification,
    Form,
    StrengthError,
    Supply,
    classify,
    percent_ww,
)
from manualgen.preparation.concentration import (
    grams_per_dm3,
    mass_of_mole,
    moles_per_dm3,
)
from manualgen.preparation.reason import CannotMakeError
from manualgen.preparation.rules import StockRule, called_when, measures, stock_rule
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import kind_of


class StartKind(StrEnum):
    """What kind of thing is taken from the shelf."""

    SOLID = "solid"
    STOCK = "stock"


@dataclass(frozen=True, slots=True)
class Start:
    """What is weighed or measured, per dm³ where it is a liquid."""

    kind: StartKind
    chemical: Chemical
    called: str
    """``concentrated hydrochloric acid``, ``sodium hydroxide``."""
    details: tuple[str, ...] = ()
    """As the store writes them: ``pellets``, ``purity 98 %``."""
    formula: Formula | None = None
    """Of a solid as supplied, water of crystallisation included."""
    purity: Fraction = Fraction(1)
    strength: Quantity | None = None
    """Of a stock."""
    moles: Fraction | None = None
    """Of a stock, in mol/dm³."""
    grams: Fraction | None = None
    """Of a stock, in g/dm³ of the named form."""
    percent: Fraction | None = None
    """Of a stock, in % w/w."""
    is_pure_liquid: bool = False
    measured: tuple[Quantity, ...] = ()
    """Strength and density as suppliers usually state them, where the store is silent."""

    @property
    def is_standard(self) -> bool:
        """Whether it is bought at a strength in mol/dm³ to three figures."""
        strength = self.strength
        return (
            strength is not None
            and kind_of(strength.unit) == "amount concentration"
            and strength.significant_figures >= measures().figures
        )

    @property
    def hazards(self) -> Classification | None:
        """What its own label says."""
        try:
            return classify(self.chemical, self.strength)
        except StrengthError:
            return classify(self.chemical)


def start_for(chemical: Chemical) -> Start:
    """What a solution of a chemical is made from.

    Raises `CannotMakeError` where nothing tells what is on the shelf.
    """
    supply = chemical.supply
    if supply is not None and supply.strength is not None:
        return _stock(chemical, supply.strength, supply.density, supply)
    if supply is None or supply.formula is None:
        if rule := stock_rule(chemical):
            return _usual_stock(chemical, rule)
        if chemical.form is Form.LIQUID and chemical.density is not None:
            return _pure_liquid(chemical)
    if chemical.form is Form.SOLID or (supply is not None and supply.formula):
        return _solid(chemical, supply)
    raise CannotMakeError("why_unsupplied", name=chemical.name)


def start_from(chemical: Chemical, strength: Quantity) -> Start:
    """A solution of a chemical that was made here, of which another is made.

    Raises `CannotMakeError` where its strength does not tell how much is in it.
    """
    return _stock(chemical, strength, None, None)


def _solid(chemical: Chemical, supply: Supply | None) -> Start:
    formula = (supply.formula if supply else None) or chemical.formula
    purity = supply.purity.si_value if supply and supply.purity else Fraction(1)
    if not 0 < purity <= 1:
        raise CannotMakeError("why_purity", name=chemical.name)
    return Start(
        StartKind.SOLID,
        chemical,
        chemical.name.removeprefix("solid "),
        _details(supply, formula),
        formula,
        purity,
    )


def _stock(
    chemical: Chemical,
    strength: Quantity,
    density: Quantity | None,
    supply: Supply | None,
) -> Start:
    if density is not None and kind_of(strength.unit) in ("mass fraction", "fraction"):
        grams = strength.si_value * density.si_value
        formula = chemical.basis or chemical.formula
        moles = grams / mass_of_mole(formula) if formula else None
    else:
        moles = moles_per_dm3(chemical, strength)
        grams = grams_per_dm3(chemical, strength)
    percent = _percent(chemical, strength)
    return Start(
        StartKind.STOCK,
        chemical,
        chemical.name if percent is None else called_when(chemical, percent),
        _details(supply, None),
        strength=strength,
        moles=moles,
        grams=grams,
        percent=percent,
    )


def _usual_stock(chemical: Chemical, rule: StockRule) -> Start:
    made = _stock(chemical, rule.strength, rule.density, None)
    return replace(made, measured=(rule.strength, rule.density))


def _percent(chemical: Chemical, strength: Quantity) -> Fraction | None:
    try:
        percent = percent_ww(chemical, strength)
    except StrengthError:
        return None
    return None if percent is None else Fraction(percent)


def _pure_liquid(chemical: Chemical) -> Start:
    assert chemical.density is not None
    grams = Fraction(chemical.density) * 1000
    moles = grams / mass_of_mole(chemical.formula) if chemical.formula else None
    return Start(
        StartKind.STOCK,
        chemical,
        chemical.name,
        moles=moles,
        grams=grams,
        percent=Fraction(100),
        is_pure_liquid=True,
    )


def _details(supply: Supply | None, formula: Formula | None) -> tuple[str, ...]:
    """The store's words but for the pack, and the formula where they lack it."""
    words = supply.words.split(", ") if supply else []
    kept = [w.strip() for w in words if not w.strip().startswith(("pack ", "bottle "))]
    if formula is None:
        return tuple(kept)
    written = {str(formula), formula.pretty}
    return (formula.pretty, *(w for w in kept if w not in written))
