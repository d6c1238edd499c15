"""``manualgen explain``: what a check is for, what falls short and its mend."""

from __future__ import annotations

import argparse
import datetime
import inspect
import sys
import textwrap
from collections.abc import Iterator

from manualgen.build.stages import check as find
from manualgen.build.stages import work_source
from manualgen.checks import CHECKS, Check
from manualgen.checks.examples import Example, examples, whole_source
from manualgen.checks.registry import FAMILIES
from manualgen.commands.faults import WRONG_USAGE, CommandError
from manualgen.model.nearest import nearest
from manualgen.sources.texts import Texts

EXAMPLE = "manualgen explain calculation-answer"
WIDTH = 78
EXAMPLES_DATE = datetime.date(2026, 9, 1)
"""The day on which the examples are looked at, so that they say the same for ever."""


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
    for family in FAMILIES:
        yield family
        for check in CHECKS.values():
            if check.family == family:
                yield f"  {check.name} ({check.severity.value})"
                first = _words(check.rule).split(". ")[0].rstrip(".") + "."
                yield _filled(first, 6)
        yield ""
    yield "manualgen explain CHECK shows an example and its mend."


def _explain(check: Check, example: Example) -> Iterator[str]:
    yield f"{check.name} ({check.severity.value}, {check.family})"
    yield ""
    yield _filled(_words(inspect.cleandoc(check.rule)))
    yield ""
    yield from _shown("Falls short:", example.falls_short)
    for file, text in (
        ("manual.yaml", example.manual),
        ("chemicals.yaml", example.chemicals),
    ):
        if text:
            yield from _shown(f"with {file}:", text)
    yield "Is told:"
    yield from _told(example)
    yield ""
    yield from _shown("Mended:", example.mended)
    if check.family != "source":
        yield "Where it is right as it stands, accept it in the front matter:"
        yield "    accept:"
        yield f"      - {{check: {check.name}, why: YOUR REASON}}"


def _shown(head: str, text: str) -> Iterator[str]:
    yield head
    yield textwrap.indent(text.rstrip(), "    ")
    yield ""


def _told(example: Example) -> Iterator[str]:
    """What the check says of the example."""
    files = {
        "manual.yaml": "title: Example\nparts:\n  - title: All\n"
        f"    experiments: [example]\n{example.manual}",
        "example.md": whole_source(example.falls_short),
    }
    if example.chemicals:
        files["chemicals.yaml"] = example.chemicals
    worked = work_source(Texts(files), None, EXAMPLES_DATE)
    for finding in find(worked):
        if finding.check != example.check:
            continue
        yield _filled(finding.fault.message, 4)
        if finding.fault.mend:
            yield _filled(f"mend: {finding.fault.mend}", 4)


def _words(text: str) -> str:
    """Running text of a docstring, for a terminal."""
    return " ".join(text.split()).replace("``", "`")


def _filled(text: str, indent: int = 0) -> str:
    margin = " " * indent
    lines = textwrap.wrap(text, WIDTH - indent, break_on_hyphens=False)
    return "\n".join(margin + line for line in lines)
