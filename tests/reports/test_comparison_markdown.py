"""The comparison in Markdown shows what was written, whatever an author writes."""

from __future__ import annotations

import re
from html import unescape

from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from manualgen.reports.comparison_markdown import comparison_as_markdown
from manualgen.review.changes import Change, Comparison, ExperimentChange, Status

GFM = MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"])
"""CommonMark with the tables and the strikethrough of GitHub Flavored Markdown."""

TAGS = re.compile(r"<[^>]*>")
SIGNS = st.text(
    st.sampled_from("ab |`*_~<>&[](){}#!$\\\"'-+=:.@1"), min_size=1, max_size=30
)


def report(*changes: Change, title: str = "Soda") -> str:
    experiment = ExperimentChange("soda", title, Status.CHANGED, changes, ("student",))
    return comparison_as_markdown(Comparison("main", "HEAD", (), (experiment,)))


def cells(markdown: str) -> list[list[str]]:
    """The words in each cell of the rows below the heads."""
    html = GFM.render(markdown)
    rows = re.findall(r"<tr>(.*?)</tr>", html, re.DOTALL)
    found = [re.findall(r"<td[^>]*>(.*?)</td>", row, re.DOTALL) for row in rows]
    return [[words(cell) for cell in row] for row in found if row]


def words(html: str) -> str:
    plain = unescape(TAGS.sub("", html)).replace("\u2060", "")
    return " ".join(plain.split())


@given(SIGNS, SIGNS, SIGNS)
@example("a|b", "`x|y`", "<img src=x onerror=alert(1)>")
@example("~~gone~~", "**new**", "1. $x$ &lt; @somebody")
def test_every_sign_is_shown_and_none_is_obeyed(new: str, what: str, so: str) -> None:
    change = Change("text", f"in {what}", None, f"x{new}x", None, f"x{so}x")
    markdown = report(change, Change("text", "the next", None, "row"))
    assert cells(markdown) == [
        [
            "",
            words_of(f"text in {what}"),
            words_of(f"new: x{new}x"),
            words_of(f"x{so}x"),
        ],
        ["", "text the next", "new: row", ""],
    ]


def words_of(text: str) -> str:
    return " ".join(text.split())


@given(SIGNS, SIGNS)
def test_words_that_went_are_struck_out_and_those_that_came_are_bold(
    old: str, new: str
) -> None:
    markdown = report(
        Change("text", "Aim", f"To find x{old}x here", f"To find x{new}x here")
    )
    html = GFM.render(markdown)
    if words_of(old) == words_of(new):
        return
    assert "<s>" in html
    assert "<strong>" in html


@given(SIGNS)
def test_a_title_stays_in_its_heading(title: str) -> None:
    html = GFM.render(
        report(Change("time", "time", "1 min", "2 min"), title=f"x{title}x")
    )
    (heading,) = re.findall(r"<h4>(.*?)</h4>", html, re.DOTALL)
    assert words_of(f"(x{title}x)") in words(heading)


def test_a_name_after_an_at_sign_calls_nobody() -> None:
    assert "@somebody" not in report(Change("text", "Aim", None, "ask @somebody"))


def test_a_leak_is_bold_in_the_last_column() -> None:
    leak = Change(
        "step", "step 1", "a", "b", None, "students can now read it", leak=True
    )
    assert "| **students can now read it** |" in report(leak)


def test_what_could_not_be_read_stands_at_the_top() -> None:
    comparison = Comparison("a", "b", (), (), ("content/x.md:1:1: no end",))
    markdown = comparison_as_markdown(comparison)
    assert markdown.startswith(
        "### Changes from a to b\n\nNot read: content/x.md:1:1: no end"
    )
