"""What the steps do with chemicals, read from plain sentences."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.model.experiment import Experiment
from manualgen.model.place import Place
from manualgen.model.text import QuantitySpan, Words
from manualgen.quantities import parse_quantity
from manualgen.working.handling import handlings, strengths_said
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import line_up
from manualgen.working.materials import Materials
from manualgen.working.method import Passage, Voice
from manualgen.working.naming import named_in
from manualgen.working.prose import prose_of
from manualgen.working.worked import Worked

WorkOut = Callable[..., Worked]

LIST = """\
chemicals:
  - sodium hydroxide, 0.100 mol/dm3, 200 cm3
  - hydrochloric acid, 0.100 mol/dm3, 200 cm3
  - hydrochloric acid, 2.0 mol/dm3, 20 cm3
  - zinc powder, 2.0 g
apparatus: [conical flask, measuring cylinder, 4 test-tubes]
"""


def materials(work_out: WorkOut, steps: str) -> Materials:
    text = f"---\ntitle: Steps\n{LIST}---\n\n## Method\n\n{steps}\n"
    return work_out(text).experiments[0].materials


@pytest.mark.parametrize(
    ("step", "entry", "amount", "times"),
    [
        ("Put `25.0 cm3` of the sodium hydroxide into the flask.", 0, "25.0 cm3", 1),
        ("Put `5 cm3` of the alkali into each of four test-tubes.", 0, "5 cm3", 4),
        ("Take three `10 cm3` portions of sodium hydroxide.", 0, "10 cm3", 3),
        ("Add `10 cm3` of `2.0 mol/dm3` hydrochloric acid.", 2, "10 cm3", 1),
        ("Add zinc powder, `0.50 g`, to the flask.", 3, "0.50 g", 1),
        ("Add the zinc (`0.50 g`).", 3, "0.50 g", 1),
        ("Add another `0.50 g` of zinc.", 3, "0.50 g", 1),
    ],
)
def test_an_amount_belongs_to_its_chemical(
    work_out: WorkOut, step: str, entry: int, amount: str, times: int
) -> None:
    (handling,) = materials(work_out, f"1. {step}").handlings
    assert handling.named.sole == entry
    assert handling.amount == parse_quantity(amount)
    assert handling.times == times


@pytest.mark.parametrize(
    "step",
    [
        "Do not add `25 cm3` of sodium hydroxide.",
        "Leave the flask at `25 °C` with the alkali.",
        "Pour `25 cm3` of the mixture away.",
        "Put `25 cm3` of your diluted sodium hydroxide into the flask.",
    ],
)
def test_an_amount_of_something_else_is_no_handling(
    work_out: WorkOut, step: str
) -> None:
    assert materials(work_out, f"1. {step}").handlings == ()


def test_what_is_measured_and_then_poured_is_handled_once(work_out: WorkOut) -> None:
    steps = (
        "1. Measure `25 cm3` of the sodium hydroxide in the measuring cylinder.\n"
        "2. Add `25 cm3` of the sodium hydroxide to the flask.\n"
    )
    assert len(materials(work_out, steps).handlings) == 1


def test_an_amount_spoken_of_again_is_handled_once(work_out: WorkOut) -> None:
    steps = "1. Put `2.0 g` of zinc into the flask.\n2. Stir the `2.0 g` of zinc.\n"
    assert len(materials(work_out, steps).handlings) == 1


def test_what_the_student_decides_is_open(work_out: WorkOut) -> None:
    (handling,) = materials(
        work_out, "1. Choose between `5 cm3` and `10 cm3` of sodium hydroxide."
    ).handlings
    assert handling.open_ended


def test_short_names_mean_the_one_entry_that_fits(work_out: WorkOut) -> None:
    found = materials(work_out, "1. Add the zinc to the alkali, then the acid.")
    assert found.used == {0, 1, 2, 3}


def test_only_the_method_uses(work_out: WorkOut) -> None:
    text = (
        f"---\ntitle: Steps\n{LIST}---\n\n## Theory\n\nZinc reacts.\n\n"
        "## Method\n\n1. Look.\n\n   > **Teacher:** Sodium hydroxide is ready.\n"
    )
    assert work_out(text).experiments[0].materials.used == frozenset()


WORDS = [
    "Add",
    "the",
    "acid",
    "into",
    "each of",
    "four",
    "test-tubes",
    ".",
    ",",
    "(",
    ")",
]
WORDS += ["sodium hydroxide", "some", "flask", "until", "another", "\n", "of", "excess"]
PLACE = Place("x.md", 1, 1)
AMOUNT = QuantitySpan(parse_quantity("5 cm3"), "5 cm3", PLACE)
STRENGTH = QuantitySpan(parse_quantity("0.1 mol/dm3"), "0.1 mol/dm3", PLACE)


@given(st.lists(st.sampled_from([*WORDS, AMOUNT, STRENGTH]), max_size=25))
def test_no_sentence_makes_the_reader_of_steps_fail(
    parts: list[str | QuantitySpan],
) -> None:
    spans = [Words(f"{p} ", PLACE) if isinstance(p, str) else p for p in parts]
    prose = prose_of(tuple(spans))
    laboratory = Laboratory()
    lineup = line_up(Experiment("x", "x.md", "X", PLACE), laboratory)
    named = named_in(Passage(prose, Voice.STEP, 0, 1), lineup, laboratory)
    amounts = sum(1 for s in spans if s is AMOUNT)
    assert len(tuple(handlings([named]))) <= amounts
    assert len(tuple(strengths_said([named]))) <= len(spans) - amounts
