"""Studies of experiments, so that what has not changed is not studied again.

A study comes from the experiment's own file, from every other file of the
content folder that is no experiment's, from which experiments there are, from
the day, and from the program.  Only where all of these are the same is it found.
"""

from __future__ import annotations

import hashlib
import json
import pickle
import sys
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from manualgen.build.manifest import Inputs, sources_of
from manualgen.build.study import Study
from manualgen.press.store import Store
from manualgen.sources import Source


@dataclass(frozen=True)
class StudyCache:
    """Studies in a store, of one manual of the sources in ``inputs``."""

    store: Store
    inputs: Inputs
    manual: str | None

    def find(self, path: str) -> Study | None:
        """The study of the experiment in a file, as it was kept if it was."""
        kept = self.store.find(self._name(path))
        if kept is None:
            return None
        # The store gives nothing but what this user's builds have kept in it.
        study: Study = pickle.loads(zlib.decompress(kept))
        return study

    def keep(self, source: Source, studies: Mapping[str, Study]) -> None:
        """Keep studies by file, unless a source was saved since the inputs were taken."""
        if studies and sources_of(source) == self._digests:
            for path, study in studies.items():
                packed = zlib.compress(pickle.dumps(study), level=1)
                self.store.keep(self._name(path), packed)

    @cached_property
    def _digests(self) -> Mapping[str, str]:
        digests = self.inputs["sources"]
        assert isinstance(digests, dict)
        return digests

    @cached_property
    def _shared(self) -> str:
        """What every experiment's study comes from, in one word."""
        common = {
            path: None if path.endswith(".md") else digest
            for path, digest in self._digests.items()
        }
        named = ("date", "program", "libraries")
        facts = [sys.version, self.manual, common, *map(self.inputs.get, named)]
        return json.dumps(facts, sort_keys=True)

    def _name(self, path: str) -> str:
        own = json.dumps([path, self._digests.get(path)])
        digest = hashlib.sha256(f"{self._shared}\n{own}".encode())
        return f"{digest.hexdigest()}.study"
