"""How much of each thing `manualgen prepare` tells to make, weigh and set out."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands.preparing import Report, named, row_of
from tests.preparation.weighing import grams_of


def test_a_volume_is_what_the_groups_use_and_the_spare(report: Report) -> None:
    # By hand: 12 groups of 80 cm³ and a tenth is 1056 cm³, made as 1 dm³ and 100 cm³.
    salt = report("salts:12")["solutions"][0]
    assert salt["total_volume"] == {"value": 1056, "unit": "cm3"}
    assert salt["make_volume"] == {"value": 1.1, "unit": "dm3"}
    assert [m["value"] for m in salt["makings"]] == [1000, 100]


def test_a_mass_agrees_with_molmass_and_pint(report: Report) -> None:
    salt = report("salts:12")["solutions"][0]
    expected = grams_of("NaCl", 0.5, 1100)
    assert salt["mass"]["value"] == pytest.approx(expected, abs=0.02)


def test_silver_is_made_as_much_as_is_needed(report: Report) -> None:
    # By hand: 12 × 4 cm³ × 1.1 = 52.8 cm³, for which a 100 cm³ flask is the least.
    silver = named(report("salts:12"), "solutions", "silver nitrate")
    assert sum(m["value"] for m in silver["makings"]) == 100
    assert silver["hazards"]["pictograms"] == ["GHS09"]


def test_a_dropping_bottle_holds_at_least_5_cm3(report: Report) -> None:
    found = report("salts:12")
    indicator = named(found, "solutions", "phenolphthalein solution")
    assert indicator["total_volume"]["value"] == 12 * 5
    told = " ".join(row_of(found, "fill", "phenolphthalein")["how"])
    assert "12 dropping bottles" in told


def test_what_the_class_shares_is_neither_multiplied_nor_given_a_spare(
    report: Report,
) -> None:
    found = report("salts:12")
    acid = named(found, "solutions", "sulfuric acid")
    assert acid["total_volume"]["value"] == 200
    balance = named(found, "apparatus", "balance")
    assert (balance["count"], balance["spare"], balance["shared"]) == (2, 0, True)


def test_what_a_station_shares_counts_for_each_station_that_uses_it(
    report: Report,
) -> None:
    # Station A alone names the sodium chloride; both name the beaker.
    found = report("stations:12")
    assert named(found, "solutions", "sodium chloride")["total_volume"]["value"] == 120
    assert named(found, "apparatus", "beaker")["count"] == 6


def test_apparatus_rounds_its_spare_up(report: Report) -> None:
    tubes = named(report("salts:12"), "apparatus", "test tubes")
    assert (tubes["count"], tubes["spare"]) == (24, 3)
    burette = named(report("salts:12"), "apparatus", "burette")
    assert (burette["capacity"], burette["class"]) == ("50 cm3", "B")


def test_what_is_weighed_out_goes_into_a_container_for_each_group(
    report: Report,
) -> None:
    found = report("salts:12")
    weighed = row_of(found, "weigh", "sodium carbonate")
    assert weighed["amount"].split() == ["1.20", "g"]
    assert "14 labelled containers" in weighed["how"][0]
    assert "2 spare" in weighed["how"][0]


def test_what_is_for_disposal_is_made_and_marked_so(report: Report) -> None:
    found = report("salts:12")
    assert (
        named(found, "solutions", "sodium thiosulfate")["total_volume"]["value"] == 50
    )
    set_out = row_of(found, "set_out", "sodium thiosulfate")
    assert "for disposal" in set_out["how"]


def test_pieces_are_counted(report: Report) -> None:
    set_out = row_of(report("salts:12"), "set_out", "magnesium ribbon")
    assert set_out["amount"] == "12 and 2 spare"


def test_the_same_solution_for_two_classes_is_made_once(report: Report) -> None:
    # By hand: (12 × 80 + 8 × 80) × 1.1 = 1760 cm³.
    found = report("salts:12", "salts:8")
    strong = [s for s in found["solutions"] if s["strength"] == "0.500 mol/dm³"]
    assert [s["total_volume"]["value"] for s in strong] == [1760]
    assert named(found, "apparatus", "test tubes")["count"] == 40
    headings = [a["heading"] for a in found["actions"] if a["action"] == "set_out"]
    assert headings == [
        "Set out: Salts, class 1, 12 groups",
        "Set out: Salts, class 2, 8 groups",
    ]


def test_two_experiments_share_a_solution_of_one_strength(report: Report) -> None:
    # 0.500 and 0.50 mol/dm³ are one solution; by hand (12 × 80 + 10 × 60) × 1.1.
    found = report("salts:12", "lessons:10")
    shared = [s for s in found["solutions"] if s["strength"] == "0.500 mol/dm³"]
    assert [s["total_volume"]["value"] for s in shared] == [1716]


def test_a_part_takes_what_its_steps_use(report: Report) -> None:
    first = report("lessons:10", "--part", "Lesson 1")
    assert [s["name"] for s in first["solutions"]] == ["sodium chloride"]
    assert first["solutions"][0]["total_volume"]["value"] == 110
    assert [p["name"] for p in first["apparatus"]] == ["test tube"]
    second = report("lessons:10", "--part", "lesson 2")
    assert named(second, "solutions", "sodium chloride")["total_volume"]["value"] == 550
    assert second["classes"][0]["part"] == "Lesson 2"


def test_groups_and_spare_are_the_manuals_unless_told(
    report: Report, folder: Path
) -> None:
    assert report("salts")["groups"] == 12
    assert report("salts", "--groups", "5")["groups"] == 5
    generous = report("salts:10", "--spare", "20%")
    assert generous["spare_percent"] == 20
    assert generous["solutions"][0]["total_volume"]["value"] == 960
    assert report("salts:10", "--spare", "0")["spare_percent"] == 0
