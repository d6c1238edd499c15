"""A leaf: formulas, names, equations and what follows from them.

Everything here takes text or values and returns values; nothing knows of files,
pages or manuals, so that a chemist could use the package alone.
"""

from manualgen.chemistry.balance import Balance, balance
from manualgen.chemistry.conservation import (
    Uneven,
    count_atoms,
    in_lowest_terms,
    is_balanced,
    is_charge_even,
    is_lowest_terms,
    total_charge,
    uneven_elements,
)
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
    "Balance",
    "Bond",
    "ChemistryError",
    "Equation",
    "EquationError",
    "Formula",
    "FormulaError",
    "Group",
    "Term",
    "Uneven",
    "Unknown",
    "atomic_weights",
    "balance",
    "count_atoms",
    "edition",
    "elements",
    "in_lowest_terms",
    "is_balanced",
    "is_charge_even",
    "is_equation_like",
    "is_lowest_terms",
    "mass_fractions",
    "molar_mass",
    "parse_equation",
    "parse_formula",
    "parse_term",
    "total_charge",
    "uneven_elements",
]
