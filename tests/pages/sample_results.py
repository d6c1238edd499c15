"""The results of the made-up experiment, and what is asked about them."""

from __future__ import annotations

from decimal import Decimal

from manualgen.editions.fence_panels import (
    ColumnHead,
    GraphPanel,
    MeanRow,
    ReadingsPanel,
    WorkLine,
    Worksheet,
)
from manualgen.editions.key import FilledGraph, FilledRoom, FilledWork, PlottedLine
from manualgen.editions.line import Gap, GapWidth, Link
from manualgen.editions.sheet import (
    AnswerRoom,
    Grid,
    Heading,
    QuestionItem,
    SheetSection,
    SpaceKind,
)
from manualgen.model.blocks import Align
from manualgen.model.fences import Axis
from manualgen.quantities import parse_quantity, parse_unit
from tests.pages.sample_text import HERE, chem, eq, gap, key, line, text


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
