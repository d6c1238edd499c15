"""``manualgen equation``: balance one equation and take it apart."""

from __future__ import annotations

import argparse
from functools import partial

from manualgen.chemistry.equation_answer import equation_answer, equation_lines
from manualgen.commands.lines import add_text, answer_lines

EXAMPLE = 'manualgen equation "Al(s) + O2(g) -> Al2O3(s)"'


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    add_text(parser, "an equation")
    parser.add_argument(
        "--in",
        dest="medium",
        choices=("acid", "base"),
        help="the solution, which supplies water and H^+ or OH^-",
    )


def run(options: argparse.Namespace) -> int:
    """Tell its balance, its net ionic form and what is oxidised and reduced."""
    return answer_lines(
        options,
        partial(equation_answer, medium=options.medium),
        partial(equation_lines, medium=options.medium),
    )
