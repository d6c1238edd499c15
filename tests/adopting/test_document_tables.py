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
from tests.adopting.documents import PICTURE


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


def test_a_hazard_beside_a_thing_is_a_box() -> None:
    table = _table(
        "Chemical | Concentration | Volume | Hazard",
        "Methanol | | 5 cm3 | Toxic",
        "Nitric acid | conc. | 2 cm3 | Corrosive",
        "Tap water | | 9 cm3 | –",
    )
    draft = _draft(f"# Esters\n\n## Chemicals\n\n{table}\n\n## Method\n\n1. Stir it.\n")
    assert _lists(draft) == (
        [
            "methanol, 5 cm3",
            "nitric acid, concentrated, 2 cm3",
            "tap water, 9 cm3",
        ],
        [],
        [],
    )
    assert [b.text for b in draft.section(Place.METHOD)] == [
        "Methanol: Toxic.",
        "Nitric acid: Corrosive.",
        "Stir it.",
    ]


def test_things_in_two_columns_without_heads_are_listed() -> None:
    table = _table(
        "burette, 50 cm3 | vinegar, 20 cm3",
        "3 conical flasks, 100 cm3 | phenolphthalein",
    )
    draft = _draft(f"# Acid\n\n## Apparatus and chemicals\n\n{table}\n")
    assert _lists(draft) == (
        ["vinegar, 20 cm3", "phenolphthalein"],
        ["burette, 50 cm3", "3 conical flasks, 100 cm3"],
        [],
    )


def test_a_row_above_the_heads_is_a_title() -> None:
    table = _table(
        "Apparatus and materials | | ",
        "Item | Quantity | Notes",
        "Carbon electrodes | 2 | clamp them",
        "Sodium chloride solution | 100 cm3 | saturated",
    )
    draft = _draft(f"# Brine\n\n## Apparatus and materials\n\n{table}\n")
    assert _lists(draft) == (
        ["sodium chloride solution, saturated, 100 cm3"],
        ["2 carbon electrodes"],
        ["Needed: Carbon electrodes, clamp them"],
    )


def test_no_cell_beside_a_short_head_is_lost() -> None:
    document = Document()
    document.add_heading("Brine", 1)
    table = document.add_table(3, 2)
    table.rows[0].cells[0].merge(table.rows[0].cells[1]).text = "Apparatus"
    for row, words in zip(
        table.rows[1:], [("beaker", "250 cm3"), ("whatsit", "old")], strict=True
    ):
        for cell, said in zip(row.cells, words, strict=True):
            cell.text = said
    file = io.BytesIO()
    document.save(file)
    (draft,) = adopted(read_word("brine.docx", file.getvalue()), "brine")
    told = [w for _, blocks in draft.blocks for b in blocks for r in b.rows for w in r]
    told += [e.said.words for e in draft.apparatus]
    assert all(any(word in said for said in told) for word in ("250 cm3", "old"))


def test_questions_in_rows_are_questions() -> None:
    table = _table("1 | Why is it stirred? | (1)", "2 | Is it pure? Explain. | [2]")
    draft = _draft(f"# Brine\n\n## Now answer these\n\n{table}\n")
    assert [b.text for b in draft.section(Place.QUESTIONS)] == [
        "Why is it stirred? [1]",
        "Is it pure? Explain. [2]",
    ]


def test_what_a_class_shares_is_not_what_a_group_gets() -> None:
    table = _table(
        "Per group | Per class",
        "conical flask, 100 cm3 | ethanol, 1 dm3",
        "chalk, 2 g | ",
    )
    draft = _draft(f"# Rates\n\n## Requirements\n\n{table}\n")
    assert _lists(draft) == (
        ["chalk, 2 g"],
        ["conical flask, 100 cm3"],
        ["Needed: Per class: ethanol, `1 dm3`"],
    )


def test_a_method_in_rows_is_steps() -> None:
    table = _table(
        "Step | What to do | Done ✓",
        "1 | Put 10 cm3 of water in the flask. | ",
        "2 | Stir it, then let it cool. It turns cloudy. | ",
    )
    draft = _draft(f"# Cooling\n\n## Procedure\n\n{table}\n")
    assert [b.text for b in draft.section(Place.METHOD)] == [
        "Put `10 cm3` of water in the flask.",
        "Stir it.",
        "Let it cool.",
    ]
    assert [b.text for b in draft.section(Place.OBSERVATIONS)] == [
        "It turns [_cloudy_]."
    ]
    said = draft.section(Place.METHOD)[0].said[0].words
    assert "Step | What to do | Done ✓" in said


def test_a_method_with_cells_to_fill_in_stays_a_table() -> None:
    table = _table(
        "Step | What you do | What you see", "1 | Stir it. | ", "2 | Heat it. | "
    )
    draft = _draft(f"# Cooling\n\n## Procedure\n\n{table}\n")
    assert [b.form for b in draft.section(Place.METHOD)] == [Form.TABLE]


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


def test_the_head_of_a_page_is_of_no_section() -> None:
    document = Document()
    document.sections[0].header.paragraphs[0].text = "Lower Sixth Form papers"
    document.add_heading("Ions", 1)
    document.add_paragraph("Time: 40 minutes          Work in pairs")
    document.add_heading("Observations", 2)
    document.add_paragraph("The liquid turns blue.")
    file = io.BytesIO()
    document.save(file)
    (draft,) = adopted(read_word("ions.docx", file.getvalue()), "ions")
    assert [b.text for b in draft.section(Place.UNPLACED)] == [
        "Lower Sixth Form papers"
    ]
    assert (draft.time and draft.time.text, draft.group and draft.group.text) == (
        "40 min",
        "2",
    )


@pytest.mark.parametrize(("rows", "entries"), [(3, ["burette, 50 cm3"]), (2, [])])
def test_lines_with_tabs_under_each_other_are_a_table(
    rows: int, entries: list[str]
) -> None:
    document = Document()
    document.add_heading("Squash", 1)
    document.add_heading("You will need", 2)
    for line in ("burette\t50 cm3\t1", "conical flasks\t250 cm3\t3", "squash\t\t9 cm3")[
        :rows
    ]:
        document.add_paragraph(line)
    file = io.BytesIO()
    document.save(file)
    (draft,) = adopted(read_word("squash.docx", file.getvalue()), "squash")
    found = [e.text for e in draft.apparatus]
    assert ("3 conical flasks, 250 cm3" in found) == bool(entries)
    assert [e for e in found if e == "burette, 50 cm3"] == entries


@pytest.mark.parametrize(
    ("line", "described"),
    [
        ("Fig. 1  Set it up like this", "Set it up like this"),
        ("Figure 2: The flask", "The flask"),
        ("Figs are sweet.", ""),
    ],
)
def test_a_caption_tells_of_the_picture_above_it(line: str, described: str) -> None:
    document = Document()
    document.add_heading("Squash", 1)
    document.add_heading("Method", 2)
    document.add_picture(io.BytesIO(PICTURE))
    document.add_paragraph(line)
    file = io.BytesIO()
    document.save(file)
    (draft,) = adopted(read_word("squash.docx", file.getvalue()), "squash")
    (picture,) = draft.pictures
    assert picture.description == described
    left = [b.text for b in draft.section(Place.UNPLACED)]
    assert left == ([] if described else [line])
