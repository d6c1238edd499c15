"""A site's pages, rendered on several cores, one experiment at a time.

Whoever waits for the pages gets each experiment's as soon as it is there, and
nobody holds them: they go to the disk, and only what the search of an edition
finds in them comes back.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from manualgen.build.edition import (
    SEARCH_INDEX,
    Edition,
    page_name,
    write_file,
)
from manualgen.build.page_cache import Rendered, render
from manualgen.build.side_by_side import side_by_side
from manualgen.pages.search import search_script

Making = tuple[Edition, Path]
"""An edition, and the folder that it is made in."""

Render = Callable[[Edition, int], Rendered]
"""What gives a page: `render`, or a cache's."""


@contextmanager
def rendering(
    making: Sequence[Making], jobs: int | None, render: Render = render
) -> Iterator[Iterator[int]]:
    """Write the pages of every experiment, in order; each step has written one's.

    The search indices are written when the last step is taken.
    """
    count = len(making[0][0].entries) if making else 0

    def write(index: int) -> tuple[str, ...]:
        return tuple(
            _write_page(folder, render(e, index), e, index) for e, folder in making
        )

    with side_by_side(write, range(count), jobs) as written:
        yield _counted(making, written)


def _counted(
    making: Sequence[Making], written: Iterator[tuple[str, ...]]
) -> Iterator[int]:
    found: list[tuple[str, ...]] = []
    for index, places in enumerate(written):
        found.append(places)
        yield index
    for (edition, folder), places in zip(
        making, zip(*found, strict=True), strict=False
    ):
        if not edition.large:
            write_file(folder / SEARCH_INDEX, search_script(places).encode())


def _write_page(folder: Path, made: Rendered, edition: Edition, index: int) -> str:
    """Write one experiment's page; gives what the search finds in it."""
    (folder / page_name(edition.entries[index])).write_bytes(made.page)
    return made.places
