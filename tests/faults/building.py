"""A small manual, built by the real command in a process of its own."""

from __future__ import annotations

import hashlib
import json
import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

NAMES = ("one", "two")
PRINTED = ("--edition", "student", "--jobs", "1")
"""The words for a build that prints, and prints little."""

EXPERIMENT = """\
---
title: Experiment {name}
time: 10 min
---

## Theory

This is said in version {version}.

## Method

1. Look at the water.

## Questions

1. Why? [1]

   > **Answer:** It is clear [1].
"""
MANUAL = "title: T\nparts:\n  - title: P\n    experiments: [one, two]\n"

BOUND = (
    ("setpriv", "--bounding-set=-dac_override,-dac_read_search")
    if os.geteuid() == 0
    else ()
)
"""Lets the modes of files bind the superuser too."""

BROWSERS_OWN = ("org.chromium.", ".org.chromium.")


@dataclass(frozen=True, slots=True)
class Works:
    """A folder with the sources, the site, and the temporary files of the builds."""

    folder: Path
    """Its path is short: the browser keeps a socket below it, which allows 107 bytes."""

    @property
    def content(self) -> Path:
        return self.folder / "content"

    @property
    def site(self) -> Path:
        return self.folder / "out" / "site"

    @property
    def passing(self) -> Path:
        """Where the builds keep what they need for a moment."""
        return self.folder / "passing"

    def write(self, version: int) -> None:
        """The sources in one of their versions."""
        self.content.mkdir(exist_ok=True)
        self.passing.mkdir(exist_ok=True)
        (self.content / "manual.yaml").write_text(MANUAL)
        for name in NAMES:
            text = EXPERIMENT.format(name=name, version=version)
            (self.content / f"{name}.md").write_text(text)

    def begin(
        self,
        *words: str,
        more: Mapping[str, str] | None = None,
    ) -> subprocess.Popen[str]:
        """Start a build."""
        program = [*BOUND, sys.executable, "-m", "manualgen", "build", self.content]
        return subprocess.Popen(
            [*program, "--out", self.site, *words],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            cwd=Path(__file__).parents[2],
            env={**os.environ, "TMPDIR": str(self.passing), **(more or {})},
        )

    def build(self, *words: str, **more: str) -> tuple[int, str]:
        """Build to the end: exit status, and all that was said."""
        building = self.begin(*words, more=more)
        said, _ = building.communicate()
        assert "Traceback" not in said, said
        return building.returncode, said

    def version(self) -> int:
        """The version that the site shows, which is whole."""
        manifest = json.loads((self.site / "manifest.json").read_text("utf-8"))
        assert manifest["outputs"] == digests(self.site)
        versions = {
            int(page.read_text("utf-8").partition("in version ")[2].partition(".")[0])
            for name in NAMES
            for page in self.site.glob(f"*/{name}.html")
        }
        (only,) = versions
        return only

    def litter(self) -> list[str]:
        """What stands beside sources and site that no later build needs.

        An empty folder that a killed browser leaves of its own is not ours.
        """
        beside = {p.name for p in self.site.parent.iterdir()}
        passing = {p.name for p in self.passing.iterdir()}
        ours = {name for name in passing if not name.startswith(BROWSERS_OWN)}
        return sorted(ours | beside - {"site", ".manualgen-cache"})


def digests(site: Path) -> dict[str, str]:
    return {
        path.relative_to(site).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(site.rglob("*"))
        if path.is_file() and path.name != "manifest.json"
    }
