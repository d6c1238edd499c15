"""A made-up experiment that uses every panel, and its key.

Nothing in it is a practical to be done: it is there to be printed and looked at.
"""

from __future__ import annotations

from types import MappingProxyType

from manualgen.editions.key import Key, TeacherNote, TeacherPages, UnknownRow
from manualgen.editions.line import Outside
from manualgen.editions.sheet import Sheet, SheetSection
from manualgen.pages.context import Neighbour, PageContext
from manualgen.quantities import parse_quantity
from tests.pages.sample_method import method, theory
from tests.pages.sample_needs import APPARATUS, CHEMICALS, HAZARDS
from tests.pages.sample_results import calculation, questions, results
from tests.pages.sample_text import FILLED, chem, line, text

CONTEXT = PageContext(
    manual="Practical Chemistry, Year 12",
    edition="Student edition",
    institution="Skerry Point Sixth Form College",
    year="2026–27",
    before=Neighbour("standard-alkali", "3", "A standard solution of alkali"),
    after=Neighbour("peroxide", "5", "Hydrogen peroxide and a catalyst"),
    pdf="pdf/vinegar.pdf",
)


SHEET = Sheet(
    "vinegar",
    "4",
    "Ethanoic acid in vinegar",
    parse_quantity("70 min"),
    2,
    ("titration", "gas syringe"),
    HAZARDS,
    CHEMICALS,
    APPARATUS,
    (
        SheetSection(
            "Aim",
            "section.aim",
            (
                text(
                    "To find how much ethanoic acid there is in vinegar, and to follow a gas. ",
                    Outside(line("More about it"), "https://example.org/vinegar"),
                    ".",
                ),
            ),
        ),
        theory(),
        method(),
        results(),
        calculation(),
        questions(),
    ),
)


KEY = Key(
    MappingProxyType(FILLED),
    TeacherPages(
        notes=(
            TeacherNote(
                "T1",
                "Teacher",
                (text("Dilute the vinegar beforehand with a slow class."),),
            ),
            TeacherNote(
                "T2", "Technician", (text("Rinse with the solution, not with water."),)
            ),
        ),
        sections=(
            SheetSection(
                "For the teacher",
                "section.for-the-teacher",
                (
                    text(
                        "Allow half an hour for the titration. ",
                        chem("CO2"),
                        " is let go.",
                    ),
                ),
            ),
        ),
        unknowns=(UnknownRow("solution A", "", "sodium hydroxide, 0.0960 mol dm⁻³"),),
        chemicals=CHEMICALS[:2],
        hazards=(HAZARDS.rows[0],),
        reviewed="Head of chemistry, 2026-06-12; due again 2027-06-12",
    ),
)
