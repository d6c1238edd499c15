"""How long a calculation of forty lines takes to be checked and typeset, warm.

    python tests/benchmarks/calculations.py

prints milliseconds and ends with status 1 where it takes longer than the 100 ms
that an author who waits for a preview may be asked to wait.  "Warm" is any run
but the first: units and formulas have been read before.
"""

from __future__ import annotations

import datetime
import statistics
import sys
import tempfile
import time
from pathlib import Path

from manualgen.build import check, read_and_work
from manualgen.checks.run import check_experiment
from manualgen.working.numbers import work_numbers

LIMIT_MS = 100.0
RUNS = 30
CHECKS = (
    "calculation-undefined",
    "calculation-dimension",
    "calculation-answer",
    "significant-figures",
    "reading-concordance",
)

TABLE = """\
```readings #titres
rows: [rough, 1, 2, 3]
columns:
  - {symbol: V1, heading: Initial reading, unit: cm3, sample: [0.00, 0.10, 0.25, 0.05]}
  - {symbol: V2, heading: Final reading, unit: cm3, sample: [21.90, 21.55, 21.75, 21.45]}
  - {symbol: Vt, heading: Titre, unit: cm3, formula: V2 - V1}
mean: {of: Vt, rows: [1, 2, 3], concordant: 0.10 cm3}
```
"""
DATA = """\
c_b = 0.1000 ± 0.0002 mol/dm3
V_b = titres.mean
V_a = 25.00 ± 0.06 cm3
V_f = 250.0 ± 0.3 cm3
t = 21.5 ± 0.1 °C
T = t -> K
p = 101.0 ± 0.1 kPa
m = 2.05 ± 0.01 g
"""
REPEATED = """\
n_{i} = c_b * V_b / {i} -> mol
c_{i} = n_{i} * V_f / V_a / V_a -> mol/dm3
m_{i} = c_{i} * V_f * M(CH3COOH) -> mg
v_{i} = n_{i} * R * T / p -> cm3
y_{i} = (m_{i} - m / 10) / m -> %
w_{i} = sqrt(c_{i} / (1 mol/dm3)) * exp(-m / (5 g)) -> 1
a_{i} = abs(v_{i} - V_f) / V_f + ln(y_{i}) -> %
pH_{i} = -log10(c_{i} / (1 mol/dm3)) -> 1
"""


def source() -> str:
    """An experiment with forty lines of calculation."""
    lines = DATA + "".join(REPEATED.format(i=i) for i in range(1, 5))
    return (
        "---\ntitle: Forty lines\napparatus:\n  - burette, 50 cm3, class B\n---\n\n"
        f"## Method\n\n1. Titrate.\n\n## Results\n\n{TABLE}\n"
        f"## Calculation\n\n```calculation\n{lines}```\n"
    )


def main() -> int:
    """Measure, print and judge."""
    with tempfile.TemporaryDirectory() as folder:
        content = Path(folder) / "content"
        content.mkdir()
        manual = "title: Bench\nparts:\n  - title: All\n    experiments: [forty]\n"
        (content / "manual.yaml").write_text(manual, encoding="utf-8")
        (content / "forty.md").write_text(source(), encoding="utf-8")
        worked = read_and_work(content, None, datetime.date(2026, 9, 1))
    (work,) = worked.experiments
    faults = check(worked, CHECKS)
    assert not faults, faults
    assert len(work.numbers.calculations[0].lines) == 40
    spent = []
    for _ in range(RUNS):
        begun = time.perf_counter()
        work_numbers(work.experiment, work.settings)
        list(check_experiment(work, CHECKS))
        spent.append((time.perf_counter() - begun) * 1000)
    middle, worst = statistics.median(spent), max(spent)
    sys.stdout.write(f"forty lines: median {middle:.1f} ms, worst {worst:.1f} ms\n")
    return 0 if middle < LIMIT_MS else 1


if __name__ == "__main__":
    sys.exit(main())
