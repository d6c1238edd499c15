"""Equations, readings, calculations, graphs and drawings."""

from __future__ import annotations

from decimal import Decimal

import pytest

from manualgen.model.fences import (
    Axis,
    Calculation,
    Cell,
    ColumnKind,
    Computed,
    EquationBlock,
    Given,
    Graph,
    LineKind,
    Readings,
    Relation,
    Setup,
)
from manualgen.model.walk import plain
from manualgen.quantities import PURE_NUMBER, parse_quantity, parse_unit
from manualgen.quantities.parser import parse_expression

from .shelf import Page, read_body, shown, where


def fenced(head: str, *lines: str) -> str:
    return "\n".join((f"```{head}", *lines, "```"))


def equations(page: Page) -> EquationBlock:
    block = page.block
    assert isinstance(block, EquationBlock)
    return block


def calculation(*lines: str) -> tuple[Page, Calculation]:
    page = read_body(fenced("calculation", *lines))
    block = page.block
    assert isinstance(block, Calculation)
    return page, block


def readings(*lines: str, others: dict[str, str | bytes] | None = None) -> Page:
    return read_body(fenced("readings #titres", *lines), others)


def table(page: Page) -> Readings:
    block = page.block
    assert isinstance(block, Readings)
    return block


def graph(page: Page) -> Graph:
    block = page.block
    assert isinstance(block, Graph)
    return block


def drawing(*lines: str) -> tuple[Page, Setup]:
    page = read_body(fenced("setup", *lines))
    block = page.block
    assert isinstance(block, Setup)
    return page, block


def test_an_equation_stands_on_a_line() -> None:
    page = read_body(
        fenced(
            "equation #end-point with-ionic",
            "NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(l)",
            "",
            "2 H2 + O2 -> 2 H2O",
        )
    )
    block = equations(page)
    assert (block.name, block.with_ionic, block.ionic) == ("end-point", True, False)
    assert [str(line.equation) for line in block.lines] == [
        "NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(l)",
        "2 H2 + O2 -> 2 H2O",
    ]
    assert where(block.lines[1].place) == page.at("2 H2 +")
    assert where(block.place) == page.at("```equation")


@pytest.mark.parametrize(
    ("word", "attribute"),
    [
        ("answer", "answer"),
        ("to-balance", "to_balance"),
        ("with-ionic", "with_ionic"),
        ("per-mole", "per_mole"),
        ("ionic", "ionic"),
        ("half", "half"),
    ],
)
def test_words_after_equation_stand_in_any_order(word: str, attribute: str) -> None:
    for head in (f"equation {word} #x", f"equation #x {word}"):
        block = equations(read_body(fenced(head, "2 H2 + O2 -> 2 H2O")))
        assert getattr(block, attribute) is True
        assert block.name == "x"


@pytest.mark.parametrize(
    ("head", "line", "check", "at", "mend"),
    [
        ("equation ionicc", "2 H2 + O2 -> 2 H2O", "source-syntax", "ionicc", "ionic"),
        ("equation #a #b", "2 H2 + O2 -> 2 H2O", "source-syntax", "#b", None),
        ("equation", "H2 + Xx -> HX", "formula-invalid", "Xx", None),
        ("equation", "H2 + O2", "source-syntax", "H2 + O2", None),
        ("equation", "H2 + O2 = H2O", "source-syntax", "=", "->"),
        ("equation", "H2 + -> H2O", "source-syntax", None, None),
        ("equation", "", "source-syntax", "```equation", None),
    ],
)
def test_equations_that_cannot_be_read_are_found_at_their_letters(
    head: str, line: str, check: str, at: str | None, mend: str | None
) -> None:
    page = read_body(fenced(head, line))
    found, *more = page.faults
    assert found[0] == check
    assert at is None or found[1] == page.at(at)
    assert mend is None or found[2] == mend
    assert not more


def test_a_calculation_gives_computes_measures_and_names() -> None:
    page, block = calculation(
        "c_b = 0.1000 ± 0.0002 mol/dm3      # from the label of the `NaOH`",
        "V_b = titres.mean",
        "V_p = 25.00 cm3 (pipette)",
        "V_end = [_73 cm3_]",
        "n_b = c_b * V_b -> mol             # see [Equation](#end-point)",
        "c_a = n_b / V_p → mol/dm3",
        "r = 2 * n_b",
        "z = 2",
        "c_a = 0.0956 mol/dm3",
    )
    stated, mean, pipette, end, amount, _, double, two, own = block.lines
    assert isinstance(stated, Given)
    assert stated.quantity == parse_quantity("0.1000 ± 0.0002 mol/dm3")
    assert plain(stated.description) == "from the label of the NaOH"
    assert shown(stated.value_place, page.text) == "0.1000 ± 0.0002 mol/dm3"
    assert isinstance(mean, Computed)
    assert (mean.expression, mean.unit) == (parse_expression("titres.mean"), None)
    assert isinstance(pipette, Given)
    assert (pipette.quantity.of, pipette.measured) == ("pipette", False)
    assert isinstance(end, Given)
    assert (end.measured, end.quantity) == (True, parse_quantity("73 cm3"))
    assert isinstance(amount, Computed)
    assert (amount.source, amount.unit) == ("c_b * V_b", parse_unit("mol"))
    assert shown(amount.expression_place, page.text) == "c_b * V_b"
    assert amount.unit_place
    assert shown(amount.unit_place, page.text) == "mol"
    assert isinstance(double, Computed)
    assert isinstance(two, Given)
    assert two.quantity.unit == PURE_NUMBER
    assert isinstance(own, Given)
    assert not page.faults


def test_a_pure_numbers_unit_is_one_and_percent_is_percent() -> None:
    _, block = calculation("a = 2 * 3 -> 1", "y = a / 7 -> %")
    first, second = block.lines
    assert isinstance(first, Computed)
    assert isinstance(second, Computed)
    assert first.unit == PURE_NUMBER
    assert second.unit == parse_unit("%")


@pytest.mark.parametrize(
    ("line", "check", "at"),
    [
        ("no equals sign", "source-syntax", "no equals"),
        ("2x = 3 g", "source-syntax", "2x"),
        ("m = 3 gq", "unit-unknown", "gq"),
        ("n = c * -> mol", "source-syntax", None),
        ("n = c * V -> moll", "unit-unknown", "moll"),
        ("n = [_3 cm3", "source-syntax", "[_"),
        ("n = [_3 cmm_]", "unit-unknown", "cmm"),
        ("n = 3 g # `Xx1`", "formula-invalid", "Xx1"),
        ("n = 3 g # a [#name]", "source-syntax", "[#name]"),
        ("n = 3 g x", "unit-unknown", None),
        ("n = " + "9" * 2000, "source-syntax", "n = 9"),
        ("n = __import__('os') -> g", "source-syntax", None),
    ],
)
def test_lines_of_a_calculation_that_cannot_be_read(
    line: str, check: str, at: str | None
) -> None:
    page = read_body(fenced("calculation", line))
    ((found, place, _),) = page.faults
    assert found == check
    assert at is None or place == page.at(at)


def test_a_symbol_is_defined_once_but_for_the_authors_own_answer() -> None:
    page, _ = calculation("m = 1 g", "n = 2 * m -> g", "n = 2 g", "m = 3 g")
    assert [(c, w) for c, w, _ in page.faults] == [
        ("source-syntax", page.at("m = 3 g"))
    ]


ROWS = "rows: [rough, 1, 2]"
V1 = "  - {symbol: V1, heading: Initial reading, unit: cm3, sample: [0.00, 0.10, 0.25]}"
V2 = (
    "  - {symbol: V2, heading: Final reading, unit: cm3, sample: [21.90, 21.55, 21.75]}"
)
VT = "  - {symbol: Vt, heading: Titre, unit: cm3, formula: V2 - V1}"
MEAN = "mean: {of: Vt, rows: [1, 2], concordant: 0.10 cm3}"


def test_readings_have_rows_columns_and_a_mean() -> None:
    page = readings(ROWS, "columns:", V1, V2, VT, MEAN)
    block = table(page)
    assert (block.name, block.rows) == ("titres", ("rough", "1", "2"))
    first, _, titre = block.columns
    assert (first.symbol, first.heading, first.kind) == (
        "V1",
        "Initial reading",
        ColumnKind.SAMPLE,
    )
    assert first.unit == parse_unit("cm3")
    assert [c.text for c in first.cells] == ["0.00", "0.10", "0.25"]
    assert first.cells[1].value == Decimal("0.10")
    assert shown(first.cells[1].place, page.text) == "0.10"
    assert titre.kind is ColumnKind.FORMULA
    assert titre.formula == parse_expression("V2 - V1")
    assert titre.formula_place
    assert shown(titre.formula_place, page.text) == "V2 - V1"
    assert block.mean
    assert (block.mean.of, block.mean.rows) == ("Vt", ("1", "2"))
    assert block.mean.concordant == parse_quantity("0.10 cm3")
    assert not page.faults


def test_columns_may_be_given_empty_or_of_words() -> None:
    page = readings(
        "columns:",
        "  - {symbol: t, heading: Time, unit: min, given: [0, 2, 4]}",
        "  - {symbol: T, heading: Temperature, unit: °C}",
        "  - {symbol: look, heading: Appearance, sample: [clear, cloudy, '']}",
        "  - {symbol: k, heading: Number, unit: 1, given: [1, 2, 3]}",
    )
    block = table(page)
    assert block.rows == ("1", "2", "3")
    time, temperature, look, number = block.columns
    assert (time.kind, temperature.kind) == (ColumnKind.GIVEN, ColumnKind.EMPTY)
    assert (look.unit, number.unit) == (None, PURE_NUMBER)
    assert [c.value for c in look.cells] == [None, None, None]
    assert not page.faults


def test_the_tool_may_take_the_rows_that_agree() -> None:
    page = readings(ROWS, "columns:", V1, "mean: {of: V1, rows: concordant}")
    mean = table(page).mean
    assert mean
    assert (mean.concordant_rows, mean.rows, mean.concordant) == (True, (), None)


def test_a_sample_may_lie_in_a_file() -> None:
    page = readings(
        "columns:",
        "  - {symbol: pH, heading: pH, unit: 1, sample: ../data/ph.csv#pH}",
        others={"data/ph.csv": "volume,pH\n0.0,2.88\n5.0,4.15\n"},
    )
    cells = table(page).columns[0].cells
    assert [c.text for c in cells] == ["2.88", "4.15"]
    assert str(cells[1].place) == "content/data/ph.csv:3:5"
    assert page.lines["content/data/ph.csv"][2] == "5.0,4.15"
    assert not page.faults


def test_a_file_of_data_may_be_named_from_the_content_folder() -> None:
    page = readings(
        "columns:",
        "  - {symbol: pH, unit: 1, sample: data/ph.csv#pH}",
        others={"data/ph.csv": 'volume,pH\n"0,0",2.88\n'},
    )
    assert [c.text for c in table(page).columns[0].cells] == ["2.88"]


@pytest.mark.parametrize(
    ("lines", "check", "at"),
    [
        ((ROWS,), "source-syntax", "```readings"),
        (("just words",), "source-syntax", "```readings"),
        (
            (ROWS, "columns:", "  - {symbol: V, sample: [1, 2]}"),
            "source-syntax",
            "1, 2]}",
        ),
        ((ROWS, "columns:", V1, "maen: {of: V1}"), "source-syntax", "maen"),
        (
            (ROWS, "columns:", "  - {symbol: V, unti: cm3}"),
            "source-syntax",
            "unti",
        ),
        ((ROWS, "columns:", "  - {heading: Volume}"), "source-syntax", "{heading"),
        ((ROWS, "columns:", "  - {symbol: V 1}"), "source-syntax", "V 1"),
        ((ROWS, "columns:", "  - {symbol: V, unit: cmm}"), "unit-unknown", "cmm"),
        (
            (ROWS, "columns:", "  - {symbol: V, formula: V2 -}"),
            "source-syntax",
            None,
        ),
        ((ROWS, "columns:", V1, V1), "duplicate-id", None),
        (
            (ROWS, "columns:", V1, "mean: {of: Vx}"),
            "calculation-undefined",
            "Vx",
        ),
        (
            (ROWS, "columns:", V1, "mean: {of: V1, rows: [1, 9]}"),
            "calculation-undefined",
            "9]}",
        ),
        (
            ("columns:", "  - {symbol: p, sample: no.csv#x}"),
            "unknown-reference",
            "no.csv",
        ),
        (
            ("columns:", "  - {symbol: p, sample: ../../no.csv#x}"),
            "source-syntax",
            "../../no",
        ),
        (("columns: [[", "x"), "source-syntax", None),
        (("columns: [V1]",), "source-syntax", "V1"),
        (
            ("columns:", "  - {symbol: V, sample: [1], given: [1]}"),
            "source-syntax",
            "{symbol",
        ),
        ((ROWS, "columns:", V1, "mean: {rows: [1]}"), "source-syntax", "{rows"),
        ((ROWS, "columns:", V1, "mean: {fo: V1}"), "source-syntax", "fo:"),
        (
            ("columns:", "  - {symbol: V, given: [" + "1, " * 1001 + "1]}"),
            "source-syntax",
            "{symbol",
        ),
    ],
)
def test_readings_that_cannot_be_read(
    lines: tuple[str, ...], check: str, at: str | None
) -> None:
    page = readings(*lines)
    assert page.faults
    found, place, _ = page.faults[0]
    assert found == check
    assert at is None or place == page.at(at)


@pytest.mark.parametrize(
    ("content", "check"),
    [
        ("volume\n1\n", "calculation-undefined"),
        ("", "calculation-undefined"),
        (b"\xff", "source-syntax"),
    ],
)
def test_data_that_cannot_be_had(content: str | bytes, check: str) -> None:
    page = readings(
        "columns:",
        "  - {symbol: p, sample: p.csv#pH}",
        "  - {symbol: q, sample: p.csv#pH}",
        others={"acids/p.csv": content},
    )
    assert page.faults[0][:2] == (check, page.at("p.csv#pH"))


def test_a_graph_needs_keys() -> None:
    page = read_body(fenced("graph", "just words"))
    assert [(c, w) for c, w, _ in page.faults] == [
        ("source-syntax", page.at("```graph"))
    ]


def test_a_graph_has_axes_points_and_a_line() -> None:
    page = read_body(
        fenced(
            "graph #cooling",
            "x: t / min, 0 to 12 step 2",
            "y: T / °C, 18 to 34 step 2",
            "points: temperatures.t, temperatures.T     # the teacher's",
            "line: fit rows 1 to 4",
        )
    )
    block = graph(page)
    assert block.name == "cooling"
    assert (block.x.symbol, block.x.unit) == ("t", parse_unit("min"))
    assert [block.y.start, block.y.stop, block.y.step] == [18, 34, 2]
    assert block.points == (
        parse_expression("temperatures.t"),
        parse_expression("temperatures.T"),
    )
    assert (block.line.kind, block.line.rows) == (LineKind.FIT, (("1", "4"),))
    assert not page.faults


def test_an_axis_may_have_a_compound_unit_or_none() -> None:
    page = read_body(
        fenced(
            "graph",
            "x: c / mol/dm3, 0.00 to 0.10 step 0.02",
            "y: A / 1, −0.5 to 1.0 step 0.5",
        )
    )
    block = graph(page)
    assert isinstance(block.x, Axis)
    assert block.x.unit == parse_unit("mol/dm3")
    assert (block.y.unit, block.y.start) == (PURE_NUMBER, Decimal("-0.5"))
    assert (block.points, block.line.kind) == (None, LineKind.NONE)
    assert not page.faults


@pytest.mark.parametrize(
    ("text", "kind", "rows", "at"),
    [
        ("fit", LineKind.FIT, (), None),
        ("two fits", LineKind.TWO_FITS, (), None),
        (
            "two fits rows 1 to 4 and 5 to 9",
            LineKind.TWO_FITS,
            (("1", "4"), ("5", "9")),
            None,
        ),
        ("curve", LineKind.CURVE, (), None),
        ("tangent at 2 min", LineKind.TANGENT, (), "2 min"),
        ("none", LineKind.NONE, (), None),
    ],
)
def test_a_graphs_line_is_one_of_a_few(
    text: str, kind: LineKind, rows: tuple[tuple[str, str], ...], at: str | None
) -> None:
    page = read_body(
        fenced(
            "graph",
            "x: t / s, 0 to 4 step 1",
            "y: V / cm3, 0 to 9 step 1",
            f"line: {text}",
        )
    )
    line = graph(page).line
    assert (line.kind, line.rows) == (kind, rows)
    assert line.at == (parse_quantity(at) if at else None)
    assert not page.faults


@pytest.mark.parametrize(
    ("line", "check", "at"),
    [
        ("y: V, 0 to 9 step 1", "source-syntax", "V, 0"),
        ("y: V / cm3, 0 to 9", "source-syntax", "V / cm3"),
        ("y: V / cmm, 0 to 9 step 1", "unit-unknown", "cmm"),
        ("y: V / cm3, 9 to 0 step 1", "source-syntax", "9 to 0"),
        ("y: V / cm3, 0 to 9 step 0", "source-syntax", "0 to 9"),
        ("y: V / cm3, 0 to 9 step 1e-9", "source-syntax", "0 to 9"),
        ("y: V / cm3, a to 9 step 1", "source-syntax", "a to 9"),
        ("", "source-syntax", "```graph"),
        ("y: V / cm3, 0 to 9 step 1\npoints: a", "source-syntax", "a\n"),
        ("y: V / cm3, 0 to 9 step 1\nline: fitt", "source-syntax", "fitt"),
        ("y: V / cm3, 0 to 9 step 1\nline: fit row 1", "source-syntax", "row 1"),
        ("y: V / cm3, 0 to 9 step 1\nlines: fit", "source-syntax", "lines"),
    ],
)
def test_graphs_that_cannot_be_read(line: str, check: str, at: str) -> None:
    page = read_body(fenced("graph", "x: t / s, 0 to 4 step 1", line))
    assert [(c, w) for c, w, _ in page.faults] == [(check, page.at(at))]


def test_a_drawing_relates_each_piece_to_the_one_before() -> None:
    page, setup = drawing(
        "burette, 50 cm3 [sodium hydroxide, 0.100 mol/dm3] held by clamp stand",
        "above conical flask [25.0 cm3 vinegar; phenolphthalein solution]",
        "on white tile",
    )
    burette, stand, flask, tile = setup.pieces
    assert (burette.name, burette.relation, burette.base) == ("burette", None, None)
    assert burette.capacity == parse_quantity("50 cm3")
    (alkali,) = burette.contents
    assert alkali.name == "sodium hydroxide"
    assert (alkali.strength, alkali.amount) == (parse_quantity("0.100 mol/dm3"), None)
    assert (stand.name, stand.relation, stand.base) == ("clamp stand", Relation.HELD, 0)
    assert (flask.relation, flask.base) == (Relation.ABOVE, 0)
    vinegar, indicator = flask.contents
    assert (vinegar.name, vinegar.amount) == ("vinegar", parse_quantity("25.0 cm3"))
    assert indicator.name == "phenolphthalein solution"
    assert (tile.relation, tile.base) == (Relation.ON, 2)
    assert where(flask.place) == page.at("conical flask")
    assert shown(vinegar.place, page.text) == "25.0 cm3 vinegar"
    assert not page.faults


def test_a_stoppered_flask_is_joined_by_a_tube() -> None:
    page, setup = drawing(
        "conical flask [50 cm3 of hydrochloric acid; marble chips], stoppered",
        "joined by delivery tube to gas syringe, 100 cm3",
    )
    flask, syringe = setup.pieces
    assert flask.stoppered
    assert [c.name for c in flask.contents] == ["hydrochloric acid", "marble chips"]
    assert (syringe.relation, syringe.by) == (Relation.JOINED, "delivery tube")
    assert syringe.capacity == parse_quantity("100 cm3")
    assert not page.faults


def test_the_contents_of_a_drawing_may_be_counted_weighed_and_strong() -> None:
    _, setup = drawing(
        "2 beakers, 100 cm3, class B [3 marble chips; sulfuric acid, concentrated, 5 cm3; "
        "5 % w/v sodium chloride; 2x]"
    )
    (beaker,) = setup.pieces
    chips, acid, brine, other = beaker.contents
    assert beaker.name == "beakers"
    assert (chips.name, chips.amount) == ("marble chips", parse_quantity("3"))
    assert acid.name == "concentrated sulfuric acid"
    assert acid.amount == parse_quantity("5 cm3")
    assert (brine.name, brine.strength) == (
        "sodium chloride",
        parse_quantity("5 % w/v"),
    )
    assert (other.name, other.amount) == ("2x", None)


def test_a_second_piece_may_go_into_a_vessel() -> None:
    page, setup = drawing(
        "funnel with filter paper [suspension]",
        "in conical flask",
        "with thermometer",
    )
    first, flask, thermometer = setup.pieces
    assert (first.name, flask.relation) == ("funnel with filter paper", Relation.IN)
    assert (thermometer.relation, thermometer.base) == (Relation.WITH, 1)
    assert not page.faults


def test_a_drawing_may_branch() -> None:
    page, setup = drawing(
        "round-bottomed flask [water] on gauze on tripod heated by Bunsen burner",
        "from round-bottomed flask: in still head",
        "joined by rubber tube to condenser",
        "from still head: in thermometer",
    )
    names = [piece.name for piece in setup.pieces]
    bases = [piece.base for piece in setup.pieces]
    assert names == [
        "round-bottomed flask",
        "gauze",
        "tripod",
        "Bunsen burner",
        "still head",
        "condenser",
        "thermometer",
    ]
    assert bases == [None, 0, 1, 2, 0, 4, 4]
    assert not page.faults


@pytest.mark.parametrize(
    ("lines", "check", "at"),
    [
        (("beaker", "white tile"), "source-syntax", "white tile"),
        (("on white tile",), "source-syntax", "on white"),
        (("beaker", "from beeker: on gauze"), "source-syntax", "beeker"),
        (("beaker, 100 cmm",), "unit-unknown", "cmm"),
        (("beaker, sloppered",), "source-syntax", "sloppered"),
        (("beaker [water",), "source-syntax", "beaker"),
        (("beaker [water, 2 gq]",), "unit-unknown", "gq"),
        (("",), "source-syntax", "```setup"),
        (("beaker on in gauze",), "source-syntax", "beaker on"),
    ],
)
def test_drawings_that_cannot_be_read(
    lines: tuple[str, ...], check: str, at: str
) -> None:
    page = read_body(fenced("setup", *lines))
    assert [(c, w) for c, w, _ in page.faults] == [(check, page.at(at))]


@pytest.mark.parametrize(
    ("body", "at", "mend"),
    [
        ("```equations\n2 H2 + O2 -> 2 H2O\n```", "equations", "equation"),
        ("```python\nprint()\n```", "python", None),
        ("```\ntext\n```", "```", None),
        ("```calculation #a.b\nx = 1 g\n```", "#a.b", None),
        ("```calculation loud\nx = 1 g\n```", "loud", None),
        ("> **Note:** x\n>\n> ```equation\n> 2 H2 + O2 -> 2 H2O", "```equation", None),
    ],
)
def test_fences_that_are_none(body: str, at: str, mend: str | None) -> None:
    page = read_body(body)
    ((check, place, advice),) = page.faults
    assert (check, place) == ("source-syntax", page.at(at))
    assert mend is None or advice == mend


def test_a_fence_that_is_never_closed_is_found_where_it_opens() -> None:
    page = read_body("```equation\n2 H2 + O2 -> 2 H2O")
    assert page.faults == [("source-syntax", page.at("```equation"), None)]


def test_cells_know_words_from_numbers() -> None:
    page = readings("columns:", "  - {symbol: n, given: [−1, 1e3, ~5, NO, 1:10]}")
    cells: tuple[Cell, ...] = table(page).columns[0].cells
    assert [c.value for c in cells] == [Decimal(-1), Decimal(1000), None, None, None]
    assert [c.text for c in cells] == ["−1", "1e3", "~5", "NO", "1:10"]
