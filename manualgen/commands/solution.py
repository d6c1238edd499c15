"""``manualgen solution``: how to make one solution, and how to label it."""

from __future__ import annotations

import argparse
import sys
from fractions import Fraction

from manualgen.commands.faults import INVALID, CommandError
from manualgen.knowledge import Chemical, StrengthError, chemicals
from manualgen.model.nearest import nearest
from manualgen.preparation.one_solution import one_solution
from manualgen.preparation.reason import CannotMakeError
from manualgen.quantities import Quantity, QuantityError, parse_quantity
from manualgen.quantities.kinds import STRENGTHS, kind_of
from manualgen.reports.solution import solution_as_json, solution_as_text
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import look_up

EXAMPLE = (
    'manualgen solution "sodium hydroxide" --strength "0.100 mol/dm3" --volume "1 dm3"'
)

LEAST_CM3, MOST_CM3 = 10, 50_000
_CM3 = 1_000_000
"""cm³ in 1 m³."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("name", metavar="NAME", help="what is in it: sodium hydroxide")
    parser.add_argument("--strength", required=True, metavar="S", help="0.100 mol/dm3")
    parser.add_argument("--volume", required=True, metavar="V", help="250 cm3, 1 dm3")
    parser.add_argument("--format", choices=("text", "json"), default="text")


def run(options: argparse.Namespace) -> int:
    """Tell how it is made; 1 where it cannot be."""
    chemical = _chemical(options.name)
    strength, volume = _strength(options.strength), _volume(options.volume)
    try:
        one = one_solution(chemical, strength, volume.si_value * _CM3)
    except (CannotMakeError, StrengthError) as error:
        raise CommandError(
            f"{options.name}, {options.strength}: {error}", INVALID
        ) from error
    told = solution_as_json if options.format == "json" else solution_as_text
    sys.stdout.write(told(one, volume))
    return 0


def _chemical(name: str) -> Chemical:
    found = look_up(name, Laboratory())
    if found is not None:
        return found
    near = nearest(name, (n for c in chemicals() for n in (c.name, *c.also)))
    hint = f"; did you mean {near}?" if near else "; write its name, as on the bottle"
    raise CommandError(f"the tables know no chemical {name!r}{hint}", INVALID)


def _strength(text: str) -> Quantity:
    strength = _quantity("--strength", text, "0.100 mol/dm3")
    if kind_of(strength.unit) not in STRENGTHS or strength.si_value <= 0:
        raise CommandError(
            f"--strength {text!r} says not how strong it is; write it as 0.100 mol/dm3, "
            "20 g/dm3, 5 % w/w or 20 vol",
            INVALID,
        )
    return strength


def _volume(text: str) -> Quantity:
    volume = _quantity("--volume", text, "250 cm3")
    if kind_of(volume.unit) != "volume":
        raise CommandError(
            f"--volume {text!r} is no volume; write it as 250 cm3 or 1 dm3", INVALID
        )
    if not Fraction(LEAST_CM3) <= volume.si_value * _CM3 <= MOST_CM3:
        raise CommandError(
            f"--volume {text!r}: write {LEAST_CM3} cm3 to {MOST_CM3 // 1000} dm3",
            INVALID,
        )
    return volume


def _quantity(option: str, text: str, example: str) -> Quantity:
    try:
        return parse_quantity(text)
    except QuantityError as error:
        raise CommandError(
            f"{option} {text!r}: {error}; write it as {example}", INVALID
        ) from error
