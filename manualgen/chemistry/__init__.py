"""A leaf: formulas, names, equations and what follows from them."""
