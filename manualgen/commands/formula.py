"""``manualgen formula``: what a formula or a name stands for."""

from __future__ import annotations

import argparse

from manualgen.chemistry.formula_answer import formula_answer, formula_lines
from manualgen.commands.lines import add_text, answer_lines

EXAMPLE = 'manualgen formula "magnesium sulfate heptahydrate"'


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    add_text(parser, "a formula or the name of a substance")


def run(options: argparse.Namespace) -> int:
    """Tell its name or formula, molar mass, composition, ions and oxidation numbers."""
    return answer_lines(options, formula_answer, formula_lines)
