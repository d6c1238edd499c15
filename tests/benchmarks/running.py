"""Runs a program and measures it from outside, with all that it starts."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).parent
EVERY_SECONDS = 0.1


@dataclass(frozen=True, slots=True)
class Run:
    """What a program took."""

    seconds: float
    """From its start to its end."""
    peak_mib: float
    """The most memory that it and all its processes had at once, shared pages once."""
    processor_seconds: float
    """The processor's time that it and all its processes took, nearly."""
    said: str


def run(words: Sequence[str], folder: Path | None = None) -> Run:
    """Run a program to its end; raises `CalledProcessError` where it fails."""
    began = time.monotonic()
    program = subprocess.Popen(
        words, cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    peak, over = [0.0], threading.Event()
    worked: dict[int, int] = {}

    def watch() -> None:
        while not over.wait(EVERY_SECONDS):
            family = tuple(_family(program.pid))
            peak[0] = max(peak[0], _mib(family))
            for process in family:
                worked[process] = max(worked.get(process, 0), _ticks(process))

    watcher = threading.Thread(target=watch)
    watcher.start()
    said, complaint = program.communicate()
    over.set()
    watcher.join()
    spent = time.monotonic() - began
    if program.returncode:
        failed = subprocess.CalledProcessError(program.returncode, words, said)
        failed.add_note(complaint)
        raise failed
    ticks = sum(worked.values()) / os.sysconf("SC_CLK_TCK")
    return Run(spent, peak[0], ticks, said)


def measured(script: str, *words: object) -> dict[str, float]:
    """What a program of this folder says that it took, and the processor's time."""
    done = run([sys.executable, str(HERE / script), *map(str, words)])
    told: dict[str, float] = json.loads(done.said)
    return {**told, "processor": done.processor_seconds}


def _family(first: int) -> Iterable[int]:
    """A process and all that come from it."""
    children: dict[int, list[int]] = {}
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            after_name = (folder / "stat").read_text().rpartition(")")[2]
        except OSError:
            continue
        children.setdefault(int(after_name.split()[1]), []).append(int(folder.name))
    waiting = [first]
    while waiting:
        one = waiting.pop()
        yield one
        waiting += children.get(one, [])


def _ticks(process: int) -> int:
    """The processor's time that a process has taken so far, in the kernel's ticks."""
    try:
        after_name = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2]
    except OSError:
        return 0
    user, system = after_name.split()[11:13]
    return int(user) + int(system)


def _mib(processes: Iterable[int]) -> float:
    """The memory of processes; what several share counts once among them."""
    total = 0
    for process in processes:
        try:
            rollup = Path(f"/proc/{process}/smaps_rollup").read_text()
        except OSError:
            continue
        total += sum(
            int(line.split()[1]) for line in rollup.splitlines() if line[:4] == "Pss:"
        )
    return total / 1024
