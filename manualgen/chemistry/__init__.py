"""A leaf: formulas, names, equations and what follows from them.

Everything here takes text or values and returns values; nothing knows of files,
pages or manuals, so that a chemist could use the package alone.
"""

from manualgen.chemistry.elements import atomic_weights, edition, elements
from manualgen.chemistry.equation import Equation, Term, Unknown
from manualgen.chemistry.equation_text import (
    is_equation_like,
    parse_equation,
    parse_term,
)
from manualgen.chemistry.errors import ChemistryError, EquationError, FormulaError
from manualgen.chemistry.formula import Adduct, Atom, Bond, Formula, Group
from manualgen.chemistry.formula_text import parse_formula
from manualgen.chemistry.molar_mass import mass_fractions, molar_mass

__all__ = [
    "Adduct",
    "Atom",
    "Bond",
    "ChemistryError",
    "Equation",
    "EquationError",
    "Formula",
    "FormulaError",
    "Group",
    "Term",
    "Unknown",
    "atomic_weights",
    "edition",
    "elements",
    "is_equation_like",
    "mass_fractions",
    "molar_mass",
    "parse_equation",
    "parse_formula",
    "parse_term",
]
