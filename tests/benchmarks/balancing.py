"""How long balancing the reference set takes, beside the PyPI package chempy.

    python tests/benchmarks/balancing.py

Both read the formulas from text and balance the entries that need no medium
and no electrons; the best of several rounds counts, since only that is free of
what else the machine was doing.
"""

from __future__ import annotations

import re
import sys
import time
from collections.abc import Callable
from pathlib import Path

import yaml
from chempy import balance_stoichiometry

from manualgen.chemistry import balance, parse_equation, parse_formula

SET = Path(__file__).parents[1] / "chemistry" / "balancing.yaml"
ROUNDS = 5


def skeletons() -> list[str]:
    """The skeletons of the set that need neither a medium nor electrons."""
    table = yaml.load(SET.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader)
    return [
        entry["given"]["skeleton"]
        for entry in table["entries"]
        if "medium" not in entry["given"] and not entry["category"].startswith("half")
    ]


def with_manualgen(texts: list[str]) -> None:
    """Read and balance each equation, with no formula remembered."""
    parse_formula.cache_clear()
    for text in texts:
        balance(parse_equation(text))


def with_chempy(texts: list[str]) -> None:
    """Read and balance each equation, in that package's own writing."""
    for text in texts:
        written = re.sub(r"\^(\d*)([+-])", r"\2\1", text).replace("·", "..")
        left, right = (set(side.split(" + ")) for side in written.split(" -> "))
        balance_stoichiometry(left, right)


def best(run: Callable[[list[str]], None], texts: list[str]) -> float:
    """The shortest time of several rounds, in seconds."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        run(texts)
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> None:
    """Print both times and their ratio."""
    texts = skeletons()
    ours, theirs = best(with_manualgen, texts), best(with_chempy, texts)
    sys.stdout.write(
        f"{len(texts)} equations: manualgen {1000 * ours:.1f} ms, "
        f"chempy {1000 * theirs:.1f} ms, ratio {theirs / ours:.0f}\n"
    )


if __name__ == "__main__":
    main()
