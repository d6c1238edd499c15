"""A made-up experiment that uses every panel, and its key.

Nothing in it is a practical to be done: it is there to be printed and looked at.
"""

from __future__ import annotations

from decimal import Decimal
from types import MappingProxyType
from typing import Literal

from manualgen.chemistry import parse_equation, parse_formula
from manualgen.editions.fence_panels import (
    CoefficientGap,
    ColumnHead,
    DrawingPanel,
    DrawnContent,
    DrawnPiece,
    EquationPanel,
    EquationRow,
    GraphPanel,
    MeanRow,
    ReadingsPanel,
    Skeleton,
    WorkLine,
    Worksheet,
)
from manualgen.editions.key import (
    Filled,
    FilledGraph,
    FilledLine,
    FilledMark,
    FilledRoom,
    FilledWork,
    Key,
    PlottedLine,
    TeacherNote,
    TeacherPages,
    UnknownRow,
)
from manualgen.editions.line import Gap, GapWidth, Line, Link, Outside, Styled
from manualgen.editions.sheet import (
    AnswerRoom,
    BoxPanel,
    Grid,
    HazardPanel,
    HazardRow,
    Heading,
    Items,
    ListRow,
    MarginMark,
    PartBanner,
    QuestionItem,
    Sheet,
    SheetSection,
    SpaceKind,
    StepItem,
    Text,
)
from manualgen.model.blocks import Align, BoxKind, PartKind
from manualgen.model.fences import Axis
from manualgen.model.place import Place
from manualgen.model.text import EquationSpan, FormulaSpan, QuantitySpan, Words
from manualgen.pages.context import Neighbour, PageContext
from manualgen.quantities import parse_quantity, parse_unit

HERE = Place("sample.md")

CONTEXT = PageContext(
    manual="Practical Chemistry, Year 12",
    edition="Student edition",
    institution="Skerry Point Sixth Form College",
    year="2026–27",
    before=Neighbour("standard-alkali", "3", "A standard solution of alkali"),
    after=Neighbour("peroxide", "5", "Hydrogen peroxide and a catalyst"),
    pdf="pdf/vinegar.pdf",
)


def words(text: str) -> Words:
    return Words(text, HERE)


def chem(text: str, state: Literal["s", "l", "g", "aq"] | None = None) -> FormulaSpan:
    return FormulaSpan(parse_formula(text), state, text, HERE)


def eq(text: str) -> EquationSpan:
    return EquationSpan(parse_equation(text), text, HERE)


def qty(text: str) -> QuantitySpan:
    return QuantitySpan(parse_quantity(text), text, HERE)


def text(*pieces: str | object) -> Text:
    return Text(line(*pieces))


def line(*pieces: object) -> Line:
    return tuple(words(p) if isinstance(p, str) else p for p in pieces)  # type: ignore[misc]


FILLED: dict[int, Filled] = {}


def gap(width: GapWidth, *filling: object) -> Gap:
    key = len(FILLED) + 1
    FILLED[key] = FilledLine(line(*filling))
    return Gap(key, width)


def key(filling: Filled) -> int:
    FILLED[len(FILLED) + 1] = filling
    return len(FILLED)


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


def results() -> SheetSection:
    titres = [
        ("rough", "0.00", "21.90", "21.90"),
        ("1", "0.10", "21.55", "21.45"),
        ("2", "0.25", "21.75", "21.50"),
        ("3", "0.05", "21.45", "21.40"),
    ]
    cm3 = parse_unit("cm3")
    return SheetSection(
        "Results",
        "section.results",
        (
            ReadingsPanel(
                "4.1",
                "titres",
                (
                    ColumnHead("Initial reading", "V1", cm3),
                    ColumnHead("Final reading", "V2", cm3),
                    ColumnHead("Titre", "Vt", cm3),
                ),
                tuple(row[0] for row in titres),
                tuple(
                    tuple(gap(GapWidth.FULL, cell) for cell in row[1:])
                    for row in titres
                ),
                MeanRow(
                    "Titre",
                    ("1", "2", "3"),
                    parse_quantity("0.10 cm3"),
                    cm3,
                    gap(GapWidth.MEDIUM, "21.45"),
                ),
            ),
            Grid(
                "4.2",
                "table.2",
                line("What the solutions look like, with ", chem("Fe^3+")),
                (line("Solution"), line("Colour"), line("With alkali")),
                (
                    (
                        line(chem("FeSO4", "aq")),
                        line(gap(GapWidth.MEDIUM, "pale green")),
                        line(
                            gap(
                                GapWidth.LONG,
                                "a dirty green precipitate that turns brown",
                            )
                        ),
                    ),
                    (
                        line(chem("CuSO4", "aq")),
                        line("pale blue"),
                        line(gap(GapWidth.LONG, "a pale blue precipitate")),
                    ),
                ),
                (Align.LEFT, Align.CENTRE, Align.LEFT),
            ),
            Heading(3, line("The gas")),
            GraphPanel(
                "4.2",
                "gas",
                key(
                    FilledGraph(
                        (
                            (0.0, 0.0),
                            (1.0, 21.0),
                            (2.0, 36.0),
                            (3.0, 46.0),
                            (4.0, 53.0),
                            (5.0, 57.0),
                            (6.0, 59.0),
                        ),
                        (),
                        (1.0,) * 7,
                        (
                            PlottedLine(
                                ((0.0, 0.0), (2.5, 58.0)),
                                "gradient 23 cm³ min⁻¹ at the start",
                            ),
                        ),
                    )
                ),
                Axis("t", parse_unit("min"), Decimal(0), Decimal(6), Decimal(1), HERE),
                Axis("V", cm3, Decimal(0), Decimal(70), Decimal(10), HERE),
            ),
        ),
    )


MATHML = (
    '<math xmlns="http://www.w3.org/1998/Math/MathML"><mfrac><mrow><msub><mi>c</mi>'
    "<mi>b</mi></msub><mo>·</mo><msub><mi>V</mi><mi>b</mi></msub></mrow><mrow><msub>"
    "<mi>V</mi><mi>a</mi></msub></mrow></mfrac></math>"
)
SUBSTITUTED = (
    '<math xmlns="http://www.w3.org/1998/Math/MathML"><mfrac><mrow><mn>0.1000</mn>'
    "<mspace width='0.2em'/><mtext>mol dm⁻³</mtext><mo>·</mo><mn>21.45</mn>"
    "<mspace width='0.2em'/><mtext>cm³</mtext></mrow><mrow><mn>25.00</mn>"
    "<mspace width='0.2em'/><mtext>cm³</mtext></mrow></mfrac></math>"
)


def calculation() -> SheetSection:
    molar = parse_unit("mol/dm3")
    return SheetSection(
        "Calculation",
        "section.calculation",
        (
            Worksheet(
                "calculation.1",
                (
                    WorkLine(
                        "c_b",
                        line("the sodium hydroxide, from its label"),
                        parse_quantity("0.1000 ± 0.0002 mol/dm3"),
                        molar,
                    ),
                    WorkLine(
                        "V_b",
                        line("the mean titre"),
                        Gap(
                            key(FilledWork("", "", "(21.45 ± 0.05) cm³")),
                            GapWidth.MEDIUM,
                        ),
                        parse_unit("cm3"),
                    ),
                    WorkLine(
                        "c_d",
                        line(
                            "the diluted vinegar, see ",
                            Link(line("Equation"), "4.1", "vinegar", "end-point"),
                        ),
                        Gap(
                            key(
                                FilledWork(
                                    MATHML,
                                    SUBSTITUTED,
                                    "(0.0858 ± 0.0003) mol dm⁻³",
                                )
                            ),
                            GapWidth.FULL,
                        ),
                        molar,
                    ),
                ),
            ),
        ),
    )


def room(lines: int, *answer: object, kind: SpaceKind = SpaceKind.LINES) -> AnswerRoom:
    return AnswerRoom(key(FilledRoom((text(*answer),))), kind, lines, 0.0)


def questions() -> SheetSection:
    return SheetSection(
        "Questions",
        "section.questions",
        (
            QuestionItem(
                "1",
                "question.1",
                (text("Why is the pipette rinsed with vinegar and not with water?"),),
                2,
                room(
                    3,
                    "Water left in the pipette would dilute the vinegar [1]; vinegar "
                    "changes nothing, since it is what is measured [1].",
                ),
                (),
            ),
            QuestionItem(
                "2",
                "question.2",
                (text("Two parts on the reaction with marble:"),),
                None,
                None,
                (
                    QuestionItem(
                        "2a",
                        "question.2a",
                        (text("Write the equation with states."),),
                        1,
                        room(
                            2,
                            eq("CaCO3(s) + 2 HCl(aq) -> CaCl2(aq) + H2O(l) + CO2(g)"),
                        ),
                        (),
                    ),
                    QuestionItem(
                        "2b",
                        "question.2b",
                        (
                            text(
                                "Explain, by way of the particles, why the gas comes more "
                                "slowly as time goes on."
                            ),
                        ),
                        2,
                        room(
                            2,
                            "The acid is used up, so that fewer of its particles meet the "
                            "surface of the marble in each second [1], and each second brings "
                            "fewer collisions that lead to reaction [1]. The surface shrinks "
                            "as well, though in so short a time only by a little.",
                        ),
                        (),
                    ),
                ),
            ),
            QuestionItem(
                "3",
                "question.3",
                (
                    text(
                        "Draw the apparatus you would use to collect the gas over water."
                    ),
                ),
                3,
                AnswerRoom(
                    key(
                        FilledRoom((text("A trough, a measuring cylinder of water."),))
                    ),
                    SpaceKind.FRAME,
                    0,
                    60.0,
                ),
                (),
            ),
            QuestionItem(
                "4",
                "question.4",
                (text("How could you better your result?"),),
                2,
                room(4, "From the student’s own work.", kind=SpaceKind.OWN),
                (),
            ),
        ),
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
