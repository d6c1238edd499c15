"""How the pieces of a distillation, a reflux and a filtration fit each other.

Common practice, no source.
"""

from __future__ import annotations

from manualgen.drawing.shape import Style
from tests.drawing.measured import (
    DRAWINGS,
    extent,
    glass,
    is_touching,
    pieces_of,
    shapes,
)
from tests.drawing.seen import far_from
from tests.drawing.setups import parts


def test_water_goes_in_low_and_leaves_high_so_that_a_condenser_fills() -> None:
    for title in ("reflux", "distillation", "fractional distillation"):
        for shape in shapes(DRAWINGS[title]).values():
            if "water in" in shape.others:
                into, out = shape.others["water in"], shape.others["water out"]
                jacket = extent(pieces_of(shape.strokes[:1]))
                assert into[1] > out[1]
                if title != "reflux":
                    assert into[1] > (jacket.top + jacket.bottom) / 2
                    assert out[1] < (jacket.top + jacket.bottom) / 2


def test_the_bulb_of_a_thermometer_is_at_the_arm_of_the_still_head() -> None:
    for title in ("distillation", "fractional distillation"):
        named = {p.name: i for i, p in enumerate(parts(title))}
        layout = DRAWINGS[title].layout
        head, thermometer = (
            layout.shape(named[n]) for n in ("still head", "thermometer")
        )
        bulb = extent(
            pieces_of(tuple(s for s in thermometer.strokes if s.style is Style.SOLID))
        )
        right = max(x for (x, _), _ in glass(head))
        arm = [
            y
            for (x, y), _ in glass(head)
            if 0 < x - extent(glass(thermometer)).right < 3
        ]
        assert right > bulb.right
        assert min(arm) < bulb.bottom < max(arm)


def test_a_distilling_condenser_takes_the_arm_and_ends_in_the_adapter() -> None:
    layout = DRAWINGS["distillation"].layout
    named = {p.name: i for i, p in enumerate(parts("distillation"))}
    head, condenser, adapter = (
        layout.shape(named[n]) for n in ("still head", "condenser", "receiver adapter")
    )
    assert head.outlet
    assert condenser.outlet
    for end, taken in ((head.outlet, condenser), (condenser.outlet, adapter)):
        walls = [far_from(end, [piece]) for piece in glass(taken)]
        assert 1.0 < min(walls) < 2.4


def test_a_funnel_rests_in_the_neck_of_a_flask_its_stem_inside() -> None:
    for title in ("volumetric flask", "filtration"):
        layout = DRAWINGS[title].layout
        named = {p.name: i for i, p in enumerate(parts(title))}
        funnel = next(layout.shape(i) for n, i in named.items() if "funnel" in n)
        flask = next(layout.shape(i) for n, i in named.items() if "flask" in n)
        assert flask.mouth
        rim = flask.mouth.at[1]
        assert is_touching(glass(funnel), glass(flask))
        assert rim < extent(glass(funnel)).bottom < rim + 25
