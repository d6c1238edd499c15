"""The demonstration uses what the format offers, where it belongs.

A construct that nobody shows is one that nobody has tried on real work.
"""

from __future__ import annotations

import re

import pytest

from tests.content.source_text import CONTENT, paths, source

WORDS_OF_A_LIST = {
    "made": r"made: [\d.]+ mol/dm3",
    "shown": r"shown: \w+",
    "sets": r"sets: \{groups 1-4",
    "spare": r"spare: 20 %",
    "in a solvent": r'in: "sulfuric acid',
    "per": r"per: class",
    "per class": r", \d per class",
    "per station": r", \d per station",
    "for disposal": r", for disposal",
    "for spills": r", for spills",
    "weighed out": r"weighed out",
    "excess": r", excess",
    "concentrated": r"concentrated",
    "glacial": r"glacial",
    "saturated": r"saturated",
    "class of glassware": r", class B",
    "resolution": r"reading to 0\.1 °C",
    "reviewed": r"^reviewed: \{by",
}
METHOD = {
    "lesson": r"^### Lesson 2 \(\d+ min, after 1 week\)",
    "station": r"^### Station C \(\d+ min\)",
    "named step": r"^(?!#).*\[#portion\]$",
    "sub-question": r"^   2\. ",
    "picture": r"^ *!\[[^]]+\]\(\.\./images/",
    "named caption": r"^ *Where the eye belongs \[#meniscus\]$",
    "pipe table": r"^\| --- \|",
}
BOXES = {
    label: rf"^ *> \*\*{label}"
    for label in (
        r"Safety #[\w-]+:",
        "Disposal:",
        "Note:",
        "Teacher:",
        "Technician:",
        "Answer:",
        "Check:",
        r"Answer \(\d lines\):",
        r"Answer \(drawing \d cm\):",
        r"Answer \(open\):",
    )
}
IN_THE_TEXT = {
    "formula": r"`CH3COOH`",
    "hydrate": r"`KAl\(SO4\)2·12H2O`",
    "unknown number": r"`MgSO4·xH2O`",
    "complex ion": r"`\[Cu\(H2O\)6\]\^2\+`",
    "equation": r"`Fe\^3\+\(aq\) \+ 3 OH\^-\(aq\) -> ",
    "quantity": r"`25\.0 cm3`",
    "range": r"`70 to 80 °C`",
    "computed value": r"`value of \w+`",
    "blank": r"\[_pale pink_\]",
    "formula in a blank": r"\[_`MgSO4·7H2O`_\]",
    "marks with a maximum": r"\[max \d\]",
    "link to an experiment": r"\]\(standard-alkali\.md\)",
    **{
        f"reference to {series}": rf"\[{series}\]\(#"
        for series in ("Safety", "Equation", "Table", "Figure", "Step", "Question")
    },
}
FENCES = {
    "answer": r"```equation.* answer",
    "to-balance": r"```equation.* to-balance",
    "with-ionic": r"```equation.* with-ionic",
    "per-mole": r"```equation.* per-mole",
    "ionic": r"```equation.* ionic",
    "half": r"```equation.* half",
    "equilibrium": r" <=> ",
    "sample": r"sample: \[",
    "sample from a file": r"sample: data/\w+\.csv#",
    "given": r"given: \[",
    "column formula": r"formula: V_2 - V_1",
    "mean of rows": r"rows: \[1, 2, 3\], concordant",
    "mean of the concordant": r"rows: concordant",
    "half-width": r" = [\d.]+ ± [\d.]+ mol/dm3",
    "standard uncertainty": r" ± [\d.]+ \(k=1\) ",
    "tolerance of a piece": r"cm3 \(volumetric flask\)",
    "measured value": r" = \[_[\d.]+ ",
    "mean of a column": r"mean\(\w+\.\w+\)",
    "molar mass": r"M\(FeSO4|M\(MgSO4\)",
    "constants": r"\bR \* T_a\b",
    "Faraday constant": r"\* F\)",
    "kelvin": r"T -> K",
    "fit": r"^line: fit$",
    "fit of some rows": r"^line: fit rows 5 to 12$",
    "two fits": r"^line: two fits$",
    "curve": r"^line: curve$",
    "tangent": r"^line: tangent at 0 s$",
    "gradient": r"\w+\.gradient",
    "intercept": r"\w+\.intercept",
    "crossing": r"\w+\.crossing_x",
    "setup": r"```setup #",
    "on": r"^on white tile$",
    "above": r"^above conical flask",
    "in": r"^in ice bath",
    "joined": r"^joined by delivery tube to ",
    "heated": r"^heated by burner$",
    "held": r" held by clamp stand$",
    "branch": r"^from boiling tube: ",
    "stoppered": r", stoppered$",
}
ALL = {**WORDS_OF_A_LIST, **METHOD, **BOXES, **IN_THE_TEXT, **FENCES}


@pytest.mark.parametrize("construct", ALL)
def test_the_demonstration_shows(construct: str) -> None:
    texts = [source(experiment).text for experiment in paths()]
    assert any(re.search(ALL[construct], text, re.M) for text in texts)


def test_the_department_has_a_store_pieces_pictures_and_a_smaller_manual() -> None:
    for name in ("chemicals.yaml", "apparatus.yaml", "manual-first-term.yaml"):
        assert (CONTENT / name).is_file()
    assert list((CONTENT / "images").glob("*.svg"))


def test_no_more_than_six_findings_are_accepted() -> None:
    texts = [p.read_text(encoding="utf-8") for p in CONTENT.rglob("*.[my]*")]
    assert sum(len(re.findall(r"\{check: ", text)) for text in texts) <= 6


@pytest.mark.parametrize(
    "words",
    [
        r"magnesium (ribbon|powder|turnings)|`Mg\(s\)",
        r"`?2 Mg\b",
        r"CuSO4[.·]5H2O ?(\(s\))? ?->|copper\(II\) sulfate-5-water",
        r"iron nail|`?Fe\(s\)",
        r"barium",
        r"zinc|`?Zn\(s\)",
    ],
)
def test_what_this_manual_leaves_to_others_is_in_no_experiment(words: str) -> None:
    for experiment in paths():
        assert not re.search(words, source(experiment).text, re.I), experiment


def test_the_lines_of_an_experiment_can_be_compared_in_a_review() -> None:
    """Prose breaks at a hundred columns; a line of YAML or a table's row does not."""
    for experiment in paths():
        body = source(experiment).text.split("\n---\n", 1)[1]
        prose = re.sub(r"^ *```.*?^ *```", "", body, flags=re.M | re.S)
        for line in prose.splitlines():
            assert len(line) <= 100 or re.match(r" *(\||!\[)", line), line
