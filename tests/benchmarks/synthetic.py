"""A manual of any number of experiments, varied from the demonstration.

No two are alike: each has its own title, times and readings, a few sentences
and questions of its own with formulas, quantities and equations that occur
nowhere else, and of the demonstration's sentences some in another order.  The
same number and seed give the same manual.

    python tests/benchmarks/synthetic.py 60 /tmp/content
"""

from __future__ import annotations

import random
import re
import shutil
import sys
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

DEMONSTRATION = Path(__file__).parents[2] / "content"
PART = 12
"""Experiments in one part of the manual."""

_TITLE = re.compile(r"^title: (.*)$", re.MULTILINE)
_TIME = re.compile(r"^time: (\d+) min$", re.MULTILINE)
_SAMPLE = re.compile(r"(?<=sample: \[)[^\]\[]+(?=\])")
_NUMBERED = re.compile(r"^(\d+)\. ", re.MULTILINE)

SUBJECTS = ("The school shop", "A local brewery", "The swimming pool", "A farm")
VERBS = ("keeps", "orders", "analyses", "labels", "stores")
THINGS = ("its stock", "each delivery", "one bottle in ten", "every sample")
TIMES = ("in the morning", "once a week", "before each use", "after the holidays")


def write_manual(folder: Path, count: int, seed: int = 1) -> tuple[str, ...]:
    """Write a content folder of ``count`` experiments; gives their ids in order."""
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(DEMONSTRATION, folder)
    originals = sorted(folder.rglob("*.md"))
    texts = {path: path.read_text(encoding="utf-8") for path in originals}
    names: list[str] = []
    for n in range(count):
        path = originals[n % len(originals)]
        name = f"{path.stem}-{n + 1}"
        written = varied(texts[path], n + 1, random.Random(seed * 100_003 + n))
        written = _led_on(written, originals, n, count)
        path.with_stem(name).write_text(written, encoding="utf-8")
        names.append(name)
    for path in originals:
        path.unlink()
    _write_contents(folder / "manual.yaml", names)
    return tuple(names)


def varied(text: str, number: int, chance: random.Random) -> str:
    """An experiment's text, made another experiment's."""
    text = _TITLE.sub(lambda m: f"title: {m[1]}, variant {number}", text, count=1)
    text = _TIME.sub(lambda m: f"time: {int(m[1]) + chance.randint(0, 9)} min", text)
    head, *sections = re.split(r"^(?=## )", text, flags=re.MULTILINE)
    return head + "".join(_varied_section(s, chance) for s in sections)


def _varied_section(section: str, chance: random.Random) -> str:
    heading = section.partition("\n")[0].removeprefix("## ")
    match heading:
        case "Theory":
            return f"{section.rstrip()}\n\n{_sentences(chance)}\n\n"
        case "Results" | "Observations":
            return _shifted(section, chance)
        case "Questions":
            return section.rstrip() + "\n\n" + "".join(_questions(section, chance))
        case "For the teacher":
            return f"{section.rstrip()}\n\n> **Teacher:** {_sentences(chance)}\n"
        case _:
            return section


def _sentences(chance: random.Random) -> str:
    told = [
        " ".join(chance.choice(words) for words in (SUBJECTS, VERBS, THINGS, TIMES))
        for _ in range(chance.randint(2, 6))
    ]
    carbons = chance.randint(2, 30)
    told.append(f"Nothing of this holds for `C{carbons}H{2 * carbons + 2}`")
    told.append(f"It takes `{chance.randint(11, 99)}.{chance.randint(0, 9)} s`")
    return ". ".join(told) + "."


def _shifted(section: str, chance: random.Random) -> str:
    """Readings of two decimals, all of a table moved by as much."""
    offset = Decimal(chance.randint(0, 8)) * Decimal("0.05")

    def moved(match: re.Match[str]) -> str:
        numbers = match[0].split(", ")
        if not all(re.fullmatch(r"\d+\.\d\d", number) for number in numbers):
            return match[0]
        return ", ".join(str(Decimal(number) + offset) for number in numbers)

    return _SAMPLE.sub(moved, section)


def _questions(section: str, chance: random.Random) -> Iterator[str]:
    first = max(map(int, _NUMBERED.findall(section)), default=0) + 1
    carbons, oxygens = chance.randint(2, 40), chance.randint(0, 3)
    fuel = f"C{carbons}H{2 * carbons + 2}" + (f"O{oxygens}" if oxygens > 1 else "")
    yield (
        f"{first}. Balance the combustion of `{fuel}`. [1]\n\n"
        f"   ```equation to-balance\n   {fuel} + O2 -> CO2 + H2O\n   ```\n\n"
    )
    volume, hundredths = chance.randint(101, 499), chance.randint(10, 99)
    amount = Decimal(volume) / 10 * hundredths / 100
    yield (
        f"{first + 1}. How much salt is in `{volume / 10} cm3` of a solution of "
        f"`0.{hundredths} mol/dm3`? [1]\n\n"
        f"   > **Answer (2 lines):** `{amount:.2f} mmol` [1].\n\n"
    )


def _led_on(text: str, originals: list[Path], n: int, count: int) -> str:
    """The text with links to other experiments leading to those of its own round."""
    first = n - n % len(originals)
    for place, path in enumerate(originals):
        other = first + place if first + place < count else place
        text = text.replace(f"({path.name}", f"({path.stem}-{other + 1}.md")
    return text


def _write_contents(file: Path, names: list[str]) -> None:
    head = file.read_text(encoding="utf-8").partition("\nparts:")[0]
    parts = "".join(
        f"  - title: Part {start // PART + 1}\n"
        f"    experiments: [{', '.join(names[start : start + PART])}]\n"
        for start in range(0, len(names), PART)
    )
    file.write_text(f"{head}\nparts:\n{parts}", encoding="utf-8")


if __name__ == "__main__":
    write_manual(Path(sys.argv[2]), int(sys.argv[1]))
