"""Experiments made by chance keep from students what only the teacher is told.

Each piece holds a word, or an unknown's name, that stands nowhere else.  The
pieces come in any order, in sections and inside one another.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from hypothesis import given, settings
from hypothesis import strategies as st

from manualgen.build.edition import EditionName, files_of, lay_out_edition
from manualgen.build.stages import work_source
from manualgen.working.worked import Worked
from tests.reading.shelf import Shelf

TODAY = datetime.date(2026, 9, 1)
MANUAL = "title: T\nparts:\n  - title: P\n    experiments: [x, y]\n"
OTHER = "---\ntitle: Y\n---\n\n## Method\n\n1. See [X](x.md).\n"

WIDTHS = {"short", "medium", "long", "full"}
"""Those of a gap; four, so that a width tells nothing of the word."""

UNKNOWNS = (
    "lithium carbonate",
    "rubidium chloride",
    "strontium nitrate",
    "potassium iodate",
    "caesium sulfate",
    "nickel(II) bromide",
)


@dataclass
class Secrets:
    """Words to plant, each given once."""

    words: list[str] = field(default_factory=list)

    def word(self) -> str:
        self.words.append(f"kanari{len(self.words):04}x")
        return self.words[-1]

    def number(self) -> str:
        """A reading that no other place has."""
        self.words.append(f"{len(self.words) + 41}.7731")
        return self.words[-1]


Write = Callable[[Secrets], str]


def anywhere(template: str) -> Write:
    """A block with WORD and NUMBER to be put in; marks of names are made distinct."""

    def write(secrets: Secrets) -> str:
        text = re.sub("WORD", lambda _: secrets.word(), template)
        text = re.sub("NUMBER", lambda _: secrets.number(), text)
        return text.replace("NAME", f"n{len(secrets.words)}")

    return write


BLOCKS = [
    anywhere("It turns [_WORD_] and then [_**WORD** `K2Cr2O7` WORD_]."),
    anywhere("- First [_WORD_]\n- Second\n\n  > **Teacher:** WORD."),
    anywhere("> **Teacher #NAME:** WORD, see [_WORD_].\n>\n> - WORD"),
    anywhere("> **Technician:** WORD\n>\n> | WORD | b |\n> | - | - |\n> | WORD | c |"),
    anywhere("> **Note:** For all.\n\n> **Teacher:** ![WORD](a.png)"),
    anywhere("| Ion | Seen |\n| - | - |\n| `Na^+` | [_WORD_] |\nTold [#NAME]"),
    anywhere("### A part\n\nSee [_WORD WORD WORD WORD WORD WORD_]."),
    anywhere(
        "```readings #NAME\nrows: [1, 2]\ncolumns:\n"
        "  - {symbol: a, heading: A, unit: g, sample: [NUMBER, NUMBER]}\n"
        "  - {symbol: b, heading: B, unit: g, formula: a * 2}\n"
        "mean: {of: b, rows: [1, 2]}\n```"
    ),
    anywhere(
        "```readings #pNAME\nrows: [1, 2, 3]\ncolumns:\n"
        "  - {symbol: t, heading: T, unit: s, sample: [1, 2, NUMBER]}\n"
        "  - {symbol: m, heading: M, unit: g, sample: [2, 3, NUMBER]}\n```\n\n"
        "```graph\nx: t / s, 0 to 100 step 10\ny: m / g, 0 to 100 step 10\n"
        "points: pNAME.t, pNAME.m\nline: fit\n```"
    ),
    anywhere(
        "```calculation\nmNAME = [_NUMBER g_]\nkNAME = mNAME * 2 -> g # twice\n```"
    ),
    anywhere(
        "```equation answer #NAME\nCsOH(aq) + HClO4(aq) -> CsClO4(aq) + H2O(l)\n```"
    ),
]
QUESTIONS = [
    anywhere("Why? [1]\n\n   > **Answer (2 lines):** WORD [1]."),
    anywhere("Which? [1]\n\n   > **Answer:** [WORD](https://a.example/WORD)."),
    anywhere("Draw it. [1]\n\n   > **Answer (drawing 4 cm):** WORD."),
    anywhere("Yours? [1]\n\n   > **Answer (open):** WORD."),
    anywhere("Two:\n   1. A [_WORD_]? [1]\n      > **Answer:** WORD.\n   2. B\n"),
    anywhere("How? [1]\n\n   > **Teacher:** WORD\n\n   > **Answer:** WORD `CsOH`."),
]
LATER = [
    anywhere("## For the teacher\n\nWORD `0.4242 mol/dm3`\n\n> **Safety:** WORD"),
    anywhere("## For the preparation room\n\n1. WORD\n2. WORD"),
]


@st.composite
def experiments(draw: st.DrawFn) -> tuple[str, Secrets]:
    """An experiment, and the words in it that no student may see."""
    secrets = Secrets()
    hidden = draw(st.lists(st.sampled_from(UNKNOWNS), unique=True, max_size=4))
    head = "".join(_listed(hidden, draw(st.booleans())))
    secrets.words += hidden
    blocks = draw(st.lists(st.sampled_from(BLOCKS), min_size=1, max_size=6))
    steps = draw(st.lists(st.sampled_from(BLOCKS[:5]), min_size=1, max_size=3))
    questions = draw(st.lists(st.sampled_from(QUESTIONS), max_size=3))
    later = draw(st.lists(st.sampled_from(LATER), unique=True, max_size=2))
    written = [
        f"---\ntitle: X\nreviewed: {{by: {secrets.word()}, date: 2026-01-02}}\n{head}---",
        "## Results",
        *(write(secrets) for write in blocks),
        "## Method",
        *(f"{n}. Go on.\n\n{_indented(w(secrets))}" for n, w in enumerate(steps, 1)),
        *(["## Questions"] if questions else []),
        *(f"{n}. {write(secrets)}" for n, write in enumerate(questions, 1)),
        *(write(secrets) for write in later),
    ]
    return "\n\n".join(written) + "\n", secrets


def _listed(hidden: list[str], as_sets: bool) -> Iterator[str]:
    if hidden:
        yield "chemicals:\n"
    if as_sets and len(hidden) > 1:
        groups = ", ".join(f"groups {n}-{n}: {h}" for n, h in enumerate(hidden, 1))
        yield f"  - {{shown: white solid, sets: {{{groups}}}, amount: 2 g}}\n"
        return
    for number, name in enumerate(hidden):
        yield (
            f"  - {{name: {name}, shown: liquor {number}, made: 0.07{number}3 mol/dm3, "
            "amount: 9 cm3}\n"
        )


def _indented(text: str) -> str:
    return "\n".join(f"   {line}".rstrip() for line in text.split("\n"))


def told(worked: Worked, name: EditionName) -> str:
    """Every page and the search of an edition, names of files included."""
    edition = lay_out_edition(worked, name, pdf=False)
    return "\n".join(
        path + make().decode()
        for path, make in files_of(edition, lambda _: b"").items()
        if path.endswith((".html", "search-index.js"))
    )


@settings(max_examples=40)
@given(experiments())
def test_no_student_sees_what_only_the_teacher_is_told(
    made: tuple[str, Secrets],
) -> None:
    text, secrets = made
    files: dict[str, str | bytes] = {"manual.yaml": MANUAL, "x.md": text, "y.md": OTHER}
    worked = work_source(Shelf({**files, "a.png": b""}), None, TODAY)
    students, teachers = (told(worked, name) for name in EditionName)
    assert [w for w in secrets.words if w.casefold() in students.casefold()] == []
    assert "0.07" not in students
    assert set(re.findall(r'class="gap ([^"]*)"', students)) <= WIDTHS
    missing = [w for w in secrets.words if w.casefold() not in teachers.casefold()]
    assert missing == []
