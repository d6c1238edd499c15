"""``manualgen quantity``: read one quantity."""

from __future__ import annotations

import argparse

from manualgen.commands.lines import add_text, answer_lines
from manualgen.quantities.answer import quantity_answer, quantity_lines

EXAMPLE = 'manualgen quantity "25.0 cm3"'


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    add_text(parser, "a quantity")


def run(options: argparse.Namespace) -> int:
    """Tell the SI value, the dimensions and the preferred writing."""
    return answer_lines(options, quantity_answer, quantity_lines)
