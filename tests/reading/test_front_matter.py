"""The settings of an experiment: chemicals, apparatus, times, acceptances."""

from __future__ import annotations

import datetime

import pytest

from manualgen.model.experiment import Accept
from manualgen.model.lab import (
    GlassClass,
    ListedApparatus,
    ListedChemical,
    ShareBy,
    Sharing,
    StrengthWord,
)
from manualgen.quantities import parse_quantity

from .shelf import read, read_settings, shown


def chemical(line: str) -> ListedChemical:
    page = read_settings(f"chemicals:\n  - {line}")
    assert not page.faults
    (only,) = page.experiment.chemicals
    return only


def piece(line: str) -> ListedApparatus:
    page = read_settings(f"apparatus:\n  - {line}")
    assert not page.faults
    (only,) = page.experiment.apparatus
    return only


def test_every_key_of_the_format_is_read() -> None:
    page = read_settings(
        "time: 70 min\n"
        "group: 2\n"
        "chemicals:\n  - vinegar, 30 cm3\n"
        "techniques: [titration, dilution]\n"
        "reviewed: {by: Head of chemistry, date: 2026-06-12, next: 2027-06-12}\n"
        "apparatus:\n  - white tile\n"
        "accept:\n  - {check: vague-quantity, why: Judged by eye.}"
    )
    experiment = page.experiment
    assert (experiment.title, experiment.id) == ("Sample", "sample")
    assert shown(experiment.title_place, page.text) == "Sample"
    assert experiment.file == "content/acids/sample.md"
    assert experiment.time == parse_quantity("70 min")
    assert experiment.group == 2
    assert experiment.techniques == ("titration", "dilution")
    assert experiment.reviewed
    assert experiment.reviewed.by == "Head of chemistry"
    assert experiment.reviewed.date == datetime.date(2026, 6, 12)
    assert experiment.reviewed.due == datetime.date(2027, 6, 12)
    assert [c.name for c in experiment.chemicals] == ["vinegar"]
    assert [a.name for a in experiment.apparatus] == ["white tile"]
    assert experiment.complete
    assert not page.faults


def test_a_chemicals_parts_are_told_apart_by_what_they_measure() -> None:
    for line in (
        "sodium hydroxide, 0.100 mol/dm3, 130 cm3",
        "sodium hydroxide, 130 cm3, 0.100 mol/dm3",
    ):
        found = chemical(line)
        assert found.name == "sodium hydroxide"
        assert found.strength
        assert found.strength.value == parse_quantity("0.100 mol/dm3")
        assert found.amount
        assert found.amount.value == parse_quantity("130 cm3")


def test_each_part_of_a_chemicals_line_has_its_own_column() -> None:
    page = read_settings("chemicals:\n  - sodium hydroxide, 0.100 mol/dm3, 130 cm3")
    (found,) = page.experiment.chemicals
    assert shown(found.name_place, page.text) == "sodium hydroxide"
    assert found.strength
    assert shown(found.strength.place, page.text) == "0.100 mol/dm3"
    assert found.amount
    assert shown(found.amount.place, page.text) == "130 cm3"
    assert shown(found.place, page.text) == "sodium hydroxide, 0.100 mol/dm3, 130 cm3"


def test_a_comma_without_a_blank_is_part_of_the_name() -> None:
    found = chemical("1,2-dibromoethane, 2 cm3")
    assert found.name == "1,2-dibromoethane"


@pytest.mark.parametrize(
    "strength",
    [
        "0.1 mol/dm3",
        "50 mmol/dm3",
        "5 g/dm3",
        "20 mg/dm3",
        "100 ppm",
        "5 % w/v",
        "37 % w/w",
        "70 % v/v",
        "20 vol",
    ],
)
def test_strengths_are_written_in_these_ways(strength: str) -> None:
    found = chemical(f"anything, {strength}, 5 cm3")
    assert found.strength
    assert found.strength.value == parse_quantity(strength)
    assert found.amount


@pytest.mark.parametrize("word", list(StrengthWord))
def test_strengths_may_be_words(word: StrengthWord) -> None:
    found = chemical(f"ethanoic acid, {word}, 5 cm3")
    assert found.strength
    assert found.strength.value is word


@pytest.mark.parametrize("amount", ["2 g", "250 mg", "30 cm3", "5 cm", "3 strips", "2"])
def test_amounts_are_mass_volume_length_or_count(amount: str) -> None:
    found = chemical(f"magnesium, {amount}")
    assert found.strength is None
    assert found.amount
    assert found.amount.value == parse_quantity(amount)


@pytest.mark.parametrize("line", ["5 g, excess", "5 g excess", "excess 5 g"])
def test_excess_stands_beside_the_amount(line: str) -> None:
    found = chemical(f"calcium carbonate, {line}")
    assert found.excess
    assert found.amount
    assert found.amount.value == parse_quantity("5 g")


def test_words_that_are_read() -> None:
    assert chemical("x, 2 per class").shared == Sharing(2, ShareBy.CLASS)
    assert chemical("x, per station").shared == Sharing(1, ShareBy.STATION)
    assert chemical("x, 5 g, for disposal").for_disposal
    assert chemical("x, 5 g, for spills").for_spills
    assert chemical("x, 5 g, weighed out").weighed_out


def test_other_words_are_kept() -> None:
    assert chemical("copper(II) oxide, 2 g, fine powder").words == ("fine powder",)
    assert piece("beaker, 100 cm3, tall form").words == ("tall form",)


def test_the_same_chemical_may_stand_twice() -> None:
    page = read_settings(
        "chemicals:\n"
        "  - hydrochloric acid, 0.1 mol/dm3, 5 cm3\n"
        "  - hydrochloric acid, 2.0 mol/dm3, 5 cm3"
    )
    assert len(page.experiment.chemicals) == 2
    assert not page.faults


def test_the_mapping_form_knows_spare_sharing_and_solvent() -> None:
    found = chemical(
        "{name: iron(II) sulfate, strength: 0.1 mol/dm3, amount: 50 cm3, spare: 20 %,"
        ' per: class, in: "sulfuric acid, 1.0 mol/dm3"}'
    )
    assert found.name == "iron(II) sulfate"
    assert found.spare == parse_quantity("20 %")
    assert found.shared == Sharing(1, ShareBy.CLASS)
    assert found.solvent == "sulfuric acid"
    assert found.solvent_strength
    assert found.solvent_strength.value == parse_quantity("1.0 mol/dm3")


def test_a_solvents_strength_needs_no_quotes() -> None:
    found = chemical(
        "{name: iron(II) sulfate, in: sulfuric acid, 1.0 mol/dm3, amount: 5 g}"
    )
    assert found.solvent == "sulfuric acid"
    assert found.solvent_strength
    assert found.solvent_strength.value == parse_quantity("1.0 mol/dm3")
    assert found.amount


def test_words_may_follow_a_value_between_braces() -> None:
    found = chemical("{name: x, 2 per class, amount: 50 cm3, for disposal}")
    assert found.for_disposal
    assert found.shared == Sharing(2, ShareBy.CLASS)
    assert found.amount
    assert found.amount.value == parse_quantity("50 cm3")


@pytest.mark.parametrize(
    "settings",
    [
        "chemicals:\n  - {nam: x, amount: 5 g}",
        "chemicals:\n  - sodium chloride: 5 g",
        "accept: [{chek: x, why: y}]",
    ],
)
def test_a_misspelt_key_is_not_also_a_missing_one(settings: str) -> None:
    assert len(read_settings(settings).faults) == 1


def test_a_misspelt_title_is_one_finding() -> None:
    page = read("---\ntilte: T\n---\n\n## Method\n\n1. Go.\n")
    assert page.faults == [("source-syntax", "2:1", "title")]


def test_an_unknown_strength_has_a_name_for_students() -> None:
    found = chemical(
        "{name: sodium hydroxide, shown: solution A, made: 0.0960 mol/dm3, amount: 120 cm3}"
    )
    assert (found.name, found.shown) == ("sodium hydroxide", "solution A")
    assert found.made
    assert found.made.value == parse_quantity("0.0960 mol/dm3")


def test_an_unknown_may_differ_by_group() -> None:
    page = read_settings(
        "chemicals:\n  - {shown: white solid, sets: {groups 1-4: sodium carbonate, "
        "groups 5–8: potassium chloride, group 9: ammonium chloride}, amount: 2 g}"
    )
    (found,) = page.experiment.chemicals
    assert (found.name, found.shown) == ("white solid", "white solid")
    assert [(s.first_group, s.last_group, s.name) for s in found.sets] == [
        (1, 4, "sodium carbonate"),
        (5, 8, "potassium chloride"),
        (9, 9, "ammonium chloride"),
    ]
    assert shown(found.sets[1].place, page.text) == "potassium chloride"
    assert not page.faults


def test_a_set_may_have_a_strength_of_its_own() -> None:
    page = read_settings(
        "chemicals:\n  - shown: solution B\n    sets:\n"
        "      groups 1-6: sodium chloride, 0.1 mol/dm3\n      groups 7-12: water"
    )
    first, second = page.experiment.chemicals[0].sets
    assert first.strength
    assert first.strength.value == parse_quantity("0.1 mol/dm3")
    assert second.strength is None


def test_apparatus_has_count_capacity_class_and_sharing() -> None:
    found = piece("3 conical flasks, 250 cm3")
    assert (found.count, found.name) == (3, "conical flasks")
    assert found.capacity == parse_quantity("250 cm3")
    assert piece("burette, 50 cm3, class B").glass_class is GlassClass.B
    balance = piece("balance, reading to 0.01 g, 2 per class")
    assert balance.resolution == parse_quantity("0.01 g")
    assert balance.shared == Sharing(2, ShareBy.CLASS)
    assert balance.capacity is None
    assert piece("thermometer, −10 to 110 °C").capacity == parse_quantity(
        "−10 to 110 °C"
    )


def test_two_strips_of_a_paper_are_a_count_and_no_capacity() -> None:
    found = piece("2 strips of blue litmus paper")
    assert (found.count, found.capacity) == (2, None)
    assert found.name == "strips of blue litmus paper"


def test_a_capacity_before_the_name_is_read_as_it_was_meant() -> None:
    page = read_settings("apparatus:\n  - 25 cm3 pipette, class B")
    (found,) = page.experiment.apparatus
    assert (found.name, found.count) == ("pipette", 1)
    assert found.capacity == parse_quantity("25 cm3")


def test_yaml_does_not_turn_chemistry_into_numbers_and_truths() -> None:
    assert chemical("NO, 5 cm3").name == "NO"
    page = read_settings("techniques: [NO, 1:10, 0.100, 1e-5, null, ~]")
    assert page.experiment.techniques == ("NO", "1:10", "0.100", "1e-5", "null", "~")


def test_a_comma_in_a_reason_needs_no_quotes() -> None:
    page = read_settings(
        "accept:\n  - {check: a-check, why: By eye, as usual, at: white tile}"
    )
    (accept,) = page.experiment.accepts
    assert (accept.why, accept.words) == ("By eye, as usual", "white tile")
    assert not page.faults


def test_an_accept_may_narrow_itself_to_words() -> None:
    page = read_settings("accept: [{check: x, why: y, at: swirl}]")
    (accept,) = page.experiment.accepts
    assert isinstance(accept, Accept)
    assert accept.words == "swirl"


def test_empty_keys_count_as_left_out() -> None:
    page = read_settings("time:\nchemicals:\napparatus: []\ngroup:")
    assert not page.faults
    assert page.experiment.chemicals == ()


@pytest.mark.parametrize(
    ("settings", "check", "at", "mend"),
    [
        ("tme: 70 min", "source-syntax", "tme", "time"),
        ("Time: 70 min", "source-syntax", "Time", "time"),
        ("time: 70 min\ntime: 80 min", "source-syntax", "time: 80", None),
        ("time: 70 mol", "unit-dimension", "70 mol", None),
        ("time: 70 minn", "unit-unknown", "minn", "min"),
        ("time: soon", "source-syntax", "soon", None),
        ("time: [70 min]", "source-syntax", "[70", None),
        ("group: two", "source-syntax", "two", None),
        ("group: 0", "source-syntax", "0", None),
        ("group: 99999999", "source-syntax", "99999999", None),
        ("reviewed: yesterday", "source-syntax", "yesterday", None),
        ("techniques: ['turning [_blue_]']", "source-syntax", "[_blue_]", None),
        ("reviewed: {date: 12 June}", "source-syntax", "12 June", None),
        ("reviewed: {nxt: x}", "source-syntax", "nxt", "next"),
        ("chemicals:\n  - salt, 5 gq", "unit-unknown", "gq", "g"),
        ("chemicals:\n  - salt, 5 min", "unit-dimension", "5 min", None),
        ("chemicals:\n  - salt, 5 g, 6 g", "source-syntax", "6 g", None),
        ("chemicals:\n  - salt, 5 g, excss", "source-syntax", "excss", "excess"),
        (
            "chemicals:\n  - salt, 5 g, for dispsal",
            "source-syntax",
            "for d",
            "for disposal",
        ),
        ("chemicals:\n  - [salt]", "source-syntax", "[salt]", None),
        ("chemicals:\n  - {strength: 5 g/dm3}", "source-syntax", "{strength", None),
        ("chemicals:\n  - {name: x, amont: 5 g}", "source-syntax", "amont", "amount"),
        (
            "chemicals:\n  - {name: x, amount: 5 mol/dm3}",
            "unit-dimension",
            "5 mol",
            None,
        ),
        ("chemicals:\n  - {name: x, strength: 5 g}", "unit-dimension", "5 g", None),
        ("chemicals:\n  - {name: x, spare: 5 g}", "unit-dimension", "5 g", None),
        ("chemicals:\n  - {name: x, per: week}", "source-syntax", "week", None),
        ("chemicals:\n  - {shown: x, sets: [a]}", "source-syntax", "[a]", None),
        ("chemicals:\n  - {shown: x, sets: {all: a}}", "source-syntax", "all", None),
        (
            "chemicals:\n  - {shown: x, sets: {groups 1-4: a, groups 4-8: b}}",
            "source-syntax",
            "groups 4",
            None,
        ),
        (
            "apparatus:\n  - 25 cm3 pipette",
            "source-syntax",
            "25 cm3",
            "pipette, 25 cm3",
        ),
        ("apparatus:\n  - beaker, 100 cmm", "unit-unknown", "cmm", None),
        ("apparatus:\n  - burette, clas B", "source-syntax", "clas B", "class B"),
        ("apparatus:\n  - {name: beaker}", "source-syntax", "{name", None),
        ("apparatus:\n  - beaker, 1 cm3, 2 cm3", "source-syntax", "2 cm3", None),
        ("chemicals:\n  - x, 1 g/dm3, 2 g/dm3", "source-syntax", "2 g/dm3", None),
        ("chemicals:\n  - {name: x, in: [y]}", "source-syntax", "[y]", None),
        (
            'chemicals:\n  - {name: x, in: "y, 1 g/dm3, 2 cm3"}',
            "source-syntax",
            "2 cm3",
            None,
        ),
        ("? [a]\n: b", "source-syntax", "[a]", None),
        ("techniques: [{a: b}]", "source-syntax", "{a", None),
        ("accept: [{check: x}]", "source-syntax", "{check", None),
        ("accept: [vague-quantity]", "source-syntax", "vague", None),
        ("accept: [{check: x, wy: y, why: z}]", "source-syntax", "wy", "why"),
    ],
)
def test_slips_in_the_settings_are_found_at_their_words(
    settings: str, check: str, at: str, mend: str | None
) -> None:
    page = read_settings(settings)
    assert [(c, w) for c, w, _ in page.faults] == [(check, page.at(at))]
    assert mend is None or page.faults[0][2] == mend


def test_an_escape_in_quotes_is_placed_by_its_whole_value() -> None:
    page = read_settings('chemicals:\n  - "salt\\x20, 5 gq"')
    assert [(c, w) for c, w, _ in page.faults] == [("unit-unknown", page.at('"salt'))]


@pytest.mark.parametrize(
    ("settings", "words"),
    [
        ("time: Lesson: 70 min", "quotes"),
        ("time: [70 min", "bracket"),
        ('time: "70 min', "not closed"),
        ("techniques:\n\t- tab", "tab"),
        ("techniques: *all", "quote"),
        ("techniques: &all [a]", "anchor"),
        ("techniques: !!python/object:os.system [a]", "tag"),
        ("techniques: @a", "quotes"),
        ("group 2", "colon"),
    ],
)
def test_yaml_that_cannot_be_read_is_explained_in_our_own_words(
    settings: str, words: str
) -> None:
    page = read_settings(settings)
    (noted,) = page.experiment.noted
    assert noted.check == "source-syntax"
    assert words in noted.fault.message
    assert not page.experiment.complete


def test_what_stands_before_a_fault_in_the_settings_is_read() -> None:
    page = read_settings("group: 2\nchemicals:\n  - salt, 5 g\ntime: a: b")
    assert page.experiment.title == "Sample"
    assert page.experiment.group == 2
    assert [c.name for c in page.experiment.chemicals] == ["salt"]


def test_settings_that_are_never_closed_end_at_the_first_heading() -> None:
    page = read("---\ntitle: Open\n\n## Method\n\n1. Go.\n")
    mend = "a line --- before ## Method"
    assert page.faults == [("source-syntax", "1:1", mend)]
    assert page.experiment.title == "Open"
    assert len(page.experiment.sections) == 1
