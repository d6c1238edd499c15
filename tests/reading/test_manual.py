"""The content folder as a whole: settings, order, the department's own tables."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from manualgen.model.finding import Noted
from manualgen.model.manual import (
    Manual,
    Paper,
    StoredForm,
    SulfurSpelling,
)
from manualgen.quantities import (
    DecimalMark,
    Rounding,
    Units,
    Volume,
    parse_quantity,
)
from manualgen.quantities.uncertainty import Combination
from manualgen.reading import read_manual

from .shelf import METHOD, Shelf, where

VINEGAR = f"---\ntitle: Vinegar\n---\n\n{METHOD}"


def manual_of(
    files: Mapping[str, str | bytes], name: str | None = None
) -> tuple[Manual, Mapping[str, tuple[str, ...]]]:
    return read_manual(Shelf(files), name)


def settings_of(text: str) -> Manual:
    manual, _ = manual_of({"manual.yaml": text})
    return manual


def found(noted: tuple[Noted, ...]) -> list[tuple[str, str, str | None]]:
    return [(n.check, where(n.fault.place), n.fault.mend) for n in noted]


def test_every_setting_of_the_format_is_read() -> None:
    manual = settings_of(
        "title: Practical Chemistry\n"
        "institution: Skerry Point Sixth Form College\n"
        "edition: 2026-27\n"
        "language: de\n"
        "paper: Letter\n"
        "class: {groups: 8, spare: 15 %}\n"
        "conditions: {temperature: 24 °C, pressure: 99 kPa}\n"
        "uncertainty: sum\n"
        "burette: 0.1 cm3\n"
        "rounding: even\n"
        "duplex: true\n"
        "house_style: {volume: mL, units: solidus, sulfur: ph, decimal: comma}\n"
        "standing_controls:\n  - Eye protection is worn.\n  - Hair is tied back.\n"
        "parts:\n  - {title: One, experiments: []}\n"
        "accept:\n  - {check: vague-quantity, why: Tests are qualitative.}\n"
    )
    settings = manual.settings
    assert settings.title == "Practical Chemistry"
    assert settings.institution == "Skerry Point Sixth Form College"
    assert (settings.edition, settings.language) == ("2026-27", "de")
    assert settings.paper is Paper.LETTER
    assert (settings.groups, settings.spare) == (8, parse_quantity("15 %"))
    assert settings.temperature == parse_quantity("24 °C")
    assert settings.pressure == parse_quantity("99 kPa")
    assert settings.uncertainty is Combination.SUM
    assert settings.burette == parse_quantity("0.1 cm3")
    assert settings.rounding is Rounding.EVEN
    assert settings.duplex
    assert settings.house.volume is Volume.ML
    assert settings.house.units is Units.SOLIDUS
    assert settings.house.decimal is DecimalMark.COMMA
    assert settings.sulfur is SulfurSpelling.PH
    assert settings.standing_controls == (
        "Eye protection is worn.",
        "Hair is tied back.",
    )
    assert [a.check for a in manual.accepts] == ["vague-quantity"]
    assert manual.file == "content/manual.yaml"
    assert not manual.noted


def test_everything_but_title_and_parts_has_a_default() -> None:
    manual = settings_of("title: T\nparts: []\n")
    settings = manual.settings
    assert (settings.groups, settings.spare) == (12, parse_quantity("10 %"))
    assert (settings.paper, settings.language) == (Paper.A4, "en-GB")
    assert settings.temperature == parse_quantity("20 °C")
    assert settings.pressure == parse_quantity("101 kPa")
    assert settings.burette == parse_quantity("0.05 cm3")
    assert settings.house.volume is Volume.CM3
    assert not settings.duplex
    assert not manual.noted


def test_experiments_are_numbered_through_the_parts() -> None:
    manual = settings_of(
        "title: T\nparts:\n"
        "  - title: One\n    experiments: [a, b]\n"
        "  - title: Two\n    experiments: [{id: c, number: 2a}, d, {id: e, number: 7}, f]\n"
    )
    assert [(e.experiment, e.number) for e in manual.entries()] == [
        ("a", "1"),
        ("b", "2"),
        ("c", "2a"),
        ("d", "3"),
        ("e", "7"),
        ("f", "8"),
    ]
    assert [p.title for p in manual.parts] == ["One", "Two"]


def test_experiments_come_in_the_manuals_order_and_the_others_last() -> None:
    files = dict.fromkeys(("z.md", "deep/er/y.md", "a.md", "b.md"), VINEGAR)
    files["manual.yaml"] = "title: T\nparts: [{title: P, experiments: [y, b]}]\n"
    manual, lines = manual_of(files)
    assert [e.id for e in manual.experiments] == ["y", "b", "a", "z"]
    assert manual.experiments[0].file == "content/deep/er/y.md"
    assert set(lines) == {f"content/{name}" for name in files}
    assert lines["content/a.md"][1] == "title: Vinegar"


def test_a_smaller_manual_holds_what_it_lists_and_keeps_the_house_style() -> None:
    files = {
        "a.md": VINEGAR,
        "b.md": VINEGAR,
        "manual.yaml": "title: T\nburette: 0.1 cm3\nparts: [{title: P, experiments: [a, b]}]\n",
        "manual-short.yaml": "title: Short\nparts: [{title: P, experiments: [b]}]\n",
    }
    manual, _ = manual_of(files, "short")
    assert manual.file == "content/manual-short.yaml"
    assert [e.id for e in manual.experiments] == ["b"]
    assert manual.settings.title == "Short"
    assert manual.settings.burette == parse_quantity("0.1 cm3")
    assert not manual.noted


@pytest.mark.parametrize(
    ("text", "check", "at"),
    [
        ("", "missing-section", "1:1"),
        ("parts: []\n", "missing-section", "1:1"),
        ("- a list\n", "missing-section", "1:1"),
        ("title: T\nparst: []\n", "source-syntax", "2:1"),
        ("title: T\npaper: A5\n", "source-syntax", "2:8"),
        ("title: T\nlanguage: '<b>'\n", "source-syntax", "2:12"),
        ("title: T\nclass: {groups: many}\n", "source-syntax", "2:17"),
        ("title: T\nclass: 12\n", "source-syntax", "2:8"),
        ("title: T\nclass: {groups: 12, sapre: 1 %}\n", "source-syntax", "2:21"),
        ("title: T\nconditions: {pressure: 20 °C}\n", "unit-dimension", "2:24"),
        ("title: T\nburette: 0.05 cmm\n", "unit-unknown", "2:15"),
        ("title: T\nduplex: maybe\n", "source-syntax", "2:9"),
        ("title: T\nhouse_style: {sulfur: v}\n", "source-syntax", "2:23"),
        ("title: T\nstanding_controls: [Goggles: on]\n", "source-syntax", "2:21"),
        ("title: T\nparts: [a]\n", "source-syntax", "2:9"),
        (
            "title: T\nparts: [{title: P, experiments: [a, a]}]\n",
            "duplicate-id",
            "2:37",
        ),
        (
            "title: T\nparts: [{title: P, experiments: [a, {id: b, number: 1}]}]\n",
            "duplicate-id",
            "2:42",
        ),
        (
            "title: T\nparts: [{title: P, experiments: [[a]]}]\n",
            "source-syntax",
            "2:34",
        ),
        (
            "title: T\nparts: [{title: P, experiments: [{number: 4}]}]\n",
            "source-syntax",
            "2:34",
        ),
        (
            "title: T\nparts: [{title: P, experiments: [{id: b, number: four}]}]\n",
            "source-syntax",
            "2:50",
        ),
    ],
)
def test_slips_in_the_manuals_settings_are_found(
    text: str, check: str, at: str
) -> None:
    assert [(c, w) for c, w, _ in found(settings_of(text).noted)] == [(check, at)]


def test_a_missing_manual_is_a_finding_and_hides_nothing() -> None:
    manual, _ = manual_of({"a.md": VINEGAR})
    assert [c for c, _, _ in found(manual.noted)] == ["source-syntax"]
    assert [e.id for e in manual.experiments] == ["a"]


def test_two_files_of_one_name_are_a_finding_at_the_second() -> None:
    manual, _ = manual_of(
        {
            "manual.yaml": "title: T\nparts: []\n",
            "acids/x.md": VINEGAR,
            "bases/x.md": VINEGAR,
            "bases/X.md": VINEGAR,
        }
    )
    places = [str(n.fault.place) for n in manual.noted]
    assert [n.check for n in manual.noted] == ["duplicate-id", "duplicate-id"]
    assert places == ["content/bases/X.md:1:1", "content/bases/x.md:1:1"]


@pytest.mark.parametrize(
    "name", ["two words.md", "index.md", "ünï.md", ".md", "a.b.md"]
)
def test_a_file_whose_name_makes_no_page_is_a_finding(name: str) -> None:
    manual, _ = manual_of({"manual.yaml": "title: T\nparts: []\n", name: VINEGAR})
    (experiment,) = manual.experiments
    assert [n.check for n in experiment.noted] == ["source-syntax"]


STORE = """\
sodium hydroxide:
  formula: NaOH
  supplied: pellets, purity 98 %, pack 500 g
  also: [caustic soda]
  hazards: [H290, H314]
  signal: Danger
  source: Supplier's safety data sheet, rev. 4
  disposal: sink
  shelf: B4
litmus solution:
  hazards: []
  source: not classified by its supplier
lead(II) nitrate:
  hazards: {solid: [H302, H360Df], up to 0.02 mol/dm3: []}
  source: Supplier
  disposal: collect: lead residues
iodine:
  disposal: {collect: halogens}
lichen:
"""


def stored(text: str) -> Manual:
    files = {"manual.yaml": "title: T\nparts: []\n", "chemicals.yaml": text}
    return manual_of(files)[0]


def test_the_departments_chemicals_are_read() -> None:
    manual = stored(STORE)
    alkali, litmus, lead, iodine, lichen = manual.chemicals
    assert (alkali.name, alkali.formula) == ("sodium hydroxide", "NaOH")
    assert alkali.supplied == "pellets, purity 98 %, pack 500 g"
    assert alkali.also == ("caustic soda",)
    assert alkali.hazards == (StoredForm("", None, ("H290", "H314")),)
    assert (alkali.signal, alkali.disposal) == ("Danger", "sink")
    assert alkali.source == "Supplier's safety data sheet, rev. 4"
    assert alkali.more == (("shelf", "B4"),)
    assert litmus.hazards == (StoredForm("", None, ()),)
    assert lead.hazards == (
        StoredForm("solid", None, ("H302", "H360Df")),
        StoredForm("up to 0.02 mol/dm3", parse_quantity("0.02 mol/dm3"), ()),
    )
    assert lead.disposal == "collect: lead residues"
    assert iodine.disposal == "collect: halogens"
    assert (lichen.formula, lichen.hazards) == (None, None)
    assert where(alkali.place) == "1:1"
    assert not manual.noted


@pytest.mark.parametrize(
    ("text", "check", "at"),
    [
        ("x:\n  formla: NaOH\n", "source-syntax", "2:3"),
        ("x:\n  formula: NaXx\n", "formula-invalid", "2:14"),
        ("x:\n  hazards: [H314]\n", "source-syntax", "2:12"),
        ("x:\n  hazards: [314]\n  source: s\n", "source-syntax", "2:13"),
        ("x:\n  hazards: {up to 2 gq: []}\n  source: s\n", "unit-unknown", "2:21"),
        ("x:\n  signal: Beware\n", "source-syntax", "2:11"),
        ("x:\n  disposal: river\n", "source-syntax", "2:13"),
        ("x:\n  also: a\nx:\n  also: b\n", "duplicate-id", "3:1"),
        ("x:\n  disposal: [sink]\n", "source-syntax", "2:13"),
        ("- x\n", "source-syntax", "1:1"),
        ("x: 5\n", "source-syntax", "1:4"),
    ],
)
def test_slips_in_the_store_are_found(text: str, check: str, at: str) -> None:
    assert [(c, w) for c, w, _ in found(stored(text).noted)] == [(check, at)]


def test_the_departments_apparatus_is_read() -> None:
    manual, _ = manual_of(
        {
            "manual.yaml": "title: T\nparts: []\n",
            "apparatus.yaml": "potometer:\n"
            "  also: [capillary potometer]\n"
            "  capacity: [5 cm3, 10 cm3]\n"
            "  resolution: 0.1 cm3\n"
            "  consumable: false\n"
            "splint:\n"
            "  capacity: 15 cm\n"
            "  consumable: true\n",
        }
    )
    potometer, splint = manual.apparatus
    assert potometer.also == ("capillary potometer",)
    assert potometer.capacities == (parse_quantity("5 cm3"), parse_quantity("10 cm3"))
    assert potometer.resolution == parse_quantity("0.1 cm3")
    assert not potometer.consumable
    assert splint.capacities == (parse_quantity("15 cm"),)
    assert splint.consumable
    assert not manual.noted


def test_a_capacity_without_a_unit_of_its_own_is_found() -> None:
    manual, _ = manual_of(
        {
            "manual.yaml": "title: T\nparts: []\n",
            "apparatus.yaml": "potometer:\n  capacity: 5 cmm\n",
        }
    )
    assert [(c, w) for c, w, _ in found(manual.noted)] == [("unit-unknown", "2:15")]


def test_one_bad_file_hides_nothing_of_another() -> None:
    manual, _ = manual_of(
        {
            "manual.yaml": "title: [\nparts: []\n",
            "chemicals.yaml": "x: {formula: NaXx}\n",
            "apparatus.yaml": b"\xff\xfe",
            "binary.md": bytes(range(256)),
            "bad.md": f"---\ntitle: B\n---\n\n`Xx`\n\n{METHOD}",
            "good.md": VINEGAR,
        }
    )
    files = {n.fault.place.file for n in manual.noted}
    assert files == {
        "content/manual.yaml",
        "content/chemicals.yaml",
        "content/apparatus.yaml",
    }
    by_id = {e.id: [n.check for n in e.noted] for e in manual.experiments}
    assert by_id == {
        "binary": ["source-syntax"],
        "bad": ["formula-invalid"],
        "good": [],
    }
