"""A real git repository with a manual in it, for tests to write a history in."""

from __future__ import annotations

import subprocess
from dataclasses import dataclass
from pathlib import Path

IDENTITY = ("-c", "user.name=T", "-c", "user.email=t@example.org")


@dataclass(frozen=True)
class Repository:
    """A git repository with a manual in it."""

    folder: Path

    def git(self, *words: str) -> None:
        subprocess.run(
            ["git", *IDENTITY, *words],
            cwd=self.folder,
            check=True,
            capture_output=True,
        )

    def said(self, *words: str) -> str:
        """What git answers, without the line's end."""
        done = subprocess.run(
            ["git", *words],
            cwd=self.folder,
            check=True,
            capture_output=True,
            text=True,
        )
        return done.stdout.rstrip("\n")

    def write(self, name: str, text: str) -> None:
        path = self.folder / "content" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    def edit(self, name: str, old: str, new: str) -> None:
        text = (self.folder / "content" / name).read_text(encoding="utf-8")
        assert old in text
        self.write(name, text.replace(old, new))

    def commit(self) -> None:
        self.git("add", "-A")
        self.git("commit", "-q", "--allow-empty", "-m", "A revision")
