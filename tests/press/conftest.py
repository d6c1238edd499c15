"""Sheets printed once for all the tests that read prints."""

from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path

import pytest

from manualgen.press.jobs import Job, Print
from manualgen.press.press import Press
from tests.press.sample import write_sheets

WHEN = datetime(2026, 9, 1, tzinfo=UTC)

PrintHtml = Callable[..., Print]


@pytest.fixture(scope="session")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, ...]:
    """Four sheets that link to one another, printed beside their HTML."""
    folder = tmp_path_factory.mktemp("sheets")
    written = write_sheets(folder, 4)
    with Press(folder, WHEN) as press:
        print_all(press, written, folder)
    return tuple(html.with_suffix(".pdf") for html in written)


def print_all(press: Press, documents: Sequence[Path], out: Path) -> list[Print]:
    """Print the documents into a folder, each under its own name."""
    jobs = [Job(html.stem, html, out / f"{html.stem}.pdf") for html in documents]
    return [future.result() for future in [press.submit(job) for job in jobs]]


@pytest.fixture(scope="session")
def press(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Press, Path]]:
    """One browser for small pages, and the folder that it sees."""
    root = tmp_path_factory.mktemp("pages")
    with Press(root, WHEN, browsers=1) as opened:
        yield opened, root


@pytest.fixture
def folder(press: tuple[Press, Path]) -> Path:
    """A folder of the test's own that the browser sees."""
    root = press[1]
    own = root / f"test-{len(list(root.iterdir()))}"
    own.mkdir()
    return own


@pytest.fixture
def print_html(press: tuple[Press, Path], folder: Path) -> PrintHtml:
    """Print the body of a page that stands in the test's own folder."""

    def print_body(body: str, style: str = "", name: str = "page") -> Print:
        html = folder / f"{name}.html"
        html.write_text(
            f'<!doctype html><html lang="en"><meta charset="utf-8"><title>{name}</title>'
            f"<style>@page {{ size: A4; margin: 20mm }} body {{ margin: 0 }} {style}"
            f"</style>{body}</html>",
            encoding="utf-8",
        )
        return print_all(press[0], [html], folder)[0]

    return print_body
