"""A leaf: formulas, names, equations and what follows from them.

Everything here takes text or values and returns values; nothing knows of files,
pages or manuals, so that a chemist could use the package alone.
"""

from manualgen.chemistry.balance import Balance, balance
from manualgen.chemistry.charge_fault import ChargeFault, charge_fault
from manualgen.chemistry.compounds import compound_of, density
from manualgen.chemistry.conservation import (
    Uneven,
    count_atoms,
    in_lowest_terms,
    is_balanced,
    is_charge_even,
    is_lowest_terms,
    scaled,
    signed_charge,
    total_charge,
    uneven_elements,
)
from manualgen.chemistry.dissociation import electrolyte
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
from manualgen.chemistry.ion_slips import with_known_ion
from manualgen.chemistry.molar_mass import mass_fractions, molar_mass
from manualgen.chemistry.name_reading import formula_of, formulas_of
from manualgen.chemistry.name_writing import name_of, names_of
from manualgen.chemistry.names import is_name, same_substance, without_form
from manualgen.chemistry.net_ionic import NetIonic, net_ionic
from manualgen.chemistry.oxidation import OxidationNumbers, oxidation_numbers, signed
from manualgen.chemistry.redox import Change, Redox, redox
from manualgen.chemistry.redox_halves import redox_halves
from manualgen.chemistry.same_ionic import same_net_ionic
from manualgen.chemistry.solubility import Solubility, solubility, solubility_of
from manualgen.chemistry.splitting import known_ions
from manualgen.chemistry.states import WrongState, wrong_states
from manualgen.chemistry.stoichiometry import (
    Outcome,
    gas_volume,
    outcome,
)
from manualgen.chemistry.usual_states import usual_state

__all__ = [
    "Adduct",
    "Atom",
    "Balance",
    "Bond",
    "Change",
    "ChargeFault",
    "ChemistryError",
    "Equation",
    "EquationError",
    "Formula",
    "FormulaError",
    "Group",
    "NetIonic",
    "Outcome",
    "OxidationNumbers",
    "Redox",
    "Solubility",
    "Term",
    "Uneven",
    "Unknown",
    "WrongState",
    "atomic_weights",
    "balance",
    "charge_fault",
    "compound_of",
    "count_atoms",
    "density",
    "edition",
    "electrolyte",
    "elements",
    "formula_of",
    "formulas_of",
    "gas_volume",
    "in_lowest_terms",
    "is_balanced",
    "is_charge_even",
    "is_equation_like",
    "is_lowest_terms",
    "is_name",
    "known_ions",
    "mass_fractions",
    "molar_mass",
    "name_of",
    "names_of",
    "net_ionic",
    "outcome",
    "oxidation_numbers",
    "parse_equation",
    "parse_formula",
    "parse_term",
    "redox",
    "redox_halves",
    "same_net_ionic",
    "same_substance",
    "scaled",
    "signed",
    "signed_charge",
    "solubility",
    "solubility_of",
    "total_charge",
    "uneven_elements",
    "usual_state",
    "with_known_ion",
    "without_form",
    "wrong_states",
]
