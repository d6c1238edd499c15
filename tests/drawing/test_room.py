"""How much text an answer's room holds."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from manualgen.drawing.room import LARGE_RULING_MM, RULING_MM, Fit, fit_text


def test_a_word_fits_on_a_line() -> None:
    assert fit_text(["Yes."], RULING_MM) is Fit.ON_LINES


def test_more_text_is_set_closer_and_in_the_end_has_no_room() -> None:
    fits = [fit_text(["word " * n], 2 * RULING_MM) for n in (10, 60, 100, 400)]
    assert fits == [Fit.ON_LINES, Fit.CLOSE, Fit.CLOSEST, None]


def test_each_paragraph_takes_a_line_of_its_own() -> None:
    assert fit_text(["a", "b", "c"], 3 * RULING_MM) is Fit.ON_LINES
    assert fit_text(["a", "b", "c"], 2 * RULING_MM) is Fit.CLOSE


@given(st.lists(st.text(max_size=200), max_size=5), st.integers(1, 20))
def test_a_larger_room_never_sets_the_text_closer(text: list[str], lines: int) -> None:
    order = [Fit.ON_LINES, Fit.CLOSE, Fit.CLOSEST, None]
    small = fit_text(text, lines * RULING_MM)
    large = fit_text(text, (lines + 1) * RULING_MM)
    assert order.index(large) <= order.index(small)


@given(st.lists(st.text("abc de", max_size=400), max_size=4), st.integers(1, 8))
def test_what_fits_an_ordinary_room_fits_it_in_large_print(
    paragraphs: list[str], lines: int
) -> None:
    if fit_text(paragraphs, lines * RULING_MM) is not None:
        assert fit_text(paragraphs, lines * LARGE_RULING_MM, large=True) is not None
