"""``manualgen explain``: what a check is for, what falls short and its mend."""

from __future__ import annotations

import argparse
import inspect
import sys
import textwrap
from collections.abc import Iterator

from manualgen.checks import CHECKS, Check
from manualgen.checks.examples import Example, examples
from manualgen.commands.faults import WRONG_USAGE, CommandError
from manualgen.model.nearest import nearest

EXAMPLE = "manualgen explain calculation-answer"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words."""
    parser.add_argument(
        "check", nargs="?", metavar="CHECK", help="a check; all are listed if left out"
    )


def run(options: argparse.Namespace) -> int:
    """Explain one check, or list them all."""
    name = options.check
    if name is None:
        sys.stdout.write("\n".join(_list()) + "\n")
        return 0
    if name not in CHECKS:
        near = nearest(name, CHECKS)
        hint = f"; did you mean {near}?" if near else ""
        raise CommandError(f"no check is called {name!r}{hint}", WRONG_USAGE)
    sys.stdout.write("\n".join(_explain(CHECKS[name], examples()[name])) + "\n")
    return 0


def _list() -> Iterator[str]:
    width = max(map(len, CHECKS))
    for family in dict.fromkeys(check.family for check in CHECKS.values()):
        yield f"{family}:"
        for check in CHECKS.values():
            if check.family == family:
                rule = " ".join(check.rule.split()).split(". ")[0].rstrip(".")
                first = f"  {check.name:{width}}  {check.severity.value:7}  "
                yield textwrap.shorten(first + rule, 300, placeholder=" …")
        yield ""


def _explain(check: Check, example: Example) -> Iterator[str]:
    yield f"{check.name} ({check.severity.value}, {check.family})"
    yield ""
    yield from textwrap.wrap(" ".join(inspect.cleandoc(check.rule).split()), 78)
    yield ""
    yield "Falls short:"
    yield textwrap.indent(example.falls_short.rstrip(), "    ")
    yield ""
    yield "Mended:"
    yield textwrap.indent(example.mended.rstrip(), "    ")
