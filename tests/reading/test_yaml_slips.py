"""Slips in the settings at the head of a file, as teachers make them.

Each is one finding at the words that are wrong, with what to write. The slips
are customs of hand-written YAML; common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.reading.shelf import read

SETTINGS = """\
title: Vinegar
time: 70 min
group: 2
chemicals:
  - vinegar, 40 cm3
  - sodium hydroxide, 0.100 mol/dm3, 50 cm3
apparatus:
  - burette, 50 cm3
  - beaker
"""


def settings_with(old: str, new: str) -> str:
    assert old in SETTINGS
    return f"---\n{SETTINGS.replace(old, new, 1)}---\n\n## Method\n\n1. Look.\n"


SOUND = [
    ("Vinegar", '"Vinegar: how strong"'),
    ("Vinegar", "'Vinegar: how strong'"),
    ("Vinegar", 'The "real" strength of vinegar'),
    ("Vinegar", "The vinegars' strengths"),
    ("Vinegar", 'Vinegar in a tube of 5"'),
    ("Vinegar", "-ol and -al"),
    ("Vinegar", "Vinegar\n  and what it says on its label"),
    ("Vinegar", "Vinegar # 2 is in work"),
    ("70 min", "70 min    # with the clearing up"),
    ("70 min", "\t70 min"),
    ("  - vinegar", "  # the cheap one\n  - vinegar"),
    ("hydroxide, 0.100", "hydroxide,\n    0.100"),
    ("mol/dm3, 50", "mol/dm3,\n      50"),
    ("  - burette, 50 cm3\n  - beaker", '- "burette, 50 cm3"\n- beaker'),
    (":\n  - burette, 50 cm3\n  - beaker", ': ["burette, 50 cm3",\n  beaker]'),
    ("- vinegar, 40 cm3", "- {name: vinegar,\n     amount: 40 cm3}"),
]


@pytest.mark.parametrize(("old", "new"), SOUND)
def test_what_is_well_written_is_read(old: str, new: str) -> None:
    page = read(settings_with(old, new))
    assert page.faults == []
    assert page.experiment.complete
    assert [len(page.experiment.chemicals), len(page.experiment.apparatus)] == [2, 2]


SLIPS = [
    ("  - vinegar", "\t- vinegar", "\t", "a tab stands", "two blanks"),
    ("Vinegar", '"Vinegar', '"Vin', "is not closed", '"Vinegar"'),
    ("Vinegar", 'Vinegar"', '"', "closes what none opens", '"Vinegar"'),
    ("Vinegar", "Acid: how much", "Acid", "a colon and", '"Acid: how much"'),
    ("Vinegar", "Vinegar #2", "#2", "is a comment", '"Vinegar #2"'),
    ("Vinegar", "*Vinegar*", "*Vin", "begin with *", '"*Vinegar*"'),
    ("Vinegar", "`HCl` in water", "`H", "begin with `", '"`HCl` in water"'),
    ("Vinegar", "!Vinegar", "!", "a tag (!)", '"!Vinegar"'),
    ("Vinegar", 'The "real" one: acid', "The", "a colon", "'The \"real\" one: acid'"),
    ("Vinegar", '"The "real" one"', '"The', "second quotation", "'The \"real\" one'"),
    ("Vinegar", "'Ann's acid'", "'Ann", "second quotation", '"Ann\'s acid"'),
    (
        "Vinegar",
        "Vinegar\nand its strength",
        "and",
        "no colon",
        "and: its strength, or in one line title: Vinegar and its strength",
    ),
    ("time: 70 min", "time:70 min", "time:", "behind a key", "time: 70 min"),
    ("time: 70 min", "time = 70 min", "time =", "behind a key", "time: 70 min"),
    ("group: 2", "group; 2", "group;", "behind a key", "group: 2"),
    ("group: 2", " group: 2", "group", "further in", "group: 2"),
    ("chemicals:\n  - v", "chemicals: - v", "- v", "on the line below its key", None),
    ("  - vinegar", "  -vinegar", "-vin", "a blank belongs", "- vinegar, 40 cm3"),
    ("  - vinegar", "  * vinegar", "* vin", "begins with -", "- vinegar, 40 cm3"),
    ("  - vinegar", "  • vinegar", "• vin", "begins with -", "- vinegar, 40 cm3"),
    ("  - burette", "  – burette", "– bur", "begins with -", "- burette, 50 cm3"),
    ("  - beaker", "    - beaker", "- bea", "as far in as", "  - beaker"),
    ("  - beaker", " - beaker", "- bea", "as far in as", "  - beaker"),
    ("  - beaker", "    beaker", "beaker", "goes on with", "- beaker"),
    ("  - burette", "  - {name: burette", "{name", "{ is not closed", None),
    (":\n  - burette, 50 cm3\n  - beaker", ": [beaker", "[b", "[ is not", "[beaker]"),
    (
        ":\n  - burette, 50 cm3\n  - beaker",
        ": [burette, 50 cm3, beaker]",
        "50 cm3, beaker",
        "a comma parts",
        '"burette, 50 cm3"',
    ),
    ("vinegar, 40 cm3", "{name: acid made: 2 M}", "made", "a comma", ", made: …"),
    ("vinegar, 40", "vinegar: white, 40", "vinegar:", "a key; quote", None),
]


@pytest.mark.parametrize(
    ("old", "new", "at", "message", "mend"), SLIPS, ids=[s[1] for s in SLIPS]
)
def test_a_slip_is_told_once_at_its_words(
    old: str, new: str, at: str, message: str, mend: str | None
) -> None:
    page = read(settings_with(old, new))
    (noted,) = page.experiment.noted
    fault = noted.fault
    assert f"{fault.place.line}:{fault.place.column}" == page.at(at)
    assert message in fault.message
    assert mend is None or fault.mend == mend


@pytest.mark.parametrize(
    ("head", "message"),
    [
        ("----\ntitle: A\n----\n", "three dashes"),
        ("—-\ntitle: A\n---\n", "three dashes"),
        ("\n\n---\ntitle: A\n---\n", "on the first line"),
        ("title: A\n", "no settings stand"),
    ],
)
def test_why_a_file_has_no_settings_is_told(head: str, message: str) -> None:
    page = read(f"{head}\n## Method\n\n1. Look.\n")
    assert message in page.experiment.noted[0].fault.message


@pytest.mark.parametrize("line", ['- "a', "a" + " " * 200, "1" * 500, "- * " * 90])
def test_long_settings_that_cannot_be_read_take_no_long_time(line: str) -> None:
    page = read("---\ntitle: A\n" + f"{line}\n" * 1000 + "b: c: d\n---\n")
    assert page.experiment.noted
