"""The tables as objects: chemicals and their hazards, apparatus, controls, glassware.

`catalogue` finds a chemical by any of its names, the department's `store`
before the built-in table; `classification` says what a label of it would say at
a strength, by the rules of the CLP Regulation. Facts stand in
``manualgen/data/*.yaml``, each with its source; here is only what they mean.
"""

from manualgen.knowledge.apparatus import (
    Piece,
    Vocabulary,
    builtin_vocabulary,
    find_apparatus,
)
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
    united,
)
from manualgen.knowledge.controls import Need, controls_named, needs
from manualgen.knowledge.disposal import (
    barred_from_sink,
    disposal_route,
    element_route,
    route_advice,
)
from manualgen.knowledge.gases import gases, is_said_to_form
from manualgen.knowledge.hazard_class import HazardClass, Limit
from manualgen.knowledge.incompatible import InUse, Pair, gas_from, incompatibility
from manualgen.knowledge.label import Label, hazard_statements, label_of
from manualgen.knowledge.mentions import (
    ApparatusMention,
    ChemicalMention,
    Mentions,
    mentions,
)
from manualgen.knowledge.precautions import (
    Precaution,
    label_statements,
    response_statements,
)
from manualgen.knowledge.store import NO_STORE, Store, StoreEntry, store_of
from manualgen.knowledge.strength import StrengthError, grams_per_litre, percent_ww
from manualgen.knowledge.supply import Supply, parse_supply

__all__ = [
    "NO_STORE",
    "ApparatusMention",
    "Chemical",
    "ChemicalMention",
    "Classification",
    "Form",
    "HazardClass",
    "HazardData",
    "InUse",
    "Ingredient",
    "Label",
    "Limit",
    "Mentions",
    "Need",
    "Pair",
    "Piece",
    "Precaution",
    "StatedHazards",
    "Store",
    "StoreEntry",
    "StrengthError",
    "Supply",
    "Vocabulary",
    "barred_from_sink",
    "builtin_vocabulary",
    "chemicals",
    "classification_sources",
    "classify",
    "classify_mixture",
    "controls_named",
    "disposal_route",
    "element_route",
    "find_apparatus",
    "find_by_formula",
    "find_chemical",
    "gas_from",
    "gases",
    "grams_per_litre",
    "hazard_statements",
    "incompatibility",
    "is_said_to_form",
    "label_of",
    "label_statements",
    "mentions",
    "needs",
    "parse_supply",
    "percent_ww",
    "response_statements",
    "route_advice",
    "store_of",
    "united",
]
