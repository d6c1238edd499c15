"""How a quantity's symbol is written: letters, Greek too, digits and ``_``."""

from __future__ import annotations

import re

SYMBOL = re.compile(r"[A-Za-zα-ωΑ-Ω]\w*")
"""``c_acid``, ``ΔH``."""

VALUE_NAME = re.compile(rf"{SYMBOL.pattern}(?:\.{SYMBOL.pattern})?")
"""A symbol, or one of a table's or a graph's: ``titres.mean``."""
