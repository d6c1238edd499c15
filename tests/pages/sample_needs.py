"""What the made-up experiment uses, and what it warns of."""

from __future__ import annotations

from manualgen.chemistry import parse_formula
from manualgen.editions.sheet import HazardPanel, HazardRow, ListRow

HAZARDS = HazardPanel(
    "4.1",
    (
        HazardRow(
            "sodium hydroxide",
            "0.100 mol dm⁻³",
            "Warning",
            ("GHS07",),
            ("Causes skin irritation.", "Causes serious eye irritation."),
            "",
        ),
        HazardRow(
            "hydrochloric acid",
            "2.0 mol dm⁻³",
            "Warning",
            ("GHS05", "GHS07"),
            ("May be corrosive to metals.", "May cause respiratory irritation."),
            "",
        ),
        HazardRow("vinegar", "", "", (), (), "not classified at this strength"),
        HazardRow(
            "phenolphthalein solution",
            "1 % w/v in ethanol",
            "Danger",
            ("GHS02", "GHS08"),
            ("Highly flammable liquid and vapour.", "Suspected of causing cancer."),
            "",
        ),
        HazardRow(
            "carbon dioxide", "", "", (), (), "made in step 5: about 60 cm³ a group"
        ),
    ),
    (
        "Eye protection is worn by everyone whenever anyone is working with chemicals.",
        "Hands are washed before anyone leaves the laboratory.",
    ),
    (
        "IF ON SKIN: wash with plenty of water.",
        "IF IN EYES: rinse cautiously with water for several minutes. Remove contact "
        "lenses, if present and easy to do. Continue rinsing.",
    ),
)


CHEMICALS = (
    ListRow("sodium hydroxide", parse_formula("NaOH"), ("0.100 mol dm⁻³", "130 cm³")),
    ListRow("vinegar", None, ("30 cm³",)),
    ListRow("hydrochloric acid", parse_formula("HCl"), ("2.0 mol dm⁻³", "50 cm³")),
    ListRow("phenolphthalein solution", None, ("1 cm³",)),
    ListRow("calcium carbonate", parse_formula("CaCO3"), ("marble chips", "5 g")),
)


APPARATUS = (
    ListRow("burette", None, ("50 cm³", "class B")),
    ListRow("pipette", None, ("25 cm³", "class B")),
    ListRow("volumetric flask", None, ("250 cm³", "class B")),
    ListRow("3 conical flasks", None, ("250 cm³",)),
    ListRow("gas syringe", None, ("100 cm³",)),
    ListRow("balance", None, ("reading to 0.01 g", "2 per class")),
    ListRow("white tile", None, ()),
)
