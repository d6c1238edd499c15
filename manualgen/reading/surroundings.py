"""What a reader has to know beyond the text in hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from markdown_it.utils import EnvType

from manualgen.reading.faults import Faults
from manualgen.reading.text import SourceText
from manualgen.sources import Source


@dataclass(frozen=True, slots=True)
class Surroundings:
    """The file that is being read, and the folder it lies in."""

    source: Source
    text: SourceText
    files: Mapping[str, str]
    """Each experiment's file by its id, for links."""
    faults: Faults
    env: EnvType = field(default_factory=dict)
    """What markdown-it-py keeps of a file: its link definitions."""
    read_too: dict[str, SourceText] = field(default_factory=dict)
    """Files of data that were read on the way, by path."""
