"""Controls, incompatibilities, disposal and precautions: common practice, no source,
but for the precautionary statements, whose codes are those of CLP Annex I.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from manualgen.knowledge import Chemical, chemicals, classify, find_chemical
from manualgen.knowledge.controls import controls, controls_named, needs
from manualgen.knowledge.disposal import (
    barred_from_sink,
    disposal_route,
    route_advice,
    says_collect,
    says_sink,
)
from manualgen.knowledge.incompatible import InUse, incompatibility, pairs
from manualgen.knowledge.label import elements_of
from manualgen.knowledge.precautions import (
    label_statements,
    precautionary_statements,
    response_statements,
)
from manualgen.quantities import parse_quantity


def chemical(name: str) -> Chemical:
    found = find_chemical(name)
    assert found is not None, name
    return found


def asked(name: str, strength: str | None = None, *, evolved: bool = False) -> set[str]:
    found = classify(chemical(name), parse_quantity(strength) if strength else None)
    assert found is not None
    reasons = [n for n in needs() if n.asked_by(chemical(name), found, evolved=evolved)]
    return {control for need in reasons for control in need.controls}


def test_dilute_and_strong_alkali_ask_for_eye_protection_and_neutral_salt_for_nothing() -> (
    None
):
    assert "eye protection" in asked("sodium hydroxide", "2 mol/dm3")
    assert "eye protection" in asked("sodium hydroxide", "0.1 mol/dm3")
    assert asked("sodium chloride", "1 mol/dm3") == set()


def test_gases_ask_for_ventilation_where_they_are_toxic() -> None:
    assert "ventilation" in asked("chlorine", evolved=True)
    assert "ventilation" in asked("sulfur dioxide", evolved=True)
    assert "no flames" in asked("hydrogen", evolved=True)
    assert asked("carbon dioxide", evolved=True) == set()


def test_a_flammable_liquid_asks_for_no_flames() -> None:
    assert "no flames" in asked("ethanol")


@pytest.mark.parametrize(
    ("text", "control"),
    [
        ("Everyone wears eye protection.", "eye protection"),
        ("Goggles must be worn.", "eye protection"),
        ("Work in the fume cupboard.", "ventilation"),
        ("Keep the room well ventilated.", "ventilation"),
        ("Keep the ethanol away from naked flames.", "no flames"),
        ("Turn the Bunsens off first: no flames in the room.", "no flames"),
        (
            "Take the delivery tube out of the water before you stop heating.",
            "no sucking back",
        ),
        ("The crucible stays hot for some minutes.", "hot apparatus"),
    ],
)
def test_a_control_is_known_by_the_words_that_teachers_use(
    text: str, control: str
) -> None:
    assert control in controls_named(text)


def test_every_need_asks_for_controls_that_have_words() -> None:
    for need in needs():
        assert set(need.controls) <= set(controls()), need


@pytest.mark.parametrize(
    ("one", "other", "because"),
    [
        ("bleach", "hydrochloric acid", "chlorine"),
        ("bleach", "vinegar", "chlorine"),
        ("sodium chlorate(I)", "ammonia", "chloramines"),
        ("ammonium chloride", "household bleach", "chloramines"),
        ("iodine", "0.880 ammonia", "nitrogen triiodide"),
        ("zinc powder", "sulfur", "violently"),
        ("sodium sulfide", "hydrochloric acid", "hydrogen sulfide"),
        ("magnesium powder", "copper(II) oxide", "explosively"),
    ],
)
def test_what_must_not_meet_is_known_either_way_round(
    one: str, other: str, because: str
) -> None:
    for a, b in ((one, other), (other, one)):
        pair = incompatibility(InUse(chemical(a)), InUse(chemical(b)))
        assert pair is not None
        assert because in pair.because


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("hydrochloric acid", "sodium hydroxide"),
        ("hydrochloric acid", "calcium carbonate"),
        ("hydrogen peroxide", "manganese(IV) oxide"),
        ("sodium thiosulfate", "hydrochloric acid"),
        ("potassium iodide", "hydrogen peroxide"),
        ("copper(II) oxide", "sulfuric acid"),
        ("iodine solution", "aqueous ammonia"),
    ],
)
def test_what_meets_in_every_laboratory_is_no_incompatibility(
    one: str, other: str
) -> None:
    five = Decimal(5)
    assert (
        incompatibility(InUse(chemical(one), five), InUse(chemical(other), five))
        is None
    )


def test_every_half_of_a_pair_is_a_chemical_or_a_family_of_some() -> None:
    families = {kin for c in chemicals() for kin in c.kin}
    for pair in pairs():
        for side in (pair.one, pair.other):
            assert side.name in families or find_chemical(side.name) is not None, (
                side.name
            )


def test_every_route_has_its_advice() -> None:
    for each in chemicals():
        route = disposal_route(each)
        assert route is not None, each.name
        assert route_advice(route), route


@pytest.mark.parametrize(
    "name",
    [
        "silver nitrate",
        "lead(II) nitrate",
        "potassium dichromate(VI)",
        "cobalt chloride",
        "nickel(II) sulfate",
        "cyclohexane",
        "propanone",
    ],
)
def test_some_things_never_go_down_the_sink(name: str) -> None:
    assert barred_from_sink(chemical(name))


@pytest.mark.parametrize(
    "name",
    [
        "sodium chloride",
        "ethanol",
        "hydrochloric acid",
        "ethanoic acid",
        "iron(II) sulfate",
    ],
)
def test_most_things_may_where_local_rules_allow(name: str) -> None:
    assert barred_from_sink(chemical(name)) is None


def test_a_sentence_says_whether_the_sink_is_meant() -> None:
    assert says_sink("Wash the rest down the sink with plenty of water.")
    assert not says_sink("Nothing goes down the sink.")
    assert says_collect("Empty the tubes into the silver residues bottle.")


def test_every_class_has_texts_for_its_precautions() -> None:
    texts = set(precautionary_statements())
    for each in chemicals():
        found = classify(each)
        for hazard in found.classes if found else ():
            e = elements_of(hazard)
            assert {*e.prevention, *e.response, *e.storage, *e.disposal} <= texts


def test_the_response_to_a_corrosive_is_annex_i_table_3_2_5_in_number_order() -> None:
    found = classify(chemical("sodium hydroxide"), parse_quantity("2 mol/dm3"))
    assert found is not None
    assert [p.code for p in response_statements(found.classes)] == [
        "P301+P330+P331",
        "P303+P361+P353",
        "P304+P340",
        "P305+P351+P338",
        "P310",
        "P363",
    ]


def test_a_label_has_at_most_six_precautions() -> None:
    """CLP Article 28(3)."""
    for each in chemicals():
        found = classify(each)
        assert found is None or len(label_statements(found.classes)) <= 6
