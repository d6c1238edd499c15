"""The pieces that can be drawn, and the words that mean them."""

from __future__ import annotations

import pytest
import yaml

from manualgen.drawing.apparatus.catalogue import (
    PIECES,
    joint_named,
    kind_named,
    nearest_pieces,
    piece_named,
)
from manualgen.drawing.clamping import LEVEL
from manualgen.drawing.contents import Kind
from manualgen.drawing.geometry import mirrored

ASKED_FOR = """beaker, conical flask, round-bottomed flask, boiling tube, test tube,
test-tube rack, burette, pipette, measuring cylinder, volumetric flask, filter funnel,
gas syringe, trough, gas jar, condenser, still head, thermometer, stirrer, polystyrene
cup, calorimeter, crucible, evaporating basin, tripod, gauze, pipeclay triangle, burner,
hot plate, clamp stand, water bath, ice bath, electrodes, power pack, ammeter,
chromatography tank, balance, desiccator, filter flask, bung, thread, splint"""


def test_every_piece_that_a_manual_asks_for_can_be_drawn() -> None:
    wanted = [" ".join(name.split()) for name in ASKED_FOR.split(",")]
    assert len(wanted) == 40
    assert [name for name in wanted if piece_named(name) is None] == []


def test_the_names_and_the_drawings_are_the_same_set() -> None:
    from importlib.resources import files

    text = (files("manualgen") / "data" / "drawings.yaml").read_text(encoding="utf-8")
    rows = yaml.load(text, Loader=yaml.CBaseLoader)["pieces"]
    assert {row["name"] for row in rows} == set(PIECES)


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("Erlenmeyer flask", "conical flask"),
        ("test tubes", "test-tube"),
        ("large beaker", "beaker"),
        ("Bunsen burner", "burner"),
        ("copper electrode", "metal strip"),
        ("hot-plate", "hot plate"),
        ("bécher", "beaker"),
        ("Bec Bunsen", "burner"),
        ("conical flask with thermometer", None),
        ("flying saucer", None),
        ("", None),
    ],
)
def test_a_piece_is_known_by_its_other_names(words: str, name: str | None) -> None:
    assert piece_named(words) == name


def test_joints_are_known_by_their_names() -> None:
    assert joint_named("rubber tubing") == "delivery tube"
    assert joint_named("crocodile clips") == "lead"
    assert joint_named("string") is None


def test_an_unknown_piece_gets_the_nearest_ones() -> None:
    assert "gas syringe" in nearest_pieces("gas syrenge")
    assert nearest_pieces("zzzz") == ()


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("hydrochloric acid", Kind.LIQUID),
        ("marble chips", Kind.SOLID),
        ("ice", Kind.ICE),
        ("eau", Kind.LIQUID),
        ("hydrogen", Kind.GAS),
        ("sodium chloride solution", Kind.LIQUID),
        ("manganese(IV) oxide", Kind.SOLID),
    ],
)
def test_a_content_looks_like_what_it_is(words: str, kind: Kind) -> None:
    assert kind_named(words) is kind


@pytest.mark.parametrize("name", PIECES)
def test_a_vessel_is_the_same_left_and_right(name: str) -> None:
    shape = PIECES[name].of(None)
    if not shape.cavity or shape.inlet or shape.outlet:
        return
    points = {(round(x, 3), round(y, 3)) for x, y in shape.cavity}
    assert {
        (round(x, 3), round(y, 3)) for x, y in map(mirrored, shape.cavity)
    } == points


@pytest.mark.parametrize("name", PIECES)
def test_a_piece_stands_on_the_origin_or_has_its_end_there(name: str) -> None:
    shape = PIECES[name].of(None)
    level = {*LEVEL}
    hung = {"battery", "ammeter", "voltmeter", "lamp", "receiver adapter", "bung"}
    if name not in level | hung:
        assert shape.box.bottom == pytest.approx(0, abs=0.11)
    assert shape.box.left < shape.label[0] + 0.1
    assert shape.label[0] < shape.box.right + 0.1
