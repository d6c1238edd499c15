"""What `compare` says of a year's revisions, each a commit of a real repository."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from manualgen.cli import main
from tests.review.repository import Repository

MANUAL = """\
title: Test
class: {groups: 10, spare: 20 %}
parts:
  - title: All
    experiments: [neutral, rust]
"""

NEUTRAL = """\
---
title: Neutral or not
time: 40 min
chemicals:
  - sodium hydroxide, 0.40 mol/dm3, 50 cm3
  - hydrochloric acid, 0.50 mol/dm3, 50 cm3
apparatus:
  - beaker, 100 cm3
  - 2 measuring cylinders, 25 cm3
---

## Theory

An acid and an alkali neutralise one another, and the mixture grows warm
while they do so.

```equation
NaOH(aq) + HCl(aq) -> NaCl(aq) + H2O(l)
```

## Method

1. Measure `20 cm3` of sodium hydroxide into the beaker.

2. Measure `16 cm3` of hydrochloric acid with the other measuring cylinder.

3. Pour the acid into the beaker and stir. The beaker feels [_warm_].

   > **Safety #splash:** Pour slowly, and do not lean over the beaker.

## Results

```readings #runs
rows: [1, 2]
columns:
  - {symbol: V, heading: Volume, unit: cm3, sample: [16.0, 16.2]}
mean: {of: V, rows: [1, 2], concordant: 0.5 cm3}
```

```calculation
c = 0.400 mol/dm3
V_a = runs.mean
n = c * V_a -> mol
```

## Questions

1. What is left in the beaker? [2]

   > **Answer:** Sodium chloride [1] and water [1].

2. Why does the beaker feel warm? [1]

   > **Answer:** The reaction gives out heat.

## Disposal

The mixture goes down the sink.

## For the teacher

Give out the acid last.
"""

RUST = """\
---
title: Rust
chemicals:
  - iron wool, 2 g
apparatus:
  - test tube
---

## Method

1. Put the iron wool into the test tube and look at it again next week.
"""

SALT = """\
---
title: Sea water
apparatus:
  - evaporating basin
---

## Method

1. Leave the sea water to dry in the evaporating basin, and weigh what stays behind.
"""


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Repository:
    made = Repository(tmp_path)
    made.git("init", "-q")
    made.write("manual.yaml", MANUAL)
    made.write("neutral.md", NEUTRAL)
    made.write("rust.md", RUST)
    made.commit()
    monkeypatch.chdir(tmp_path)
    return made


Line = tuple[str, str, str | None, str | None]


def told(capsys: pytest.CaptureFixture[str], *revisions: str) -> dict[str, object]:
    capsys.readouterr()
    assert main(["compare", *revisions, "--format", "json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert isinstance(answer, dict)
    return answer


def lines(report: dict[str, object]) -> list[Line]:
    return [(c["kind"], c["what"], c["before"], c["after"]) for c in changes(report)]


def changes(report: dict[str, object]) -> Iterator[dict[str, str]]:
    experiments = report["experiments"]
    assert isinstance(experiments, list)
    for experiment in experiments:
        yield from experiment["changes"]


REVISIONS: tuple[tuple[str, str, list[Line]], ...] = (
    (
        "  - sodium hydroxide, 0.40 mol/dm3, 50 cm3",
        "  - sodium hydroxide, 0.40 mol/dm3, 60 cm3",
        [("amount", "sodium hydroxide", "50 cm³", "60 cm³")],
    ),
    (
        "  - beaker, 100 cm3",
        "  - beaker, 250 cm3",
        [("apparatus", "beaker", "beaker, 100 cm³", "beaker, 250 cm³")],
    ),
    (
        "  - beaker, 100 cm3",
        "  - beaker, 100 cm3\n  - stirring rod",
        [("apparatus", "stirring rod", None, "stirring rod")],
    ),
    ("time: 40 min", "time: 50 min", [("time", "time", "40 min", "50 min")]),
    (
        "Pour slowly, and do not lean",
        "Pour very slowly, and do not lean",
        [
            (
                "safety",
                "#splash",
                "Pour slowly, and do not lean over the beaker.",
                "Pour very slowly, and do not lean over the beaker.",
            )
        ],
    ),
    (
        "in the beaker? [2]",
        "in the beaker? [1]",
        [("marks", "question 1", "2", "1"), ("marks", "in all", "3", "2")],
    ),
    (
        "The reaction gives out heat.",
        "The reaction is exothermic.",
        [
            (
                "answer",
                "question 2",
                "The reaction gives out heat.",
                "The reaction is exothermic.",
            )
        ],
    ),
    (
        "Give out the acid last.",
        "Give out the acid first.",
        [
            (
                "text",
                "For the teacher",
                "Give out the acid last.",
                "Give out the acid first.",
            )
        ],
    ),
    (
        "sample: [16.0, 16.2]",
        "sample: [16.0, 16.4]",
        [
            ("sample", "#runs.V", "16.0, 16.2", "16.0, 16.4"),
            ("result", "V_a", "16.1 cm³", "16.2 cm³"),
            ("result", "n", "0.00644 mol", "0.00648 mol"),
        ],
    ),
)
"""Old words, new words, and what a reviewer should be told of it."""


@pytest.mark.parametrize(("old", "new", "expected"), REVISIONS)
def test_a_revision_is_told_in_the_manuals_own_terms(
    repository: Repository,
    capsys: pytest.CaptureFixture[str],
    old: str,
    new: str,
    expected: list[Line],
) -> None:
    repository.edit("neutral.md", old, new)
    repository.commit()
    found = [c for c in lines(told(capsys, "HEAD~1", "HEAD")) if c[0] != "finding"]
    # Uncertainties are tested where they are computed; here the values matter.
    assert [(k, w, _bare(b), _bare(a)) for k, w, b, a in found] == expected


def _bare(text: str | None) -> str | None:
    """A result without its uncertainty: ``(16.1 ± 0.1) cm³`` is 16.1 cm³."""
    if text is None or not text.startswith("("):
        return text
    value, _, rest = text.removeprefix("(").partition(" ± ")
    return value + rest.partition(")")[2].removesuffix(" (k = 1)")


def test_a_stronger_solution_is_told_with_its_new_hazard_class(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    # CLP Annex VI, index no 011-002-00-6: from 2 % on Skin Corr. 1B; 1 mol/dm3 is 3.8 %.
    repository.edit("neutral.md", "hydroxide, 0.40 mol", "hydroxide, 1.0 mol")
    change = next(changes(told(capsys, "HEAD")))
    assert change["kind"] == "strength"
    assert "Skin Corr. 1B" in change["consequence"]


def test_an_amount_is_told_with_what_the_class_now_takes(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    # By hand: 60 cm3 for 10 groups and a fifth more are 720 cm3; of 0.40 mol/dm3 in
    # 750 cm3 there are 0.30 mol, and of 40.0 g/mol that is 12 g.
    repository.edit("neutral.md", "0.40 mol/dm3, 50 cm3", "0.40 mol/dm3, 60 cm3")
    change = next(changes(told(capsys, "HEAD")))
    assert change["consequence"] == (
        "10 groups take 720 cm³, the spare included; "
        "make 750 cm³ from 12 g of sodium hydroxide"
    )


def test_a_step_that_moves_is_told_as_moved(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    first = "1. Measure `20 cm3` of sodium hydroxide into the beaker.\n\n"
    second = "2. Measure `16 cm3` of hydrochloric acid with the other measuring cylinder.\n\n"
    repository.edit(
        "neutral.md", first + second, "1. " + second[3:] + "2. " + first[3:]
    )
    found = lines(told(capsys, "HEAD"))
    moves = [c for c in found if c[0] == "step"]
    assert len(moves) == 1
    assert moves[0][1].endswith(", moved")


def test_experiments_that_come_go_and_are_renamed_are_told(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    repository.git("mv", "content/neutral.md", "content/acid-meets-alkali.md")
    (repository.folder / "content" / "rust.md").unlink()
    repository.write("salt.md", SALT)
    repository.edit("manual.yaml", "[neutral, rust]", "[salt, acid-meets-alkali]")
    report = told(capsys, "HEAD")
    manual, experiments = report["manual"], report["experiments"]
    assert isinstance(manual, list)
    assert isinstance(experiments, list)
    assert [(c["kind"], c["before"], c["after"]) for c in manual] == [
        ("renamed", "neutral", "acid-meets-alkali"),
        ("number", "1", "2"),
    ]
    assert {(e["id"], e["status"]) for e in experiments} == {
        ("salt", "added"),
        ("rust", "removed"),
    }


def test_a_file_in_another_folder_and_a_paragraph_wrapped_elsewhere_are_no_change(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    repository.edit(
        "neutral.md",
        "and the mixture grows warm\nwhile they do so.",
        "and the\nmixture grows warm while they do so.",
    )
    (repository.folder / "content" / "acids").mkdir()
    repository.git("mv", "content/neutral.md", "content/acids/neutral.md")
    report = told(capsys, "HEAD")
    assert (report["manual"], report["experiments"]) == ([], [])


def test_what_cannot_be_read_in_the_older_one_is_told_and_the_rest_compared(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    repository.edit("neutral.md", "title: Neutral or not", "titel: Neutral or not")
    repository.commit()
    repository.edit("neutral.md", "titel: Neutral or not", "title: Neutral or not")
    repository.edit("neutral.md", "time: 40 min", "time: 45 min")
    report = told(capsys, "HEAD")
    unread = report["unread"]
    assert isinstance(unread, list)
    assert any("titel" in sentence for sentence in unread)
    assert ("time", "time", "40 min", "45 min") in lines(report)


@pytest.mark.parametrize("revision", ["no-such-revision", "--output=x", "HEAD~99"])
def test_a_revision_that_git_does_not_know_is_wrong_usage(
    repository: Repository, capsys: pytest.CaptureFixture[str], revision: str
) -> None:
    assert main(["compare", "--", revision]) == 2
    assert "revision" in capsys.readouterr().err


def test_the_working_tree_is_not_touched(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    repository.edit("neutral.md", "40 min", "45 min")
    before = (repository.folder / "content" / "neutral.md").read_bytes()
    told(capsys, "HEAD", "HEAD")
    assert (repository.folder / "content" / "neutral.md").read_bytes() == before


def test_a_picture_that_lies_outside_the_folder_is_told_and_not_fatal(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    repository.edit(
        "neutral.md", "## Method", "![A flask](../../flask.png)\n\n## Method"
    )
    repository.commit()
    repository.edit("neutral.md", "time: 40 min", "time: 45 min")
    report = told(capsys, "HEAD")
    assert ("time", "time", "40 min", "45 min") in lines(report)
    assert "outside the content folder" in str(report["unread"])


SMALL = """\
title: The first term
edition: 2026-27
parts:
  - title: All
    experiments: [neutral]
"""


@pytest.mark.parametrize(
    ("edit", "expected"),
    [
        (
            ("manual.yaml", "groups: 10", "groups: 9"),
            ("setting", "class, groups", "10", "9", "content/manual.yaml", 2),
        ),
        (
            (
                "manual.yaml",
                "class: {groups: 10, spare: 20 %}\n",
                "class: {groups: 10}\n",
            ),
            ("setting", "class, spare", "20 %", "10 %", "content/manual.yaml", 2),
        ),
        (
            (
                "manual-small.yaml",
                "edition: 2026-27",
                "house_style:\n  decimal: comma\nedition: 2026-27",
            ),
            (
                "setting",
                "house style, decimal",
                "point",
                "comma",
                "content/manual-small.yaml",
                3,
            ),
        ),
        (
            ("manual-small.yaml", "title: All", "title: Some"),
            ("part", "of the manual", "All", "Some", "content/manual-small.yaml", 4),
        ),
    ],
)
def test_a_setting_is_told_with_the_file_and_the_line_that_set_it(
    repository: Repository,
    capsys: pytest.CaptureFixture[str],
    edit: tuple[str, str, str],
    expected: tuple[str, ...],
) -> None:
    # A smaller manual takes from manual.yaml what it leaves out.
    repository.write("manual-small.yaml", SMALL)
    repository.commit()
    repository.edit(*edit)
    manual = told(capsys, "HEAD", "--manual", "small")["manual"]
    assert isinstance(manual, list)
    keys = ("kind", "what", "before", "after", "file", "line")
    assert [tuple(change[key] for key in keys) for change in manual] == [expected]


ANSWER = """\
   > **Answer (3 lines):** The reaction gives out heat [1]: more than the beaker and the
   > air around it can take up while it is being stirred [1].
"""


def test_the_first_line_of_an_answer_that_lost_its_mark_is_told_as_a_leak(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    one_line = "   > **Answer:** The reaction gives out heat.\n"
    repository.edit("neutral.md", one_line, ANSWER)
    repository.commit()
    repository.edit("neutral.md", ANSWER, ANSWER.replace(">", "", 1))
    leaks = [c for c in changes(told(capsys, "HEAD")) if c["leak"]]
    assert [c["consequence"] for c in leaks] == [
        "students can now read what only the teacher could: “The reaction gives out "
        "heat: more than the beaker and the”"
    ]


def test_words_that_students_read_already_are_no_leak(
    repository: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    # Of a hint, half repeats a step; seven words in a row are no sign of a leak.
    hint = "Measure `20 cm3` of sodium hydroxide into the beaker while they wait."
    repository.edit("neutral.md", "Give out the acid last.", hint)
    repository.commit()
    repository.edit(
        "neutral.md",
        "2. Measure `16 cm3`",
        "2. Wash the beaker. Measure `20 cm3` of sodium hydroxide into the beaker "
        "again. Measure `16 cm3`",
    )
    assert not any(c["leak"] for c in changes(told(capsys, "HEAD")))
