"""Laws of reading: any text gives a model and findings whose places exist."""

from __future__ import annotations

import string
from collections.abc import Iterator, Mapping

from hypothesis import example, given, settings
from hypothesis import strategies as st

from manualgen.checks import CHECKS
from manualgen.model.experiment import Experiment
from manualgen.model.finding import Noted
from manualgen.model.manual import Manual
from manualgen.model.place import Place
from manualgen.model.text import FormulaSpan, QuantitySpan, UnreadSpan, Words
from manualgen.model.walk import inlines, texts, walk
from manualgen.reading import read_manual
from manualgen.reading.stretch import Stretch, joined_lines

from .shelf import METHOD, Shelf, read_body, shown

MARKS = [
    "---\n",
    "title: T\n",
    "chemicals:\n",
    "  - salt, 5 g, excess\n",
    "apparatus: [beaker, 100 cm3]\n",
    "{name: x, in: y, 1 g/dm3}",
    "time: 5 min\n",
    "## Method\n\n",
    "## Questions\n\n",
    "### Lesson 2 (40 min)\n",
    "1. Step",
    "2. Next\n",
    "   ",
    "> ",
    "> **Safety #a:** hot\n",
    "> **Answer (3 lines):** x [1]\n",
    "**Teacher:**",
    "`NaOH`",
    "`25.0 cm3`",
    "`2 H2 + O2 -> 2 H2O`",
    "`value of x`",
    "`",
    "[_",
    "_]",
    "[#a]",
    "[2]",
    "[max 2]",
    "[Step](#a)",
    "[x](b.md)",
    "![p](q.png)",
    "| a | b |\n| - | - |\n| c | d \\| e |\n",
    "```equation #e ionic\n",
    "```readings\nrows: [1]\ncolumns:\n  - {symbol: a, sample: [1]}\n",
    "```calculation\nx = 2 g # words\n",
    "```graph\nx: t / s, 0 to 1 step 1\n",
    "```setup\nbeaker [water, 5 cm3]\non tile\n",
    "```\n",
    "<b>",
    "*",
    "**",
    "\\",
    "&amp;",
    "\n",
    "\n\n",
    "\t",
    " ",
    "é",
    "\u2028",
    "\U0001f9ea",
    "- ",
    ": ",
    ", ",
    "#",
]
pieces = st.one_of(
    st.sampled_from(MARKS),
    st.text(
        string.ascii_letters + string.digits + string.punctuation + " \n", max_size=8
    ),
    st.text(max_size=4),
)
files = st.lists(pieces, max_size=40).map("".join)


def places(manual: Manual) -> Iterator[Place]:
    noted: list[Noted] = list(manual.noted)
    for experiment in manual.experiments:
        noted += experiment.noted
        yield experiment.title_place
        yield from places_inside(experiment)
    for each in noted:
        yield each.fault.place
        if each.fault.edit:
            yield each.fault.edit.place


def places_inside(experiment: Experiment) -> Iterator[Place]:
    for chemical in experiment.chemicals:
        yield chemical.name_place
    for block in walk(experiment.blocks()):
        yield block.place
        for content in texts(block):
            yield from (inline.place for inline in inlines(content))


def exists(place: Place, lines: Mapping[str, tuple[str, ...]]) -> bool:
    text = lines.get(place.file)
    if text is None:  # the file could not be read as lines
        return place.line >= 1
    if not 1 <= place.line <= place.end_line <= len(text):
        return False
    if not 1 <= place.column <= len(text[place.line - 1]) + 1:
        return False
    end = (place.end_line, place.end_column)
    inside = 1 <= place.end_column <= len(text[place.end_line - 1]) + 1
    return inside and end >= (place.line, place.column)


def check(source: Shelf) -> None:
    manual, lines = read_manual(source)
    for place in places(manual):
        assert exists(place, lines), place
    for experiment in manual.experiments:
        assert all(noted.check in CHECKS for noted in experiment.noted)


@settings(max_examples=300, deadline=None)
@given(files)
@example("---\ntitle: T\n---\n\n```equation")
@example("---\n- \t: ")
@example("> ```setup\n> beaker [\n> x")
@example('---\nchemicals: ["a\n\n  b, 5 gq"]\n---\n')
def test_any_text_is_an_experiment_with_findings_at_places_that_exist(
    text: str,
) -> None:
    check(Shelf({"manual.yaml": "title: T\nparts: []\n", "x.md": text}))


@settings(max_examples=150, deadline=None)
@given(st.lists(pieces, max_size=30).map("".join))
def test_any_text_under_a_heading_is_read(text: str) -> None:
    body = f"---\ntitle: T\n---\n\n## Method\n\n1. a\n\n## Questions\n\n{text}"
    check(Shelf({"manual.yaml": "title: T\nparts: []\n", "x.md": body}))


@settings(max_examples=150, deadline=None)
@given(files, files, files)
def test_any_texts_are_the_departments_files(
    manual: str, store: str, more: str
) -> None:
    check(
        Shelf({"manual.yaml": manual, "chemicals.yaml": store, "apparatus.yaml": more})
    )


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=300))
def test_any_bytes_are_a_file(content: bytes) -> None:
    check(Shelf({"manual.yaml": content, "x.md": content, "chemicals.yaml": content}))


plain_words = st.text("abc NaCl.;=+-2é", min_size=1, max_size=12)


@settings(max_examples=200, deadline=None)
@given(
    st.lists(
        st.one_of(
            plain_words,
            st.sampled_from(
                ["`NaCl`", "`2 g`", "*", "**", "\n", "\\*", "[_a `Cu` b_]"]
            ),
        ),
        max_size=12,
    )
)
def test_words_and_spans_stand_letter_for_letter_at_their_places(
    parts: list[str],
) -> None:
    page = read_body("".join(parts))
    for block in walk(page.experiment.blocks()):
        for content in texts(block):
            for inline in inlines(content):
                match inline:
                    case Words(text=text) if len(text) > 1:
                        assert shown(inline.place, page.text) == text
                    case FormulaSpan() | QuantitySpan() | UnreadSpan():
                        written = shown(inline.place, page.text)
                        assert " ".join(written.split()) == " ".join(
                            inline.source.split()
                        )
                    case _:
                        pass


@given(st.lists(st.text("abc ", max_size=6), min_size=1, max_size=5), st.data())
def test_a_cut_of_a_cut_stands_where_its_letters_stand(
    lines: list[str], data: st.DataObject
) -> None:
    whole = joined_lines("f", tuple(lines), 4)
    start = data.draw(st.integers(0, len(whole.text)))
    end = data.draw(st.integers(start, len(whole.text)))
    inside = whole.cut(start, end)
    at = data.draw(st.integers(0, len(inside.text)))
    assert inside.text == whole.text[start:end]
    if at < len(inside.text):
        assert inside.place(at, at + 1) == whole.place(start + at, start + at + 1)


def test_what_cannot_be_told_apart_stands_at_the_whole() -> None:
    whole = Place("f", 2, 3, 4, 5)
    stretch = Stretch("f", "abc", ((0, 1, 1),), whole)
    assert stretch.cut(1, 2).place(0, 1) == whole


def test_the_sample_of_these_tests_is_itself_sound() -> None:
    assert not read_body(f"Text.\n\n{METHOD.replace('Method', 'Other')}").faults
