"""A leaf: units, quantities with their figures, expressions and fits."""
