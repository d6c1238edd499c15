"""The files that stand beside the pages: style sheet, faces, script.

The faces come from installed packages, so the same page is set on every
machine; nothing is fetched.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from importlib.resources import files
from importlib.util import find_spec
from pathlib import Path

from manualgen.pages.environment import TEMPLATES

_FACES = {
    "font_source_serif_pro": (
        "files/SourceSerifPro-Regular.ttf",
        "files/SourceSerifPro-It.ttf",
        "files/SourceSerifPro-Semibold.ttf",
        "files/SourceSerifPro-SemiboldIt.ttf",
        "files/LICENSE.txt",
    ),
    "ziamath": ("fonts/STIXTwoMath-Regular.ttf",),
}


def assets() -> Iterator[tuple[str, Callable[[], bytes]]]:
    """Each file's path under ``assets/``, and what reads it."""
    for item in sorted(
        files(TEMPLATES).joinpath("assets").iterdir(), key=lambda i: i.name
    ):
        yield item.name, item.read_bytes
    for package, paths in _FACES.items():
        for path in paths:
            found = _folder(package) / path
            yield f"faces/{found.name}", found.read_bytes


def preview_assets() -> Iterator[tuple[str, Callable[[], bytes]]]:
    """The script and the style sheet that only a preview's pages load."""
    for item in files(TEMPLATES).joinpath("preview").iterdir():
        yield item.name, item.read_bytes


def _folder(package: str) -> Path:
    """Where a package lies; it is not imported, since only its files are wanted."""
    spec = find_spec(package)
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError(f"no package {package}, which carries a type face")
    return Path(spec.origin).parent
