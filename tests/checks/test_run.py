"""What the runner makes of the checks' faults."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from manualgen.checks import CHECKS
from manualgen.checks.registry import check, noted_check
from manualgen.model.finding import Finding, Severity

Find = Callable[..., tuple[Finding, ...]]

WRONG = "## Theory\n\n```equation\nAl(s) + O2(g) -> Al2O3(s)\n```\n\n"
METHOD = "## Method\n\n1. Look.\n"


def source(*lines: str) -> str:
    return "---\ntitle: T\n" + "".join(f"{line}\n" for line in lines) + "---\n\n"


def names(found: tuple[Finding, ...]) -> list[str]:
    return [f.check for f in found]


def test_a_finding_that_is_accepted_with_a_reason_is_not_told(find: Find) -> None:
    accept = "accept: [{check: equation-unbalanced, why: Printed so in the old book}]"
    assert names(find(source(accept) + WRONG + METHOD)) == []


def test_an_accept_may_narrow_itself_to_words_of_the_line(find: Find) -> None:
    text = WRONG + "```equation\nMg(s) + O2(g) -> MgO(s)\n```\n\n" + METHOD
    accept = "accept: [{check: equation-unbalanced, why: So it was, at: Al2O3}]"
    found = find(source(accept) + text)
    assert [f.place.line for f in found] == [13]


def test_an_accept_that_matches_nothing_is_a_note(find: Find) -> None:
    accept = "accept: [{check: equation-unbalanced, why: So it was}]"
    (found,) = find(source(accept) + METHOD)
    assert (found.check, found.severity) == ("accept-unused", Severity.NOTE)


def test_the_manual_may_accept_for_all_its_experiments(find: Find) -> None:
    settings = "accept: [{check: equation-unbalanced, why: So it was}]\n"
    assert names(find(source() + WRONG + METHOD, settings=settings)) == []


def test_what_could_not_be_read_cannot_be_accepted(find: Find) -> None:
    accept = "accept: [{check: source-syntax, why: I like it so}]"
    found = find(source(accept, "titel: T") + METHOD)
    assert names(found) == ["accept-unused", "source-syntax"]


def test_one_check_alone_can_be_asked_for(find: Find) -> None:
    text = source() + "Take `5 gms`.\n\n" + WRONG + METHOD
    assert names(find(text, only=["unit-style"])) == ["unit-style"]


def test_one_mistake_is_told_once(find: Find) -> None:
    # Unbalanced in atoms and in charge: the atoms keep the word.
    text = (
        "## Theory\n\n```equation\nFe^3+(aq) + Cl2(g) -> Fe^2+(aq) + Cl^-(aq)\n```\n\n"
    )
    told = [
        n for n in names(find(source() + text + METHOD)) if n.startswith("equation")
    ]
    assert len(told) == 1


def test_two_mistakes_at_one_place_are_both_told(find: Find) -> None:
    # Common practice, no source: bleach and an acid give off chlorine.
    lists = (
        "chemicals:",
        "  - bleach, 20 cm3",
        "  - hydrochloric acid, 2 mol/dm3, 20 cm3",
    )
    text = "## Method\n\n1. Add the bleach to the hydrochloric acid.\n"
    found = names(find(source(*lists) + text))
    assert {"control-missing", "incompatible-chemicals"} <= set(found)


def test_findings_come_in_the_order_of_the_source(find: Find) -> None:
    text = source() + "Take `5 gms`.\n\n" + WRONG + "Then `6 gms`.\n\n" + METHOD
    lines = [f.place.line for f in find(text)]
    assert lines == sorted(lines)


def test_a_name_is_registered_once() -> None:
    with pytest.raises(ValueError, match="registered twice"):
        noted_check("unit-style", Severity.ERROR, "units", "A rule.")
    with pytest.raises(ValueError, match="registered twice"):
        check("unit-style", Severity.ERROR)(lambda _: ())
    assert CHECKS["unit-style"].severity is Severity.WARNING
