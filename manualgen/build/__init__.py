"""The steps in order: the one room where reading, checks, pages and press meet."""

from manualgen.build.stages import check, read_and_work

__all__ = ["check", "read_and_work"]
