"""Where text comes from: a folder or a git revision, with the path rules and bounds."""

from manualgen.sources.folder import Folder
from manualgen.sources.source import TEXT_LIMIT, Source, SourceError, resolved

__all__ = ["TEXT_LIMIT", "Folder", "Source", "SourceError", "resolved"]
