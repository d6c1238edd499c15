"""The theory and the method of the made-up experiment."""

from __future__ import annotations

from manualgen.chemistry import parse_equation, parse_formula
from manualgen.editions.fence_panels import (
    CoefficientGap,
    DrawingPanel,
    DrawnContent,
    DrawnPiece,
    EquationPanel,
    EquationRow,
    Skeleton,
)
from manualgen.editions.key import FilledLine, FilledMark
from manualgen.editions.line import GapWidth, Link, Styled
from manualgen.editions.sheet import (
    BoxPanel,
    Items,
    MarginMark,
    PartBanner,
    SheetSection,
    StepItem,
)
from manualgen.model.blocks import BoxKind, PartKind
from manualgen.quantities import parse_quantity
from tests.pages.sample_text import chem, eq, gap, key, line, qty, text


def theory() -> SheetSection:
    return SheetSection(
        "Theory",
        "section.theory",
        (
            text(
                "Vinegar is a dilute solution of ethanoic acid, ",
                chem("CH3COOH"),
                ". Its concentration is found by titration with sodium hydroxide, ",
                Styled(line("one mole of acid for one mole of alkali"), False),
                ". The ions ",
                chem("SO4^2-"),
                ", ",
                chem("[Cu(NH3)4]^2+"),
                " and the hydrates ",
                chem("Na2CO3.10H2O"),
                " and ",
                chem("MgSO4.xH2O"),
                " are here to be looked at, as is ",
                eq("2 H2O2(aq) -> 2 H2O(l) + O2(g)"),
                " in the line. The solution is ",
                qty("0.100 mol/dm3"),
                ", measured at ",
                qty("20 to 25 °C"),
                ", and ",
                qty("25.00 ± 0.06 cm3"),
                " of it is taken.",
            ),
            EquationPanel(
                "4.1",
                "end-point",
                (
                    EquationRow(
                        parse_equation(
                            "NaOH(aq) + CH3COOH(aq) -> CH3COONa(aq) + H2O(l)"
                        ),
                        False,
                    ),
                    EquationRow(
                        parse_equation(
                            "OH^-(aq) + CH3COOH(aq) -> CH3COO^-(aq) + H2O(l)"
                        ),
                        True,
                    ),
                ),
            ),
            EquationPanel(
                "4.2",
                "equation.2",
                (
                    EquationRow(
                        Skeleton(
                            tuple(
                                CoefficientGap(
                                    key(FilledLine(line(n))), parse_formula(f), s
                                )
                                for n, f, s in (
                                    ("2", "HCl", "aq"),
                                    ("1", "CaCO3", "s"),
                                )
                            ),
                            tuple(
                                CoefficientGap(
                                    key(FilledLine(line("1"))), parse_formula(f), s
                                )
                                for f, s in (
                                    ("CaCl2", "aq"),
                                    ("H2O", "l"),
                                    ("CO2", "g"),
                                )
                            ),
                            "->",
                        ),
                        False,
                    ),
                    EquationRow(
                        gap(
                            GapWidth.FULL,
                            eq("CaCO3(s) + 2 H^+(aq) -> Ca^2+(aq) + H2O(l) + CO2(g)"),
                        ),
                        True,
                    ),
                ),
            ),
            EquationPanel(
                "4.3",
                "equation.3",
                (
                    EquationRow(
                        parse_equation(
                            "CH3COOH(aq) + H2O(l) <=> CH3COO^-(aq) + H3O^+(aq)"
                        ),
                        False,
                    ),
                    EquationRow(
                        parse_equation("MnO4^- + 8 H^+ + 5 e- -> Mn^2+ + 4 H2O"), False
                    ),
                ),
            ),
        ),
    )


def method() -> SheetSection:
    return SheetSection(
        "Method",
        "section.method",
        (
            PartBanner(PartKind.LESSON, "1", "", parse_quantity("40 min"), None),
            MarginMark(key(FilledMark("T1"))),
            StepItem(
                1,
                "step.1",
                (
                    text(
                        "Rinse the pipette with a little vinegar and let it run out. Measure ",
                        qty("25.0 cm3"),
                        " of vinegar into the volumetric flask, fill to the mark with "
                        "distilled water, stopper it and turn it over ten times.",
                    ),
                ),
            ),
            StepItem(
                2,
                "rinse",
                (
                    text(
                        "Rinse the burette with ",
                        qty("0.100 mol/dm3"),
                        " sodium hydroxide, fill it and clamp it upright. The colour of the "
                        "indicator in alkali is ",
                        gap(GapWidth.SHORT, "pink"),
                        " and in acid ",
                        gap(GapWidth.MEDIUM, "none at all"),
                        ".",
                    ),
                    MarginMark(key(FilledMark("T2"))),
                ),
            ),
            BoxPanel(
                BoxKind.SAFETY,
                "4.2",
                "hot-flask",
                (
                    text(
                        "Fill the burette below eye level, through a funnel, over the sink. "
                        "Take the funnel out before you begin.",
                    ),
                ),
            ),
            StepItem(
                3,
                "step.3",
                (
                    text(
                        "Pipette ",
                        qty("25.00 cm3"),
                        " of the diluted vinegar into a conical flask on the white tile. Add "
                        "three drops of indicator and titrate, swirling, until one drop turns "
                        "the whole solution pale pink. Repeat ",
                        Link(line("Step"), "2", "vinegar", "rinse"),
                        " only if the burette has been empty. Write your readings in ",
                        Link(line("Table"), "4.1", "vinegar", "titres"),
                        ".",
                    ),
                    Items(
                        False,
                        1,
                        (
                            (text("one rough titration, quickly;"),),
                            (text("then as many as it takes for two that agree."),),
                        ),
                    ),
                ),
            ),
            BoxPanel(
                BoxKind.CHECK, "", None, (text("Two titres agree within 0.10 cm³."),)
            ),
            PartBanner(
                PartKind.LESSON,
                "2",
                "Gas from marble",
                parse_quantity("30 min"),
                parse_quantity("1 week"),
            ),
            DrawingPanel(
                "4.1",
                "gas-syringe",
                (
                    DrawnPiece(
                        "conical flask",
                        parse_quantity("250 cm3"),
                        True,
                        (
                            DrawnContent(
                                "hydrochloric acid",
                                parse_quantity("50 cm3"),
                                parse_quantity("2.0 mol/dm3"),
                            ),
                            DrawnContent("marble chips", None, None),
                        ),
                        None,
                        None,
                        None,
                    ),
                    DrawnPiece(
                        "gas syringe",
                        parse_quantity("100 cm3"),
                        False,
                        (),
                        "joined by",
                        "delivery tube",
                        0,
                    ),
                ),
            ),
            StepItem(
                4,
                "step.4",
                (
                    text(
                        "Set up the apparatus of ",
                        Link(line("Figure"), "4.1", "vinegar", "gas-syringe"),
                        " and read ",
                        Link(line("Vinegar"), "3", "standard-alkali", None),
                        " again if you are unsure of the burette.",
                    ),
                ),
            ),
            StepItem(
                5,
                "step.5",
                (
                    text(
                        "Drop in the chips, close the flask at once and read the syringe "
                        "every 30 s for six minutes.",
                    ),
                    BoxPanel(
                        BoxKind.NOTE,
                        "",
                        None,
                        (text("The plunger must turn freely before you start."),),
                    ),
                ),
            ),
            BoxPanel(
                BoxKind.DISPOSAL,
                "",
                None,
                (text("Everything may go down the sink with plenty of water."),),
            ),
        ),
    )
