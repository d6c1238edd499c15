"""Every experiment that measures something, and how it is worked out again."""

from __future__ import annotations

from collections.abc import Callable

from tests.content import gases, heat, others, titrations
from tests.content.recalculation import Recalculation

RECALCULATED: dict[str, Callable[[], Recalculation]] = {
    "standard-alkali": titrations.standard_alkali,
    "vinegar": titrations.vinegar,
    "iron-tablet": titrations.iron_tablet,
    "ester-equilibrium": titrations.ester_equilibrium,
    "peroxide-catalyst": gases.peroxide_catalyst,
    "thiosulfate-rate": gases.thiosulfate_rate,
    "baking-soda": gases.baking_soda,
    "epsom-water": gases.epsom_water,
    "neutralisation-enthalpy": heat.neutralisation_enthalpy,
    "carbonate-hess": heat.carbonate_hess,
    "nitrate-solubility": heat.nitrate_solubility,
    "electrolysis-stations": others.electrolysis_stations,
    "alum": others.alum,
    "fruit-ester": others.fruit_ester,
    "leaf-pigments": others.leaf_pigments,
    "copper-colorimeter": others.copper_colorimeter,
    "descaler-conductivity": others.descaler_conductivity,
}


def result(experiment: str, name: str) -> float:
    """A result as it was worked out again, in the coherent SI unit."""
    return float(RECALCULATED[experiment]().results()[name][0][0])
