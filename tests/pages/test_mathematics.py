"""MathML with words for a voice."""

from __future__ import annotations

from xml.etree.ElementTree import ParseError

import pytest

from manualgen.pages.mathematics import set_math

MATH = '<math xmlns="http://www.w3.org/1998/Math/MathML">{}</math>'


@pytest.mark.parametrize(
    ("inside", "spoken"),
    [
        ("<mfrac><mi>n</mi><mi>V</mi></mfrac>", "n over V"),
        ("<mi>c</mi><mo>·</mo><mi>V</mi>", "c times V"),
        ("<msup><mi>x</mi><mn>2</mn></msup>", "x to the power 2"),
        ("<msqrt><mi>x</mi></msqrt>", "square root of x"),
        ("<mi>a</mi><mo>−</mo><mi>b</mi>", "a minus b"),
    ],
)
def test_mathml_is_read_out_in_words(inside: str, spoken: str) -> None:
    assert f'aria-label="{spoken}"' in set_math(MATH.format(inside))


def test_mathml_that_is_not_well_formed_is_refused() -> None:
    with pytest.raises(ParseError):
        set_math("<math><mi>x</math>")
