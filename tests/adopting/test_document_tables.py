"""Tables of what is needed and of risks, and raised figures, as departments write them.

The tables are our own: common practice, no source. How a charge and a unit's
power are written is told by README.md, "Writing".
"""

from __future__ import annotations

import io

import pytest
from docx import Document

from manualgen.adopting import Draft, adopted, text_document
from manualgen.adopting.draft import Form, Place
from manualgen.adopting.word import read_word


def _draft(text: str) -> Draft:
    (draft,) = adopted(text_document("n.md", text), "n")
    return draft


def _table(*rows: str) -> str:
    width = rows[0].count("|") + 1
    return "\n".join([rows[0], "|".join(["---"] * width) + "|", *rows[1:]])


def _lists(draft: Draft) -> tuple[list[str], list[str], list[str]]:
    left = [b.text for b in draft.section(Place.UNPLACED)]
    return (
        [e.text for e in draft.chemicals],
        [e.text for e in draft.apparatus],
        left,
    )


@pytest.mark.parametrize("heading", ["", "## You will need\n\n", "## Requirements\n\n"])
def test_a_table_of_things_and_amounts_is_the_list(heading: str) -> None:
    table = _table(
        "Item | Size / concentration | Quantity",
        "Sodium carbonate solution | 0.050 mol dm-3 | 100 cm3 per group",
        "Hydrochloric acid | 2 M | 60 cm3",
        "Burette | 50 cm3 | 1",
        "Conical flasks | 250 cm3 | 3",
        "Pipette and filler | 25 cm3 | 1 each",
        "White tile |  | 1",
    )
    draft = _draft(f"# Washing soda\n\n{heading}{table}\n")
    assert _lists(draft) == (
        [
            "sodium carbonate solution, 0.050 mol/dm3, 100 cm3",
            "hydrochloric acid, 2 mol/dm3, 60 cm3",
        ],
        [
            "burette, 50 cm3",
            "3 conical flasks, 250 cm3",
            "pipette, 25 cm3",
            "pipette filler",
            "white tile",
        ],
        [],
    )


def test_a_head_gives_its_column_the_unit() -> None:
    table = _table(
        "Reagent | Concentration / mol dm-3 | Volume (cm3)",
        "Copper(II) sulfate solution | 0.2 | 25",
        "Ethanol | | 5",
    )
    draft = _draft(f"# Blue\n\n{table}\n")
    assert _lists(draft)[0] == [
        "copper(II) sulfate solution, 0.2 mol/dm3, 25 cm3",
        "ethanol, 5 cm3",
    ]


def test_two_lists_side_by_side_stay_two() -> None:
    table = _table(
        "Apparatus | Quantity | Chemicals | Quantity",
        "test tube | 4 | potassium iodide | 2 g",
        "test tube rack | 1 | | ",
    )
    draft = _draft(f"# Tubes\n\n{table}\n")
    assert _lists(draft) == (
        ["potassium iodide, 2 g"],
        ["4 test tubes", "test tube rack"],
        [],
    )


def test_what_no_entry_can_hold_is_not_placed() -> None:
    table = _table(
        "Item | Quantity",
        "Balance | shared between three",
        "Propanone | 5 cm3",
        "Whatsit | 2",
    )
    chemicals, apparatus, left = _lists(_draft(f"# Nails\n\n{table}\n"))
    assert (chemicals, apparatus) == (["propanone, 5 cm3"], ["balance"])
    assert left == ["Needed: Balance, shared between three", "Needed: Whatsit, 2"]


def test_a_table_to_be_filled_in_is_no_list() -> None:
    table = _table("Metal | Mass / g | Volume / cm3", "iron | | ", "tin | | ")
    draft = _draft(f"# Metals\n\n## Results\n\n{table}\n\n## Method\n\n1. Weigh it.\n")
    assert (draft.chemicals, draft.apparatus) == ((), ())
    assert [b.form for b in draft.section(Place.OBSERVATIONS)] == [Form.TABLE]
    bare = _table("Substance | Mass / g", "iron | ", "tin | ")
    assert not _draft(f"# Metals\n\n{bare}\n").chemicals


@pytest.mark.parametrize(
    "head",
    [
        "Hazard | Risk | Control",
        "Hazard | Possible harm | Control measures",
        "Danger | What could go wrong | How to reduce the risk",
    ],
)
def test_a_table_of_risks_is_boxes_with_its_words(head: str) -> None:
    table = _table(head, "Hot oil | burns | Let it cool.", "Steel wool | |gloves")
    draft = _draft(f"# Oil\n\n## Risk assessment\n\n{table}\n")
    first, second, third = (cell.strip() for cell in head.split("|"))
    assert [(b.form, b.text) for b in draft.section(Place.METHOD)] == [
        (Form.SAFETY, f"{first}: Hot oil. {second}: burns. {third}: Let it cool."),
        (Form.SAFETY, f"{first}: Steel wool. {third}: gloves."),
    ]


@pytest.mark.parametrize(
    ("runs", "written"),
    [
        ("S|_2|O|_3|^2–", "`S2O3^2-`"),
        ("SO|_4|^2|^−", "`SO4^2-`"),
        ("NH|_4|^+", "`NH4^+`"),
        ("Fe|^3+", "`Fe^3+`"),
        ("0.5 mol dm|^–3", "`0.5 mol dm-3`"),
        ("20 cm|^3", "`20 cm3`"),
        ("10|^–3", "10⁻³"),
        ("the 5|^th", "the 5th"),
    ],
)
def test_raised_runs_are_charges_and_powers(runs: str, written: str) -> None:
    document = Document()
    document.add_heading("Ions", 1)
    document.add_heading("Theory", 2)
    paragraph = document.add_paragraph("It has ")
    for run in runs.split("|"):
        font = paragraph.add_run(run.strip("_^")).font
        font.subscript, font.superscript = run[0] == "_", run[0] == "^"
    paragraph.add_run(" in it.")
    file = io.BytesIO()
    document.save(file)
    (draft,) = adopted(read_word("ions.docx", file.getvalue()), "ions")
    (theory,) = draft.section(Place.THEORY)
    assert theory.text == f"It has {written} in it."
