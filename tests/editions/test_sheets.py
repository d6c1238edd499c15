"""What students get, and what the key puts beside it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from manualgen.editions.catalogue import catalogue, question_label
from manualgen.editions.compositor import gap_width
from manualgen.editions.fence_panels import EquationPanel, ReadingsPanel, Worksheet
from manualgen.editions.key import (
    FilledLine,
    FilledMark,
    FilledRoom,
    FilledWork,
    Key,
)
from manualgen.editions.lay_out import lay_out
from manualgen.editions.line import Gap, GapWidth, Link
from manualgen.editions.sheet import (
    AnswerRoom,
    BoxPanel,
    Grid,
    MarginMark,
    QuestionItem,
    Sheet,
    SpaceKind,
)
from manualgen.editions.within import within
from manualgen.model.text import EquationSpan, Words
from manualgen.working.worked import Worked

LayOut = Callable[[str], tuple[Sheet, Key]]


@pytest.fixture
def laid_out(work_out: Callable[..., Worked]) -> LayOut:
    def lay(text: str) -> tuple[Sheet, Key]:
        worked = work_out("---\ntitle: T\n---\n\n" + text)
        return lay_out(worked.experiments[0], catalogue(worked.manual))

    return lay


def words_in(filled: object) -> str:
    return "".join(w.text for w in within(filled, Words))


METHOD = "## Method\n\n1. Look. [#look]\n\n"


def test_boxes_tables_and_equations_are_numbered_in_their_own_series(
    laid_out: LayOut,
) -> None:
    sheet, _ = laid_out(
        METHOD
        + "> **Safety:** One.\n\n> **Note:** None.\n\n> **Safety:** Two.\n\n"
        + "```equation\nH2(g) + Cl2(g) -> 2 HCl(g)\n```\n\n"
        + "| A | B |\n| --- | --- |\n| 1 | 2 |\n"
    )
    # Safety 1.1 is the box that the tool makes.
    numbers = [b.number for b in within(sheet, BoxPanel)]
    assert numbers == ["1.2", "", "1.3"]
    assert [e.number for e in within(sheet, EquationPanel)] == ["1.1"]
    assert [g.number for g in within(sheet, Grid)] == ["1.1"]


def test_what_only_the_teacher_sees_is_numbered_after_all_the_rest(
    laid_out: LayOut,
) -> None:
    table = "| A | B |\n| --- | --- |\n| 1 | 2 |\n"
    sheet, key = laid_out(
        f"## Theory\n\n{METHOD}> **Teacher:** See this.\n>\n"
        + "".join(f"> {row}\n" for row in table.splitlines())
        + f"\n{table}\n## For the teacher\n\n{table}"
    )
    assert [g.number for g in within(sheet, Grid)] == ["1.1"]
    assert key.pages is not None
    assert [g.number for g in within(key.pages, Grid)] == ["1.2", "1.3"]


def test_a_link_tells_the_number_of_what_it_leads_to(laid_out: LayOut) -> None:
    sheet, _ = laid_out("## Theory\n\nRepeat [Step](#look).\n\n" + METHOD)
    (link,) = within(sheet, Link)
    assert (link.number, link.anchor) == ("1", "look")


def test_a_students_link_to_a_teacher_box_is_plain_words(laid_out: LayOut) -> None:
    sheet, _ = laid_out(
        f"## Theory\n\nSee [this](#mine).\n\n{METHOD}> **Teacher #mine:** Secret.\n"
    )
    assert list(within(sheet, Link)) == []
    assert "this" in words_in(sheet)


def test_a_blank_is_a_gap_for_students_and_its_words_for_the_teacher(
    laid_out: LayOut,
) -> None:
    sheet, key = laid_out("## Theory\n\nIt turns [_pale green_].\n\n" + METHOD)
    (gap,) = within(sheet, Gap)
    assert "green" not in words_in(sheet)
    assert words_in(key.filled[gap.key]) == "pale green"


@pytest.mark.parametrize(
    ("words", "width"),
    [
        ("pink", GapWidth.SHORT),
        ("pale green", GapWidth.MEDIUM),
        ("a white precipitate", GapWidth.LONG),
        ("a white precipitate that dissolves in excess", GapWidth.FULL),
    ],
)
def test_a_gap_has_one_of_four_widths(words: str, width: GapWidth) -> None:
    assert gap_width(words) is width


def test_a_teacher_box_leaves_a_mark_and_stands_on_the_teacher_pages(
    laid_out: LayOut,
) -> None:
    sheet, key = laid_out(METHOD + "> **Teacher:** Weigh it beforehand.\n")
    (mark,) = within(sheet, MarginMark)
    assert key.filled[mark.key] == FilledMark("T1")
    assert key.pages is not None
    assert [(n.label, words_in(n)) for n in key.pages.notes] == [
        ("T1", "Weigh it beforehand.")
    ]


def test_an_answer_has_two_lines_a_mark_unless_the_author_says_otherwise(
    laid_out: LayOut,
) -> None:
    sheet, _ = laid_out(
        METHOD
        + "## Questions\n\n"
        + "1. One? [2]\n\n   > **Answer:** Yes.\n\n"
        + "2. Two? [2]\n\n   > **Answer (1 line):** Yes.\n\n"
        + "3. Three? [1]\n\n   > **Answer (drawing 6 cm):** A sketch.\n\n"
        + "4. Four? [1]\n\n   > **Answer (open):** Your own.\n"
    )
    rooms = [(r.kind, r.lines, r.frame_mm) for r in within(sheet, AnswerRoom)]
    assert rooms == [
        (SpaceKind.LINES, 4, 0),
        (SpaceKind.LINES, 1, 0),
        (SpaceKind.FRAME, 0, 60),
        (SpaceKind.OWN, 2, 0),
    ]


def test_an_answer_too_long_for_its_room_stands_on_the_teacher_pages(
    laid_out: LayOut,
) -> None:
    long = "So it is, for many reasons. " * 30
    sheet, key = laid_out(
        METHOD + f"## Questions\n\n1. Why? [1]\n\n   > **Answer (1 line):** {long}\n"
    )
    (room,) = within(sheet, AnswerRoom)
    filling = key.filled[room.key]
    assert isinstance(filling, FilledRoom)
    assert (filling.blocks, filling.note) == ((), "T1")
    assert key.pages is not None
    assert words_in(key.pages.notes[0]).startswith("So it is")


def test_a_question_that_is_filled_in_where_it_stands_gets_no_lines(
    laid_out: LayOut,
) -> None:
    sheet, _ = laid_out(
        METHOD
        + "## Questions\n\n1. Balance it. [1]\n\n   ```equation to-balance\n"
        + "   Mg(s) + O2(g) -> MgO(s)\n   ```\n"
    )
    (question,) = within(sheet, QuestionItem)
    assert question.room is None


def test_an_equation_to_write_is_a_gap_and_its_ionic_form_another(
    laid_out: LayOut,
) -> None:
    sheet, key = laid_out(
        "## Theory\n\n```equation answer with-ionic\n"
        + "KCl(aq) + AgNO3(aq) -> AgCl(s) + KNO3(aq)\n```\n\n"
        + METHOD
    )
    (panel,) = within(sheet, EquationPanel)
    gaps = [row.content for row in panel.rows]
    assert all(isinstance(gap, Gap) for gap in gaps)
    told = [
        str(span.equation)
        for gap in within(panel, Gap)
        for span in within(key.filled[gap.key], EquationSpan)
    ]
    assert told == [
        "KCl(aq) + AgNO3(aq) -> AgCl(s) + KNO3(aq)",
        "Ag^+(aq) + Cl^-(aq) -> AgCl(s)",
    ]


def test_readings_that_are_given_print_for_all_and_samples_for_the_teacher(
    laid_out: LayOut,
) -> None:
    sheet, key = laid_out(
        METHOD
        + "## Results\n\n```readings #t\nrows: [1, 2]\ncolumns:\n"
        + "  - {symbol: x, heading: Volume, unit: cm3, given: [5.0, 10.0]}\n"
        + "  - {symbol: y, heading: Time, unit: s, sample: [31, 62]}\n```\n"
    )
    (table,) = within(sheet, ReadingsPanel)
    assert [row[0] for row in table.cells] == ["5.0", "10.0"]
    gaps = [row[1] for row in table.cells]
    told = [words_in(key.filled[g.key]) for g in gaps if isinstance(g, Gap)]
    assert told == ["31", "62"]


def test_a_worksheet_shows_what_is_given_and_leaves_the_results_open(
    laid_out: LayOut,
) -> None:
    sheet, key = laid_out(
        METHOD
        + "```calculation\nc = 0.100 mol/dm3\nV = [_25.0 cm3_]\nn = c * V -> mol\n"
        + "n = 0.00250 mol\n```\n"
    )
    (work,) = within(sheet, Worksheet)
    assert [line.symbol for line in work.lines] == ["c", "V", "n"]
    assert not isinstance(work.lines[0].value, Gap)
    measured, computed = work.lines[1].value, work.lines[2].value
    assert isinstance(measured, Gap)
    assert isinstance(computed, Gap)
    assert isinstance(key.filled[measured.key], FilledLine)
    result = key.filled[computed.key]
    assert isinstance(result, FilledWork)
    # By hand: 0.100 mol/dm3 × 0.0250 dm3, to three figures.
    assert result.value == "0.00250\u00a0mol"


def test_students_see_of_an_unknown_only_what_they_are_shown(
    work_out: Callable[..., Worked],
) -> None:
    worked = work_out(
        "---\ntitle: T\nchemicals:\n"
        "  - {shown: white solid, sets: {groups 1-6: sodium carbonate, "
        "groups 7-12: potassium chloride}, amount: 2 g}\n"
        "  - {name: sodium hydroxide, shown: solution A, made: 0.0960 mol/dm3, "
        "amount: 50 cm3}\n---\n\n" + METHOD
    )
    sheet, key = lay_out(worked.experiments[0], catalogue(worked.manual))
    assert [row.name for row in sheet.chemicals] == ["white solid", "solution A"]
    assert key.pages is not None
    told = [(u.shown, u.groups, u.identity) for u in key.pages.unknowns]
    assert ("white solid", "1–6", "sodium carbonate") in told
    assert ("white solid", "7–12", "potassium chloride") in told


@pytest.mark.parametrize(
    ("outer", "number", "label"),
    [
        ("", 2, "2"),
        ("2", 1, "2a"),
        ("2", 26, "2z"),
        ("2a", 3, "2a.3"),
        ("2", 27, "2.27"),
    ],
)
def test_parts_of_questions_are_lettered(outer: str, number: int, label: str) -> None:
    assert question_label(outer, number) == label


def test_the_key_to_an_unknown_tells_its_strength(
    work_out: Callable[..., Worked],
) -> None:
    worked = work_out(
        "---\ntitle: T\nchemicals:\n"
        "  - {name: sodium hydroxide, shown: alkali A, made: 0.0960 mol/dm3, amount: 9 cm3}\n"
        f"---\n\n{METHOD}"
    )
    _, key = lay_out(worked.experiments[0], catalogue(worked.manual))
    assert key.pages is not None
    assert [u.identity for u in key.pages.unknowns] == [
        "sodium hydroxide, 0.0960\u00a0mol\u00a0dm⁻³"
    ]


@pytest.mark.parametrize(
    ("given", "uncertain", "half_widths"),
    [
        ("V = 25.00 ± 0.06 cm3", True, True),
        ("V = 25.00 ± 0.06 (k=1) cm3", True, False),
        ("V = 25.00 cm3", False, False),
        ("V = [_25.00 ± 0.06 cm3_]", True, True),
    ],
)
def test_a_worksheet_says_what_its_plus_or_minus_means(
    laid_out: LayOut, given: str, uncertain: bool, half_widths: bool
) -> None:
    """A half-width beside a value, u (k = 1) beside a result: JCGM 100:2008, 4.3.7."""
    sheet, _ = laid_out(
        f"{METHOD}## Calculation\n\n```calculation\n{given}\nW = V * 2 -> cm3\n```\n"
    )
    worksheet = next(within(sheet, Worksheet))
    assert (worksheet.uncertain, worksheet.half_widths) == (uncertain, half_widths)


def test_what_harms_water_life_alone_is_not_called_unclassified(
    work_out: Callable[..., Worked],
) -> None:
    # CLP Annex VI, 047-001-00-2 with M = 1000: 0.050 mol/dm3 silver nitrate (0.85 %)
    # is below 1 % for skin and eyes and H410 all the same.
    worked = work_out(
        "---\ntitle: T\nchemicals:\n  - silver nitrate, 0.050 mol/dm3, 5 cm3\n"
        "  - sodium chloride, 0.10 mol/dm3, 5 cm3\n---\n\n" + METHOD
    )
    sheet, _ = lay_out(worked.experiments[0], catalogue(worked.manual))
    assert [n.split()[0] for n in sheet.hazards.environment] == ["silver"]
    assert [n.split()[0] for n in sheet.hazards.unclassified] == ["sodium"]


def test_there_are_no_teacher_pages_where_nothing_stands_on_them(
    laid_out: LayOut,
) -> None:
    assert laid_out(METHOD)[1].pages is None
    assert laid_out(METHOD + "## For the teacher\n\nAllow a lesson.\n")[1].pages
