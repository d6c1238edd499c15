"""The tables as objects: chemicals and their hazards, apparatus, controls, glassware.

`catalogue` finds a chemical by any of its names, the department's `store`
before the built-in table; `classification` says what a label of it would say at
a strength, by the rules of the CLP Regulation. Facts stand in
``manualgen/data/*.yaml``, each with its source; here is only what they mean.
"""

from manualgen.knowledge.catalogue import find_by_formula, find_chemical
from manualgen.knowledge.chemical import (
    Chemical,
    Form,
    HazardData,
    Ingredient,
    StatedHazards,
)
from manualgen.knowledge.chemical_table import chemicals, classification_sources
from manualgen.knowledge.classification import (
    Classification,
    classify,
    classify_mixture,
)
from manualgen.knowledge.hazard_class import HazardClass, Limit
from manualgen.knowledge.label import Label, hazard_statements, label_of
from manualgen.knowledge.store import NO_STORE, Store, StoreEntry, store_of
from manualgen.knowledge.strength import StrengthError, grams_per_litre, percent_ww
from manualgen.knowledge.supply import Supply, parse_supply

__all__ = [
    "NO_STORE",
    "Chemical",
    "Classification",
    "Form",
    "HazardClass",
    "HazardData",
    "Ingredient",
    "Label",
    "Limit",
    "StatedHazards",
    "Store",
    "StoreEntry",
    "StrengthError",
    "Supply",
    "chemicals",
    "classification_sources",
    "classify",
    "classify_mixture",
    "find_by_formula",
    "find_chemical",
    "grams_per_litre",
    "hazard_statements",
    "label_of",
    "parse_supply",
    "percent_ww",
    "store_of",
]
