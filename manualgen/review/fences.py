"""The pieces of the fences: equations, readings, calculations, graphs and drawings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from manualgen.model.blocks import Block
from manualgen.model.fences import (
    Axis,
    Calculation,
    CalculationLine,
    Column,
    ColumnKind,
    EquationBlock,
    Given,
    Graph,
    GraphLine,
    Mean,
    Readings,
    Setup,
)
from manualgen.quantities.style import NO_BREAK
from manualgen.review.pieces import Context, Fact, Piece
from manualgen.review.writing import EMPTY_BLANK, quantity_text


def fence_pieces(block: Block, here: Context) -> Iterator[Piece]:
    """The pieces of a fence; of any other block, none."""
    match block:
        case EquationBlock():
            yield _equations(block, here)
        case Readings():
            yield from _readings(block, here)
        case Calculation():
            yield from _calculation(block, here)
        case Graph():
            what, facts = here.named(block.name), _graph(block, here)
            yield here.piece("graph", what, facts, block.place, keyed=True)
        case Setup():
            lines = "; ".join(
                line for line in block.source.splitlines() if line.strip()
            )
            fact = here.fact("drawing", lines, block.place)
            what = here.named(block.name)
            yield here.piece("drawing", what, (fact,), block.place)
        case _:
            pass


def _equations(block: EquationBlock, here: Context) -> Piece:
    what = here.named(block.name)
    lines = [str(line.equation).replace(" ", NO_BREAK) for line in block.lines]
    text = "; ".join(f"[_{line}_]" if block.answer else line for line in lines)
    shown = "; ".join(EMPTY_BLANK for _ in lines) if block.answer else text
    words = ("answer", "to_balance", "with_ionic", "per_mole", "ionic", "half")
    flags = [word.replace("_", "-") for word in words if getattr(block, word)]
    facts = (
        here.partly("equation", text, shown, block.place),
        here.minor("equation words", ", ".join(flags), block.place),
    )
    return here.piece("equation", what, facts, block.place)


def _readings(block: Readings, here: Context) -> Iterator[Piece]:
    what = f"#{block.name}" if block.name else f"table in {here.parent.what}"
    facts = [here.fact("rows", ", ".join(block.rows), block.place)]
    if block.mean:
        facts.append(here.fact("mean", _mean(block.mean), block.mean.place))
    table = here.piece("readings", what, tuple(facts), block.place, keyed=True)
    yield table
    inside = replace(here, parent=table)
    for column in block.columns:
        yield _column(column, what, inside)


def _mean(mean: Mean) -> str:
    rows = "the concordant rows" if mean.concordant_rows else ", ".join(mean.rows)
    within = quantity_text(mean.concordant)
    return f"{mean.of} of {rows}" + (f" within {within}" if within else "")


def _column(column: Column, table: str, here: Context) -> Piece:
    unit = f" / {column.unit.text}" if column.unit else ""
    facts = [here.fact("column", f"{column.heading}{unit}", column.place)]
    cells = ", ".join(cell.text for cell in column.cells)
    if cells:
        is_given = column.kind is ColumnKind.GIVEN
        kind = "given" if is_given else "sample"
        facts.append(here.fact(kind, cells, column.place, hidden=not is_given))
    if column.formula_place is not None:
        text = here.source.typed(column.formula_place)
        facts.append(here.fact("formula", text, column.place, hidden=True))
    what = f"{table}.{column.symbol}"
    return here.piece("column", what, tuple(facts), column.place, keyed=True)


def _calculation(block: Calculation, here: Context) -> Iterator[Piece]:
    computed = {line.symbol for line in block.lines if not isinstance(line, Given)}
    anchor = here.anchor(block.place)
    defined: set[str] = set()
    for line in block.lines:
        what = f"{line.symbol} of the calculation"
        is_answer = isinstance(line, Given) and line.symbol in computed
        if is_answer:
            what = f"the author's answer for {line.symbol}"
        # A symbol that is defined once more is a fault, and is not printed.
        is_hidden = here.teachers or is_answer or line.symbol in defined
        facts = _line_facts(line, replace(here, teachers=is_hidden))
        if not is_answer:
            defined.add(line.symbol)
        piece = here.piece("calculation", what, facts, line.place, keyed=True)
        yield replace(piece, anchor=anchor)


def _line_facts(line: CalculationLine, here: Context) -> tuple[Fact, ...]:
    described = here.running("description", (line.description,), line.place)
    return (
        _value(line, here),
        replace(described, minor=True),
        here.minor("unit", _asked_unit(line), line.place),
    )


def _value(line: CalculationLine, here: Context) -> Fact:
    """What stands behind the symbol; of a result students get the empty box."""
    empty = f"{line.symbol} = {EMPTY_BLANK}"
    if isinstance(line, Given):
        value = here.source.typed(line.value_place)
        text = f"{line.symbol} = {f'[_{value}_]' if line.measured else value}"
        shown = empty if line.measured else text
    else:
        unit = f" -> {line.unit.text}" if line.unit else ""
        text, shown = f"{line.symbol} = {line.source}{unit}", empty
    return here.partly("calculation", text, shown, line.place)


def _asked_unit(line: CalculationLine) -> str:
    """The unit that students find in the box for a result."""
    if isinstance(line, Given):
        return line.quantity.unit.text if line.measured else ""
    return line.unit.text if line.unit else ""


def _graph(graph: Graph, here: Context) -> tuple[Fact, ...]:
    axes = "; ".join(_axis(axis) for axis in (graph.x, graph.y))
    facts = [here.fact("graph", axes, graph.place)]
    if graph.points_place:
        text = here.source.typed(graph.points_place)
        facts.append(here.fact("points", text, graph.place, hidden=True))
    facts.append(here.minor("line", _line(graph.line), graph.line.place, hidden=True))
    return tuple(facts)


def _axis(axis: Axis) -> str:
    unit = axis.unit.text or "1"
    return f"{axis.symbol} / {unit}, {axis.start} to {axis.stop} step {axis.step}"


def _line(line: GraphLine) -> str:
    rows = " and ".join(f"rows {first} to {last}" for first, last in line.rows)
    at = quantity_text(line.at)
    return " ".join(filter(None, (line.kind.value, rows, at and f"at {at}")))
