"""Sections, steps, lists, boxes, tables and pictures."""

from __future__ import annotations

import pytest

from manualgen.model.blocks import (
    Align,
    Box,
    BoxKind,
    Figure,
    ListBlock,
    Paragraph,
    PartHeading,
    PartKind,
    PipeTable,
    Step,
    Subheading,
)
from manualgen.model.experiment import SectionKind
from manualgen.model.text import FormulaSpan
from manualgen.model.walk import plain, walk
from manualgen.quantities import parse_quantity

from .shelf import Page, read, read_body, read_method, shown, where


def words(block: object) -> str:
    assert isinstance(block, Paragraph)
    return plain(block.content)


def steps(page: Page) -> list[Step]:
    return [b for b in walk(page.experiment.blocks()) if isinstance(b, Step)]


@pytest.mark.parametrize(
    ("heading", "kind"),
    [
        ("## Aim", SectionKind.AIM),
        ("## theory", SectionKind.THEORY),
        ("## Observations", SectionKind.OBSERVATIONS),
        ("## Results", SectionKind.OBSERVATIONS),
        ("## Calculation", SectionKind.CALCULATION),
        ("## Conclusion ##", SectionKind.CONCLUSION),
        ("## Disposal", SectionKind.DISPOSAL),
        ("## For the teacher", SectionKind.TEACHER),
        ("## Teacher notes", SectionKind.TEACHER),
        ("## For the preparation room", SectionKind.TECHNICIAN),
        ("## Technician notes", SectionKind.TECHNICIAN),
        ("## What the teacher shows", SectionKind.OTHER),
        ("Aim\n---", SectionKind.AIM),
    ],
)
def test_headings_name_sections(heading: str, kind: SectionKind) -> None:
    page = read(f"---\ntitle: S\n---\n\n{heading}\n\nText.\n\n## Method\n\n1. Go.\n")
    section = page.experiment.sections[0]
    assert section.kind is kind
    assert words(section.blocks[0]) == "Text."
    assert not page.faults


def test_a_section_knows_its_heading_as_it_was_written() -> None:
    page = read("---\ntitle: S\n---\n\n## Testing for `Cl^-`\n\n## Method\n\n1. Go.\n")
    section = page.experiment.sections[0]
    assert section.heading == "Testing for Cl^-"
    assert isinstance(section.content[1], FormulaSpan)
    assert shown(section.place, page.text) == "Testing for `Cl^-`"


@pytest.mark.parametrize(
    ("body", "at"),
    [
        ("## It is [_blue_]\n\n## Method\n\n1. Go.", "[_blue_]"),
        ("## Method\n\n### Station A: is it [_blue_] (10 min)\n\n1. Go.", "[_blue_]"),
        ("## Aim\n\n![the [_blue_] one](f.png)\n\n## Method\n\n1. Go.", "!["),
    ],
)
def test_no_blank_stands_where_its_words_would_show(body: str, at: str) -> None:
    page = read(f"---\ntitle: S\n---\n\n{body}\n", {"acids/f.png": b""})
    assert [(c, w) for c, w, _ in page.faults] == [("source-syntax", page.at(at))]
    assert all("blue" not in str(h) for h in descriptions(page))


def descriptions(page: Page) -> list[str]:
    figures = [b for b in page.experiment.blocks() if isinstance(b, Figure)]
    return [figure.picture.description for figure in figures]


def test_text_before_the_first_heading_is_kept() -> None:
    page = read("---\ntitle: S\n---\n\nWelcome.\n\n## Method\n\n1. Go.\n")
    assert words(page.experiment.sections[0].blocks[0]) == "Welcome."


@pytest.mark.parametrize(
    ("heading", "mend"),
    [
        ("For teachers", "## For the teacher"),
        ("Teacher's notes", "## For the teacher"),
        ("For the teachers", "## For the teacher"),
        ("Teachr notes", "## For the teacher"),
        ("For the technician", "## For the preparation room"),
        ("For the prep room", "## For the preparation room"),
    ],
)
def test_a_heading_that_would_show_students_the_teachers_notes_is_a_finding(
    heading: str, mend: str
) -> None:
    page = read(f"---\ntitle: S\n---\n\n## {heading}\n\n## Method\n\n1. Go.\n")
    assert page.faults == [("source-syntax", page.at(heading), mend)]


def test_steps_are_numbered_and_named() -> None:
    page = read_method("1. Weigh `2.5 g`.\n2. Heat it. [#heat]\n3. Cool it.")
    assert [(s.number, s.name) for s in steps(page)] == [
        (1, None),
        (2, "heat"),
        (3, None),
    ]
    second = steps(page)[1]
    assert words(second.blocks[0]) == "Heat it."
    assert where(second.place) == page.at("2. Heat")
    assert not page.faults


def test_a_list_that_blocks_interrupt_goes_on() -> None:
    page = read_method(
        "1. One.\n\n> **Note:** between.\n\n2. Two.\n\n"
        "| a |\n| - |\n| b |\n\n3. Three.\n\n```setup\nbeaker, 100 cm3\n```\n\n4. Four."
    )
    assert [s.number for s in steps(page)] == [1, 2, 3, 4]
    assert not page.faults


@pytest.mark.parametrize(
    ("body", "at"),
    [
        ("1. One.\n\nText.\n\n1. Two.", "1. Two"),
        ("1. One.\n2. Two.\n4. Four.\n5. Five.", "4. Four"),
        ("2. Two.\n3. Three.", "2. Two"),
        ("1. One.\n1. Two.\n1. Three.", "1. Two"),
        (
            "\n".join(f"{n}. Step." for n in range(1, 11))
            + "\n   1. Part.\n   2. Part.",
            "1. Part",
        ),
        ("1. One.\n   1. Inner.\n   3. Inner.", "3. Inner"),
        ("1. One.\n\n### Rinsing\n\n1. Two.", "1. Two"),
    ],
)
def test_broken_numbering_is_found_once_where_it_breaks(body: str, at: str) -> None:
    page = read_method(body)
    assert [(c, w) for c, w, _ in page.faults] == [("source-syntax", page.at(at))]


@pytest.mark.parametrize("second", ["1. Begin again.\n2. On.", "3. Go on.\n4. On."])
def test_lessons_part_the_method_and_steps_are_numbered_through(second: str) -> None:
    page = read_method(
        f"1. One.\n2. Two.\n\n### Lesson 2 (40 min, after 1 week)\n\n{second}"
    )
    assert [s.number for s in steps(page)] == [1, 2, 3, 4]
    (heading,) = (b for b in page.experiment.blocks() if isinstance(b, PartHeading))
    assert (heading.kind, heading.label) == (PartKind.LESSON, "2")
    assert heading.time == parse_quantity("40 min")
    assert heading.after == parse_quantity("1 week")
    assert not page.faults


def test_a_station_may_have_a_title() -> None:
    page = read_method("### Station A: Flame tests (10 min)\n\n1. Go.")
    heading = page.experiment.blocks()[0]
    assert isinstance(heading, PartHeading)
    assert (heading.kind, heading.label) == (PartKind.STATION, "A")
    assert heading.title == "Flame tests"
    assert (heading.time, heading.after) == (parse_quantity("10 min"), None)


def test_a_lessons_time_is_a_time() -> None:
    page = read_method("### Lesson 2 (40 g)\n\n1. Go.")
    assert page.faults == [("unit-dimension", page.at("40 g"), None)]


def test_other_subheadings_are_only_headings() -> None:
    page = read_method("### Rinsing\n\n1. Go.")
    heading = page.experiment.blocks()[0]
    assert isinstance(heading, Subheading)
    assert (heading.level, plain(heading.content)) == (3, "Rinsing")


def test_a_list_inside_a_step_is_a_list() -> None:
    page = read_method("1. Collect\n   - a beaker\n   - a rod\n2. Go.")
    first = steps(page)[0]
    listed = first.blocks[1]
    assert isinstance(listed, ListBlock)
    assert [words(item[0]) for item in listed.items] == ["a beaker", "a rod"]
    assert not listed.ordered


@pytest.mark.parametrize("kind", list(BoxKind))
def test_each_label_makes_its_box(kind: BoxKind) -> None:
    page = read_body(f"> **{kind.value}:** Some words.\n> More.\n>\n> - and a list")
    box = page.block
    assert isinstance(box, Box)
    assert (box.kind, box.name) == (kind, None)
    assert words(box.blocks[0]) == "Some words. More."
    assert isinstance(box.blocks[1], ListBlock)
    assert not page.faults


def test_a_label_may_name_its_box() -> None:
    page = read_body("> **Safety #hot-flask:** It stays hot.")
    box = page.block
    assert isinstance(box, Box)
    assert (box.kind, box.name) == (BoxKind.SAFETY, "hot-flask")
    assert words(box.blocks[0]) == "It stays hot."
    assert shown(box.blocks[0].place, page.text) == "It stays hot."


@pytest.mark.parametrize("label", ["**Note**: x", "__Note:__ x", "**Note:**\n> x"])
def test_the_colon_stands_in_bold_or_behind_it(label: str) -> None:
    page = read_body(f"> {label}")
    box = page.block
    assert isinstance(box, Box)
    assert box.kind is BoxKind.NOTE
    assert words(box.blocks[0]) == "x"
    assert not page.faults


def test_a_box_stands_inside_its_step() -> None:
    page = read_method("1. Heat it.\n\n   > **Safety:** Hot.\n\n2. Cool it.")
    first = steps(page)[0]
    box = first.blocks[1]
    assert isinstance(box, Box)
    assert where(box.place) == page.at("> **Safety")


@pytest.mark.parametrize(
    ("body", "at", "mend"),
    [
        ("> **Saftey:** Hot.", "Saftey", "Safety"),
        ("> **Warning:** Hot.", "Warning", None),
        ("> Teacher: hidden", "Teacher", "**Note:**"),
        ("> words", "words", "**Note:**"),
        ("> **Note (3 lines):** x", "**Note", None),
        ("> **bold** but no colon", "**bold", "**Note:**"),
        ("> **Safety #a.b:** x", "**Safety", None),
        ("> ```setup\n> beaker\n> ```", "> ```", "**Note:**"),
        ("> **Note #two words:** x", "**Note", None),
    ],
)
def test_a_box_whose_label_cannot_be_read_is_never_the_students(
    body: str, at: str, mend: str | None
) -> None:
    page = read_body(body)
    ((check, place, advice),) = page.faults
    assert (check, place) == ("source-syntax", page.at(at))
    assert mend is None or advice == mend
    box = page.block
    assert isinstance(box, Box)
    assert box.kind in (BoxKind.TEACHER, BoxKind.SAFETY, BoxKind.NOTE)


@pytest.mark.parametrize(
    ("body", "at"),
    [
        ("> **Note:** one\n> **Teacher:** two", "**Teacher"),
        ("> **Note:** one\n>\n> **Teacher:** two", "**Teacher"),
        ("> **Note:** one, and **Answer (3 lines):** two", "**Answer"),
        ("> **Note:** one\n> - **Technician:** two", "**Technician"),
        ("> **Note:** one\n>\n> > **Teacher:** two", "> **Teacher"),
        ("**Teacher:** forgotten", "**Teacher"),
        ("- **Answer:** forgotten", "**Answer"),
        ("> **Note:** one\nlazy", "lazy"),
        ("> **Teacher:** one\n> two\nlazy **bold**", "lazy"),
        ("> **Note:** one\n> - item\nlazy", "lazy"),
        ("- item\n  > **Note:** one\n  lazy", "lazy"),
        ("> **Answer:** nowhere", "> **Answer"),
    ],
)
def test_no_text_slips_from_one_box_into_another(body: str, at: str) -> None:
    page = read_body(body)
    assert [(c, w) for c, w, _ in page.faults] == [("source-syntax", page.at(at))]


def test_two_boxes_with_an_empty_line_between_are_two() -> None:
    page = read_body("> **Note:** one\n\n> **Teacher:** two")
    assert [b.kind for b in page.blocks if isinstance(b, Box)] == [
        BoxKind.NOTE,
        BoxKind.TEACHER,
    ]
    assert not page.faults


def test_bold_words_that_are_no_label_are_bold_words() -> None:
    body = "**Careful:** do it slowly.\n\n> **Note:** the **safe** way: slowly."
    assert not read_body(body).faults


def test_a_pipe_table_has_cells_alignment_and_blanks() -> None:
    page = read_body("| a | b | c |\n| :-- | :-: | --: |\n| `NaCl` | [_x_] | 3 |")
    table = page.block
    assert isinstance(table, PipeTable)
    assert table.align == (Align.LEFT, Align.CENTRE, Align.RIGHT)
    assert [plain(c.content) for c in table.rows[0]] == ["NaCl", "x", "3"]
    assert [shown(c.place, page.text) for c in table.rows[0]] == [
        "`NaCl`",
        "[_x_]",
        "3",
    ]
    assert table.name is None


@pytest.mark.parametrize("gap", ["\n", "\n\n"])
def test_the_named_line_under_a_table_is_its_caption(gap: str) -> None:
    page = read_body(f"| a | b |\n| - | - |\n| 1 | 2 |{gap}What was seen [#seen]")
    table = page.block
    assert isinstance(table, PipeTable)
    assert (plain(table.caption), table.name) == ("What was seen", "seen")
    assert len(table.rows) == 1
    assert not page.faults


def test_a_caption_may_take_two_lines_and_name_the_table_in_the_second() -> None:
    page = read_body("| a | b |\n| - | - |\n| 1 | 2 |\nWhat was\nseen [#seen]")
    table = page.block
    assert isinstance(table, PipeTable)
    assert (plain(table.caption), table.name) == ("What was seen", "seen")


def test_a_name_alone_may_stand_under_a_caption() -> None:
    page = read_body("| a | b |\n| - | - |\n| 1 | 2 |\nWhat was seen\n[#seen]")
    table = page.block
    assert isinstance(table, PipeTable)
    assert (plain(table.caption).strip(), table.name) == ("What was seen", "seen")


def test_a_table_of_one_column_may_leave_its_pipes_out() -> None:
    page = read_body("| a |\n| - |\nplain\n| b |\nCaption [#x]")
    table = page.block
    assert isinstance(table, PipeTable)
    assert [plain(row[0].content) for row in table.rows] == ["plain", "b"]
    assert table.name == "x"


def test_cells_that_are_left_out_are_empty() -> None:
    page = read_body("| a | b |\n| - | - |\n| 1 |")
    table = page.block
    assert isinstance(table, PipeTable)
    assert [c.content for c in table.rows[0]][1] == ()


def test_a_table_is_not_named_in_a_cell() -> None:
    page = read_body("| a | b |\n| - | - |\n| 1 | 2 [#x] |")
    assert [(c, w) for c, w, _ in page.faults] == [("source-syntax", page.at("[#x]"))]


def test_an_unnamed_paragraph_after_a_table_is_a_paragraph() -> None:
    page = read_body("| a | b |\n| - | - |\n| 1 | 2 |\n\nText.")
    assert [type(b) for b in page.blocks] == [PipeTable, Paragraph]


def test_a_cell_too_many_is_found_before_it_is_lost() -> None:
    page = read_body("| a | b |\n| - | - |\n| 1 | 2 | three |")
    assert [(c, w) for c, w, _ in page.faults] == [("source-syntax", page.at("three"))]


@pytest.mark.parametrize(
    ("body", "caption", "name"),
    [
        ("![flask](f.png)", "", None),
        ("![flask](f.png)\nThe flask", "The flask", None),
        ("![flask](f.png)\nThe flask [#flask]", "The flask", "flask"),
        ("![flask](f.png)\n\nThe flask [#flask]", "The flask", "flask"),
        ("![flask](f.png) [#flask]", "", "flask"),
    ],
)
def test_a_picture_that_stands_alone_is_a_figure(
    body: str, caption: str, name: str | None
) -> None:
    page = read_body(body, {"acids/f.png": b""})
    figure = page.block
    assert isinstance(figure, Figure)
    assert figure.picture.file == "acids/f.png"
    assert (plain(figure.caption), figure.name) == (caption, name)
    assert not page.faults


def test_the_line_under_a_table_in_a_step_names_the_table_and_not_the_step() -> None:
    page = read_method(
        "1. Fill it in.\n\n   | a |\n   | - |\n   | 1 |\n\n   Caption [#table]\n\n"
        "2. Go. [#go]"
    )
    first, second = steps(page)
    table = first.blocks[1]
    assert isinstance(table, PipeTable)
    assert (first.name, table.name, second.name) == (None, "table", "go")


@pytest.mark.parametrize(
    ("body", "at"),
    [
        ("Text.\n\n    indented", "indented"),
        ("- a\n\n      indented", "indented"),
    ],
)
def test_indented_text_is_not_taken_for_code_in_silence(body: str, at: str) -> None:
    page = read_body(body)
    assert [(c, w) for c, w, _ in page.faults] == [("source-syntax", page.at(at))]


def test_lists_nested_beyond_measure_are_found_and_not_lost_in_silence() -> None:
    page = read_body("".join(f"{'  ' * n}- level {n}\n" for n in range(30)))
    assert [c for c, _, _ in page.faults] == ["source-syntax"]


@pytest.mark.parametrize(
    ("body", "at"),
    [
        ("1. One [#a]\n\n   more [#b]", "[#b]"),
        ("1. One [#a] [#b]", "[#b]"),
        ("1. One [#a b]", "[#a b]"),
        ("1. One\n   > **Answer:** x", "> **Answer"),
        ("- an item [#a]\n\n1. One", "[#a]"),
    ],
)
def test_names_and_answers_in_steps_are_held_to_the_rules(body: str, at: str) -> None:
    page = read_method(body)
    assert [(c, w) for c, w, _ in page.faults] == [("source-syntax", page.at(at))]


def test_a_second_method_is_a_finding() -> None:
    page = read_method("1. One.\n\n## Method\n\n1. Two.")
    assert [c for c, _, _ in page.faults] == ["source-syntax"]


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("---\ntime: 5 min\n---\n\n## Method\n\n1. Go.\n", "1:1"),
        ("---\ntitle:\n---\n\n## Method\n\n1. Go.\n", "1:1"),
        ("---\n---\n\n## Method\n\n1. Go.\n", "1:1"),
        ("## Method\n\n1. Go.\n", "1:1"),
        ("---\ntitle: S\n---\n\n## Theory\n\nText.\n", "2:8"),
        ("---\ntitle: S\n---\n\n## Methd\n\n1. Go.\n", "5:4"),
        ("---\ntitle: S\n---\n\n## Method\n\nNo steps.\n", "5:4"),
        ("---\ntitle: S\n---\n\n## Method\n\n- bullets\n", "5:4"),
    ],
)
def test_an_experiment_has_a_title_and_a_method_with_steps(text: str, at: str) -> None:
    assert [(c, w) for c, w, _ in read(text).faults] == [("missing-section", at)]


@pytest.mark.parametrize(
    "body",
    [
        "1. One [#a]\n2. Two [#a]",
        "1. One [#a]\n\n   > **Safety #a:** x",
        "1. One [#a]\n\n```equation #a\n2 H2 + O2 -> 2 H2O\n```",
    ],
)
def test_a_name_is_given_once_whatever_carries_it(body: str) -> None:
    assert [c for c, _, _ in read_method(body).faults] == ["duplicate-id"]
