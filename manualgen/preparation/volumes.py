"""How much is made of a solution, so that there is enough and little is wasted."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from manualgen.knowledge import Chemical, Store, find_chemical
from manualgen.preparation.making import (
    Making,
    is_exact,
    making_by_recipe,
    making_of,
)
from manualgen.preparation.reason import CannotMakeError
from manualgen.preparation.rules import Recipe, is_costly, measures, recipe_for
from manualgen.preparation.sizes import costly_volume, least_waste, makings_for
from manualgen.quantities import Quantity
from manualgen.working.listed import Identity


def making_for(identity: Identity, needed: Fraction, store: Store) -> Making:
    """How to make at least so many cm³ of a solution.

    Raises `CannotMakeError` where it cannot be worked out or made.
    """
    chemical, strength = identity.chemical, identity.strength
    if chemical is None:
        raise CannotMakeError("why_unknown")
    if not 0 < needed <= measures().most:
        raise CannotMakeError("why_odd_volume", most=int(measures().most / 1000))
    if isinstance(strength, Quantity):
        volumes = volumes_for(chemical, strength, needed)
        return making_of(solute_of(chemical, store), strength, volumes)
    recipe = recipe_for(chemical, strength)
    if recipe is None:
        if strength:
            raise CannotMakeError("why_no_recipe", strength=strength)
        raise CannotMakeError("why_strength_unsaid")
    return making_by_recipe(recipe, solids_of(recipe, store), _in_one(needed))


def solute_of(chemical: Chemical, store: Store) -> Chemical:
    """What a stated strength is of: the iodine of an iodine solution."""
    if chemical.strength_of is None:
        return chemical
    return find_chemical(chemical.strength_of, store) or chemical


def solids_of(recipe: Recipe, store: Store) -> Sequence[Chemical]:
    """The solids of a recipe, as the store keeps them."""
    found = [find_chemical(name, store) for name, _ in recipe.solids]
    return [chemical for chemical in found if chemical is not None]


def volumes_for(
    chemical: Chemical, strength: Quantity, needed: Fraction
) -> tuple[Fraction, ...]:
    """The volumes of the makings, in cm³.

    A strength that counts to three figures asks for flasks; any other is made
    in one go up to the largest cylinder. What is costly is made as needed.
    """
    costly = is_costly(chemical)
    if is_exact(strength):
        return least_waste(needed) if costly else makings_for(needed)
    return (costly_volume(needed),) if costly else _in_one(needed)


def _in_one(needed: Fraction) -> tuple[Fraction, ...]:
    """As much as flasks would make, but together in the largest cylinder."""
    largest = measures().makings[-1]
    total = sum(makings_for(needed), Fraction(0))
    full, rest = divmod(total, largest)
    return (largest,) * int(full) + ((rest,) if rest else ())
