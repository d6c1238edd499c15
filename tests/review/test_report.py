"""The report of changes as one page: what it loads, says, marks and links."""

from __future__ import annotations

import base64
import datetime
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from manualgen.build.rendered import rendered
from manualgen.build.stages import work_source
from manualgen.reports.compared_pages import Versions
from manualgen.reports.comparison_html import comparison_as_html
from manualgen.reports.html_tree import main_of
from manualgen.reports.page_marks import DIFFERS, marked
from manualgen.review.compare import Version, compare
from manualgen.sources import Folder
from tests.pages.reading_html import Reader

COLLEGE = Path(__file__).parent / "college"
PIXEL = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=="
)
"""A picture of one pixel."""

Edit = tuple[str, str, str]
Report = Callable[..., str]


@pytest.fixture
def report(tmp_path: Path) -> Report:
    """The report of what edits do to the college's manual."""

    def made(*edits: Edit, before: tuple[Edit, ...] = ()) -> str:
        folders = tmp_path / "old", tmp_path / "new"
        for folder, done in zip(folders, (before, (*before, *edits)), strict=True):
            shutil.copytree(COLLEGE, folder)
            (folder / "images").mkdir()
            (folder / "images" / "dot.png").write_bytes(PIXEL)
            for file, old, new in done:
                text = (folder / file).read_text(encoding="utf-8")
                assert old in text
                path = folder / file
                path.write_text(text.replace(old, new), encoding="utf-8")
        sources = tuple(Folder(folder, "content") for folder in folders)
        a, b = _version(sources[0], "A"), _version(sources[1], "B")
        pictures = sources[0].read, sources[1].read
        return comparison_as_html(compare(a, b), Versions(a, b, pictures))

    return made


def _version(source: Folder, name: str) -> Version:
    worked = work_source(source, None, datetime.date(2026, 9, 1))
    return Version(name, worked, rendered(worked, source))


STRONGER = ("marble.md", "acid, 0.50 mol/dm3", "acid, 1.0 mol/dm3")
SHOWN = ("soda.md", "turns [_orange_]", "turns orange")


def read(html: str) -> Reader:
    reader = Reader()
    reader.feed(html)
    reader.close()
    return reader


def test_the_report_loads_nothing_and_runs_nothing(report: Report) -> None:
    html = report(STRONGER, SHOWN)
    reader = read(html)
    assert reader.faults == []
    assert reader.loaded == []
    assert "<script" not in html
    assert re.findall(r"url\(|@import", html) == []
    assert "default-src 'none'" in html


def test_every_id_is_one_of_its_kind_and_every_link_leads_to_one(
    report: Report,
) -> None:
    reader = read(report(STRONGER, SHOWN))
    assert {i for i, count in reader.ids.items() if count > 1} == set()
    assert reader.links
    inside = [link for link in reader.links if link]
    assert {
        a for a in inside if not a.startswith("#") or a[1:] not in reader.ids
    } == set()


def test_what_must_not_be_overlooked_stands_first(report: Report) -> None:
    html = report(STRONGER, SHOWN)
    first = html[html.index("Look at these first") : html.index(">Experiments</h2>")]
    assert "students can now read what only the teacher could: “orange”" in first
    assert "the gas syringe takes 100 cm3" in first


def test_an_answer_that_students_can_read_is_quoted_without_its_marks(
    report: Report,
) -> None:
    words = "Water left in it would dilute the solution{}, and too little carbonate would be delivered{}."
    assert words.format(" [1]", " [1]") in (COLLEGE / "soda.md").read_text("utf-8")
    leaked = f"Mind this. {words.format('', '')}\n\n## Method"
    html = report(("soda.md", "## Method", leaked))
    quoted = f"what only the teacher could: “{words.format('', '')}”"
    assert quoted in html


def test_what_students_pages_do_not_show_is_told_as_that(report: Report) -> None:
    reviewed = "time: 30 min\nreviewed: {by: A. Reader, date: 2026-08-01}"
    html = report(("salts.md", "time: 30 min", reviewed))
    assert "A. Reader" in html
    assert "students’ pages read as before" in html


def test_changed_words_are_marked_as_gone_and_new(report: Report) -> None:
    html = report(("marble.md", "pour it in and stopper", "pour it in and close"))
    assert "<del>stopper</del> <ins>close</ins>" in " ".join(html.split())


def test_a_step_is_linked_with_its_place_on_both_pages(report: Report) -> None:
    html = report(("marble.md", "pour it in and stopper", "pour it in and close"))
    assert 'href="#before.marble.step.2"' in html
    assert 'href="#after.marble.step.2"' in html
    assert 'id="after.marble.step.2"' in html


def test_a_text_is_linked_with_the_heading_that_it_stands_under(report: Report) -> None:
    html = report(("marble.md", "The marble is in excess", "Marble is in excess"))
    assert 'href="#after.marble.section.theory"' in html


def test_only_the_pages_that_print_otherwise_are_in_it(report: Report) -> None:
    reader = read(report(STRONGER))
    pages = {i.split(".")[1] for i in reader.ids if i.startswith(("before.", "after."))}
    assert pages == {"marble"}


def test_an_experiment_that_the_manual_lists_no_more_has_its_old_page_alone(
    report: Report,
) -> None:
    ids = read(report(("manual.yaml", "[soda, salts]", "[salts]"))).ids
    assert "before.soda.top" in ids
    assert "after.soda.top" not in ids


def test_pictures_travel_with_the_report_and_a_lost_one_is_named(
    report: Report,
) -> None:
    picture = "![A burette](images/dot.png)"
    lost = "![A lost <flask>](images/none.png)"
    html = report(
        ("inks.md", "## Method", f"## Theory\n\n{picture}\n\n{lost}\n\n## Method")
    )
    data = base64.b64encode(PIXEL).decode()
    assert f'src="data:image/png;base64,{data}"' in html
    assert "A lost &lt;flask&gt;" in html
    assert read(html).loaded == [f"data:image/png;base64,{data}"]


def test_what_an_author_writes_is_never_markup_of_the_report(report: Report) -> None:
    html = report(
        ("marble.md", "Less and less acid is left.", "If a `x` <b>bold</b> & more."),
        ("marble.md", "title: Marble chips in acid", "title: '<i>Marble</i> & acid'"),
    )
    assert "<b>bold" not in html
    assert "<i>Marble" not in html
    assert "&lt;i&gt;Marble&lt;/i&gt; &amp; acid" in html


def test_a_manual_that_did_not_change_says_so(report: Report) -> None:
    assert "Nothing that the manual says has changed." in report()


def test_pages_of_experiments_that_say_the_same_are_shown_where_they_print_otherwise(
    report: Report,
) -> None:
    html = report(("manual.yaml", "class:", "house_style: {units: solidus}\nclass:"))
    assert 'id="after.soda.top"' in html
    assert "printed otherwise" in html


def test_the_differing_part_is_marked_as_far_inside_as_a_paragraph() -> None:
    before = main_of(
        '<main><div class="step"><p>One</p><p>Two</p></div><p>Three</p></main>'
    )
    after = main_of(
        '<main><div class="step"><p>One</p><p>Other</p></div><p>Three</p></main>'
    )
    old, new = marked(before, after)
    assert str(old) == (
        f'<main><div class="step"><p>One</p><p class="{DIFFERS}">Two</p></div>'
        "<p>Three</p></main>"
    )
    assert f'<p class="{DIFFERS}">Other</p>' in str(new)


def test_what_is_new_or_gone_is_marked_on_its_own_side() -> None:
    before = main_of("<main><ul><li>a</li><li>b</li></ul></main>")
    after = main_of("<main><ul><li>a</li><li>b</li><li>c</li></ul></main>")
    old, new = marked(before, after)
    assert DIFFERS not in str(old)
    assert str(new).count(DIFFERS) == 1


def test_a_page_that_is_read_and_written_again_is_the_same_page() -> None:
    html = '<main id="experiment"><p class="a">x &lt; y &amp; <br>z</p><svg viewbox="0 0 1 1"><path d="M0 0"></path></svg></main>'
    assert str(main_of(html)) == html
