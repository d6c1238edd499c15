"""Computed values as they are printed."""

from __future__ import annotations

from dataclasses import replace

from manualgen.quantities import HouseStyle, Quantity, printed


def printed_result(quantity: Quantity, house: HouseStyle) -> str:
    """A result in the house style, its uncertainty without ``(k = 1)``.

    The worksheet says once for all of them that uncertainties are standard ones.
    """
    return printed(replace(quantity, standard=False), house)
