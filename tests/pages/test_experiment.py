"""The page of an experiment: the same for everyone but for what stands in the gaps."""

from __future__ import annotations

import dataclasses
import itertools
import re

import pytest

from manualgen.drawing.room import Fit
from manualgen.editions.key import (
    NO_KEY,
    FilledLine,
    FilledMark,
    FilledRoom,
    FilledWork,
    Key,
)
from manualgen.editions.line import Gap, GapWidth
from manualgen.editions.sheet import HazardPanel, Sheet, SheetSection, Text
from manualgen.editions.within import within
from manualgen.model.manual import Paper, Settings
from manualgen.model.text import Words
from manualgen.pages.context import PageContext, context_for
from manualgen.pages.experiment import render_experiment
from tests.pages.reading_html import Reader, read
from tests.pages.sample import CONTEXT, KEY, SHEET
from tests.pages.sample_text import HERE, line

STUDENT = render_experiment(SHEET, NO_KEY, CONTEXT)
TEACHER = render_experiment(SHEET, KEY, CONTEXT)


def answers() -> set[str]:
    """Words that stand in the key and nowhere in the sheet."""
    in_key = {w.text for f in KEY.filled.values() for w in within(f, Words)}
    in_key |= {w.text for w in within(KEY.pages, Words)}
    in_sheet = " ".join(w.text for w in within(SHEET, Words))
    return {
        text
        for text in in_key
        if len(text) > 3 and not text[0].isdigit() and text not in in_sheet
    }


@pytest.mark.parametrize("page", [STUDENT, TEACHER], ids=["student", "teacher"])
def test_every_element_is_closed_where_it_was_opened(page: str) -> None:
    assert read(page).faults == []


@pytest.mark.parametrize("page", [STUDENT, TEACHER], ids=["student", "teacher"])
def test_no_anchor_stands_twice(page: str) -> None:
    assert [i for i, count in read(page).ids.items() if count > 1] == []


@pytest.mark.parametrize("page", [STUDENT, TEACHER], ids=["student", "teacher"])
def test_every_link_within_the_page_leads_to_an_anchor(page: str) -> None:
    found = read(page)
    inner = {link[1:] for link in found.links if link.startswith("#")}
    assert inner <= set(found.ids)


def test_no_answer_stands_in_the_students_page() -> None:
    words = answers()
    assert len(words) > 10
    assert [
        w for w in words if w in STUDENT or w in " ".join(read(STUDENT).words)
    ] == []


def test_every_answer_stands_in_the_teachers_page() -> None:
    shown = re.sub(r"\s+", " ", "".join(read(TEACHER).words)).replace("−", "⁻")
    assert [w for w in answers() if w.isascii() and w not in shown] == []


def test_both_editions_are_built_of_the_same_places_to_write_in() -> None:
    student, teacher = read(STUDENT).classes, read(TEACHER).classes
    for name in ("gap", "room", "rule", "aside", "result", "working", "step"):
        assert student[name] == teacher[name] > 0, name


def test_a_gap_is_as_wide_whatever_stands_in_it() -> None:
    widths = re.compile(r'class="gap (short|medium|long|full|coefficient)"')
    without_notes = TEACHER.partition('<section class="teacher-pages"')[0]
    assert widths.findall(STUDENT) == widths.findall(without_notes)


def test_every_step_and_question_can_be_linked_to() -> None:
    links = set(read(STUDENT).links)
    assert {"#step.1", "#rinse", "#step.3", "#question.1", "#question.2a"} <= links


def test_headings_go_down_one_level_at_a_time() -> None:
    for page in (STUDENT, TEACHER):
        levels = read(page).headings
        assert levels[0] == 1
        steps = itertools.pairwise(levels)
        assert all(after - before <= 1 for before, after in steps)


def test_the_page_loads_nothing_but_its_own_assets() -> None:
    assert all(src.startswith("assets/") for src in read(TEACHER).loaded)


def test_the_page_says_in_what_order_the_experiments_come() -> None:
    links = read(STUDENT).links
    assert links.count("standard-alkali.html") == 3
    assert links.count("peroxide.html") == 2


def test_an_experiments_own_words_are_never_markup() -> None:
    nasty = "<script>alert(1)</script> & \"'><img src=x onerror=y>"
    section = SheetSection(nasty, "section.x", (Text(line(nasty)),))
    sheet = dataclasses.replace(
        SHEET, title=nasty, techniques=(nasty,), sections=(section,)
    )
    context = dataclasses.replace(CONTEXT, manual=nasty, institution=nasty)
    page = render_experiment(sheet, NO_KEY, context)
    assert "<script" not in page
    assert "<img src=x" not in page
    assert read(page).faults == []


def test_a_title_cannot_end_the_style_sheet_it_is_printed_from() -> None:
    sheet = dataclasses.replace(SHEET, title="</style><b>x")
    page = render_experiment(sheet, NO_KEY, CONTEXT)
    assert page.count("</style>") == 1


def test_the_paper_is_the_manuals() -> None:
    context = dataclasses.replace(CONTEXT, paper=Paper.LETTER)
    assert "size: Letter;" in render_experiment(SHEET, NO_KEY, context)
    assert "size: A4;" in STUDENT


def test_the_notice_stands_on_every_experiments_page() -> None:
    assert "does not take the place of a risk assessment" in STUDENT


def bare(sheet: Sheet) -> Sheet:
    return dataclasses.replace(
        sheet, time=None, group=None, techniques=(), chemicals=(), apparatus=()
    )


def test_a_sheet_without_lists_time_or_neighbours_still_makes_a_page() -> None:
    page = render_experiment(bare(SHEET), NO_KEY, PageContext("M", "Student edition"))
    assert read(page).faults == []


def test_an_answer_is_set_as_closely_as_the_key_says() -> None:
    room = next(k for k, f in KEY.filled.items() if isinstance(f, FilledRoom))
    close = Key({room: FilledRoom((Text(line("Yes.")),), Fit.CLOSE)})
    assert "filled close" in render_experiment(SHEET, close, CONTEXT)


def test_a_room_that_is_too_small_points_at_the_teacher_pages() -> None:
    room = next(k for k, f in KEY.filled.items() if isinstance(f, FilledRoom))
    elsewhere = Key({room: FilledRoom((), note="T7")})
    assert 'href="#note.T7"' in render_experiment(SHEET, elsewhere, CONTEXT)


def test_a_worksheet_shows_its_working_to_the_teacher_alone() -> None:
    worked = [f for f in KEY.filled.values() if isinstance(f, FilledWork)]
    assert len(worked) == 2
    assert "<math" in TEACHER
    assert "<math" not in STUDENT


def test_the_teachers_notes_are_marked_where_they_belong() -> None:
    marks = [f.label for f in KEY.filled.values() if isinstance(f, FilledMark)]
    assert marks == ["T1", "T2"]
    assert all(f'href="#note.{label}"' in TEACHER for label in marks)


@pytest.mark.parametrize(
    ("word", "name"),
    [
        ("pink", "roomy"),
        ("paler pink", "tight"),
        ("very pale pink", "tightest"),
        ("a very pale pink that fades away again", "doubled"),
    ],
)
def test_words_too_long_for_their_gap_are_set_smaller(word: str, name: str) -> None:
    gap = next(g for g in within(SHEET, Gap) if g.width is GapWidth.SHORT)
    filled = Key({gap.key: FilledLine((Words(word, HERE),))})
    assert f'<span class="{name}">{word}' in render_experiment(SHEET, filled, CONTEXT)


def stops_after(width: GapWidth) -> bool:
    """Whether a full stop is kept on the line of a gap of this width."""
    content = (Words("It is ", HERE), Gap(901, width), Words(". Why?", HERE))
    section = SheetSection("Theory", "section.theory", (Text(content),))
    sheet = dataclasses.replace(SHEET, sections=(section,))
    page = render_experiment(sheet, NO_KEY, CONTEXT)
    assert "Why?" in page
    assert "." in "".join(read(page).words).partition("It is")[2].partition("Why")[0]
    return read(page).classes["kept"] == 1


def test_a_full_stop_stays_with_the_gap_before_it() -> None:
    assert stops_after(GapWidth.SHORT)
    # Beside a gap as wide as the column there is no room for it.
    assert not stops_after(GapWidth.FULL)


def said_of_hazards(hazards: HazardPanel) -> str:
    sheet = dataclasses.replace(SHEET, hazards=hazards)
    return "".join(read(render_experiment(sheet, NO_KEY, CONTEXT)).words)


def test_what_is_not_classified_is_told_once() -> None:
    nothing = HazardPanel("4.1", (), (), (), ("Epsom salts",))
    found = said_of_hazards(nothing)
    assert "Nothing that is used or made is classified" in found
    assert "None of the chemicals listed" not in found
    assert "Not classified at this strength" not in found


def test_what_harms_the_environment_alone_is_not_told_as_nothing() -> None:
    silver = HazardPanel("4.1", (), (), (), ("water",), ("silver nitrate",))
    found = said_of_hazards(silver)
    assert "Nothing that is used or made" not in found
    assert "Harms water life" in found


def test_reader_finds_what_is_wrong_with_a_page() -> None:
    found: Reader = read('<p id="a"><b></p><i id="a">')
    assert found.faults
    assert found.ids["a"] == 2


def test_what_the_manual_and_the_sheet_are_called_has_a_printers_apostrophes() -> None:
    """Common practice of British and American printers, no source."""
    settings = Settings(title="A's", institution="B's")
    sheet = dataclasses.replace(SHEET, title="C's", techniques=("D's",))
    page = render_experiment(sheet, NO_KEY, context_for(settings, "student"))
    told = "".join(read(page).words)
    for name in "ACD":
        assert f"{name}’s" in told
        assert f"{name}'s" not in told
    # in the running heads and feet, as a style sheet writes characters
    for name in "ABC":
        assert f"{name}\\2019 s" in page
        assert f"{name}\\27 s" not in page
