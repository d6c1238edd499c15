"""Browsers for tests of faults: the real one behind a script that counts starts."""

from dataclasses import dataclass
from pathlib import Path

from manualgen.press.chromium import find_chromium


@dataclass(frozen=True)
class StandIn:
    """An executable in the browser's place, which notes each process it starts."""

    executable: Path
    log: Path

    @property
    def processes(self) -> list[int]:
        """The processes that it was started as, the first one first."""
        return (
            [int(p) for p in self.log.read_text().split()] if self.log.exists() else []
        )


def stand_in(folder: Path, first: str = "", later: str = "") -> StandIn:
    """A stand-in that runs `first`, shell commands, at its first start.

    At any other it runs `later`. Where neither ends it, the browser follows.
    """
    executable, log = folder / "browser", folder / "browser.log"
    executable.write_text(
        f'#!/bin/sh\nif [ -e "{log}" ]; then started=later; else started=first; fi\n'
        f'echo $$ >> "{log}"\nBROWSER="{find_chromium()}"\n'
        f"if [ $started = first ]; then :; {first}\nelse :; {later}\nfi\n"
        'exec "$BROWSER" "$@"\n',
        encoding="utf-8",
    )
    executable.chmod(0o755)
    return StandIn(executable, log)


def is_running(process: int) -> bool:
    """Whether a process is alive; one that is dead and not yet buried is not."""
    try:
        state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state != "Z"
