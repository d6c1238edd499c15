"""The steps in order: the one room where reading, checks, pages and press meet.

What stands here is imported when it is asked for: a build of what has not
changed needs neither chemistry nor pages, and is over before they are loaded.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from manualgen.build.stages import check, read_and_work

__all__ = ["check", "read_and_work"]


def __getattr__(name: str) -> object:
    if name not in __all__:
        raise AttributeError(name)
    found: object = getattr(import_module("manualgen.build.stages"), name)
    return found
