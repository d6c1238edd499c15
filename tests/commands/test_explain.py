"""`explain` knows every check of the contract, and shows what it would say."""

from __future__ import annotations

import pytest

from manualgen.cli import main

# The contract's own list, family by family; page-overflow and graph-outside came with
# the press, draft-unplaced with adopt.
CONTRACT = {
    "source": "source-syntax duplicate-id missing-section unknown-reference "
    "accept-unused review-due draft-unplaced",
    "chemistry": "formula-invalid formula-charge formula-name equation-unbalanced "
    "equation-charge equation-impossible equation-ambiguous equation-coefficients "
    "state-missing state-solubility ionic-mismatch oxidation-claim",
    "quantities": "unit-unknown unit-style unit-dimension unit-mixed unit-missing "
    "calculation-dimension calculation-undefined calculation-answer mole-ratio "
    "significant-figures reading-impossible reading-resolution reading-concordance "
    "precision-apparatus",
    "materials": "unknown-chemical chemical-not-listed chemical-not-used "
    "apparatus-not-listed apparatus-implied apparatus-not-used strength-mismatch "
    "amount-exceeds-issue capacity-exceeded not-in-excess vague-quantity "
    "hydrate-unsaid",
    "safety": "hazard-unknown control-missing incompatible-chemicals "
    "disposal-missing disposal-route",
    "answers": "answer-missing answer-space marks-sum marks-missing",
    "style": "spelling-variant",
    "print": "page-overflow graph-outside",
}
NAMES = [(name, family) for family, row in CONTRACT.items() for name in row.split()]
SILENT = {"page-overflow"}
"""Only the printed page can tell."""


@pytest.mark.parametrize(("name", "family"), NAMES)
def test_every_check_of_the_contract_is_explained(
    name: str, family: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["explain", name]) == 0
    told = capsys.readouterr().out
    assert told.startswith(f"{name} (")
    assert f", {family})" in told.splitlines()[0]
    falls_short, _, rest = told.partition("\nIs told:\n")
    said, _, mended = rest.partition("\nMended:\n")
    assert "Falls short:" in falls_short
    assert said.strip() or name in SILENT
    assert mended.strip()


def test_the_list_has_the_contracts_checks_by_family_and_no_other(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["explain"]) == 0
    found: list[tuple[str, str]] = []
    family = ""
    for line in capsys.readouterr().out.splitlines():
        if line in CONTRACT:
            family = line
        elif line.startswith("  ") and not line.startswith("   "):
            found.append((line.split()[0], family))
    assert sorted(found) == sorted(NAMES)


def test_a_name_that_is_nearly_right_is_told(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["explain", "equation-unbalancd"]) == 2
    assert "did you mean equation-unbalanced?" in capsys.readouterr().err
