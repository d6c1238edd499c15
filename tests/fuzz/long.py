"""The long run: every target for minutes, each fault written down once.

    python -m tests.fuzz.long --minutes 60

parts the time among the targets, or among those that are named.  A fault is an
exception that the reader does not promise, or more than a second of processor
time for one text.  Whatever is found should be made small by hand and kept
among the examples of `test_targets.py`.
"""

from __future__ import annotations

import argparse
import sys
import time
import traceback
from dataclasses import dataclass, field

from hypothesis import HealthCheck, Phase, given, seed, settings

from tests.fuzz.targets import TARGETS, Target

LONGEST = 1.0
"""Seconds of processor time for one text."""
ROUND = 200
"""Texts between two looks at the clock."""


@dataclass(slots=True)
class Run:
    """What became of one target."""

    target: Target
    texts: int = 0
    slowest: float = 0.0
    faults: dict[str, str] = field(default_factory=dict)
    """A text for each place at which one failed."""

    def take(self, text: str) -> None:
        """Try one text."""
        began = time.process_time()
        try:
            self.target.run(text)
        except Exception as error:
            frame = traceback.extract_tb(error.__traceback__)[-1]
            where = f"{type(error).__name__} at {frame.filename}:{frame.lineno}"
            self.faults.setdefault(where, text)
        spent = time.process_time() - began
        self.texts += 1
        self.slowest = max(self.slowest, spent)
        if spent > LONGEST:
            self.faults.setdefault(f"more than {LONGEST} s", text)


def run_for(target: Target, seconds: float, first_seed: int) -> Run:
    """Try texts until the time is over."""
    run = Run(target)
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        first_seed += 1

        @seed(first_seed)
        @settings(
            max_examples=ROUND,
            phases=[Phase.generate],
            database=None,
            deadline=None,
            suppress_health_check=list(HealthCheck),
        )
        @given(target.texts)
        def texts(text: str) -> None:
            if time.monotonic() < end:
                run.take(text)

        texts()
    return run


def main() -> int:
    """Run the targets one after the other and tell what was found."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("targets", nargs="*", default=list(TARGETS))
    parser.add_argument("--minutes", type=float, default=60)
    parser.add_argument("--seed", type=int, default=int(time.time()))
    options = parser.parse_args()
    seconds = options.minutes * 60 / len(options.targets)
    found = 0
    for name in options.targets:
        run = run_for(TARGETS[name], seconds, options.seed)
        found += len(run.faults)
        sys.stdout.write(
            f"{name}: {run.texts} texts in {seconds:.0f} s from seed {options.seed}, "
            f"slowest {run.slowest:.2f} s, {len(run.faults)} faults\n"
        )
        for where, text in run.faults.items():
            sys.stdout.write(f"  {where}\n    {text!r}\n")
        sys.stdout.flush()
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
