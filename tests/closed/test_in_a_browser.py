"""A hostile manual, built whole: its pages and its PDFs do nothing but show words."""

from __future__ import annotations

import csv
import datetime
import json
from collections.abc import Iterator, Mapping
from pathlib import Path

import pikepdf
import pytest
from playwright.sync_api import Browser, Dialog, Page, Request, sync_playwright

from manualgen.build import check, read_and_work
from manualgen.build.site import BuildOptions, build_manual
from manualgen.build.stages import work_source
from manualgen.model.finding import Severity
from manualgen.press.browser import is_root
from manualgen.press.chromium import find_chromium
from tests.closed.hostile import DOT, experiment, hostile_words, manual, places
from tests.closed.pages import open_doors
from tests.reading.shelf import Shelf

pytestmark = pytest.mark.browser

TODAY = datetime.date(2026, 9, 1)
TOGETHER = 8
"""Hostile words in one experiment, so that there are few to print."""

HOSTILE_LABELS = """\
en:
  step: <img src=x onerror=alert(1)>
  found_one: <img src=x onerror=alert(1)>
  found_many: "{number} <img src=x onerror=alert(1)>"
  found_none: </script><script>alert(1)</script>
  after: "<script>alert(1)</script> {time}"
"""


ONCE = ("## Questions", "## Calculation")
"""Sections whose numbers or symbols could not stand twice: of these the first."""


def hostile_manual() -> dict[str, bytes]:
    """Everything hostile that a build allows, in as few experiments as will do."""
    words = list(hostile_words().values())
    files = {"images/dot.png": DOT, "labels.yaml": HOSTILE_LABELS.encode()}
    for start in range(0, len(words), TOGETHER):
        sections: dict[str, list[str]] = {"## Theory": []}
        for heading, body in allowed_bodies(words[start : start + TOGETHER]):
            found = sections.setdefault(heading, [])
            if heading not in ONCE or not found:
                found.append(body)
        text = "\n\n".join(
            "\n\n".join((heading, *found)) for heading, found in sections.items()
        )
        text += (
            "\n\n## Disposal\n\nCollect everything.\n\n### Lesson 2 (9 min, after 2 h)"
        )
        listed = names_of_chemicals(words[start : start + TOGETHER])
        front = (
            f"chemicals: {json.dumps([{'name': n, 'amount': '5 g'} for n in listed])}"
        )
        files[f"x{start}.md"] = experiment(text, front)
    files["chemicals.yaml"] = "".join(map(stored, names_of_chemicals(words))).encode()
    return {**files, "manual.yaml": hostile_settings(files)}


def names_of_chemicals(words: list[str]) -> list[str]:
    return [each for each in words if each.isprintable() and each != "__proto__"]


def stored(name: str) -> str:
    """A chemical of the department's that is hostile in all that it says."""
    said = json.dumps(name)
    return (
        f"{said}:\n  hazards: [H302]\n  signal: Warning\n  source: {said}\n"
        f"  also: [{said}]\n  shelf: {said}\n  supplier: {said}\n  note: {said}\n"
        f"  disposal: {{collect: {said}}}\n"
    )


def allowed_bodies(words: list[str]) -> Iterator[tuple[str, str]]:
    """Each section's heading with what may stand under it."""
    for place in places("in an experiment"):
        for each in words:
            body = place.body.replace(
                "HERE", json.dumps(each) if place.quoted else each
            )
            if body and place.name != "name" and is_allowed(experiment(body)):
                heading, _, rest = body.partition("\n\n")
                yield heading, rest.replace(" [#dot]", "")


def is_allowed(text: bytes) -> bool:
    shelf = Shelf(
        {"images/dot.png": DOT, "x.md": text, "manual.yaml": manual(("x.md",))}
    )
    found = check(work_source(shelf, None, TODAY))
    return all(f.severity is not Severity.ERROR for f in found)


def hostile_settings(files: Mapping[str, bytes]) -> bytes:
    words = [w for w in hostile_words().values() if w.isprintable()]
    listed = manual(tuple(files)).decode().partition("experiments: ")[2]
    return (
        f"title: {json.dumps(words[0])}\ninstitution: {json.dumps(words[4])}\n"
        f"edition: {json.dumps(words[2])}\nduplex: true\n"
        f"standing_controls: {json.dumps(words)}\n"
        f"parts:\n  - title: {json.dumps(words[5])}\n    experiments: {listed}"
    ).encode()


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    for name, content in hostile_manual().items():
        path = folder / "content" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    worked = read_and_work(folder / "content", None, TODAY)
    errors = [f for f in check(worked) if f.severity is Severity.ERROR]
    assert errors == []
    everything = BuildOptions(technician=True)
    built = build_manual(folder / "content", worked, folder / "site", everything)
    assert built.findings == ()
    return folder / "site"


def test_no_page_runs_or_reaches_anything(site: Path) -> None:
    pages = {p.relative_to(site).as_posix(): p for p in site.rglob("*.html")}
    assert len(pages) > 2 * len(hostile_words()) / TOGETHER
    assert open_doors({name: p.read_text("utf-8") for name, p in pages.items()}) == []


def test_no_cell_of_a_list_is_a_formula(site: Path) -> None:
    (list_,) = site.rglob("*.csv")
    with list_.open(encoding="utf-8", newline="") as file:
        cells = [cell for row in csv.reader(file) for cell in row]
    assert any("cmd|" in cell for cell in cells)
    assert [cell for cell in cells if cell.lstrip().startswith(tuple("=+-@"))] == []


ACTING = {"/JS", "/JavaScript", "/AA", "/OpenAction", "/Launch", "/EmbeddedFiles"}
"""Keys of what acts by itself, or carries a file (ISO 32000-1, 12.6 and 7.11.4)."""

FOLLOWED = "https://example.org/"


def test_no_pdf_does_anything_but_follow_its_links(site: Path) -> None:
    addresses = set[str]()
    for file in sorted(site.rglob("*.pdf")):
        with pikepdf.open(file) as pdf:
            assert [(file.name, key) for key in acting_keys(pdf)] == []
            addresses |= set(followed(pdf))
    outside = {address for address in addresses if ":" in address}
    assert outside
    assert all(address.startswith(FOLLOWED) for address in outside)


def acting_keys(pdf: pikepdf.Pdf) -> Iterator[str]:
    for thing in pdf.objects:
        if isinstance(thing, pikepdf.Dictionary):
            yield from ACTING & set(thing.keys())


def followed(pdf: pikepdf.Pdf) -> Iterator[str]:
    """The address of every link, all of which are links and nothing else."""
    for page in pdf.pages:
        for annotation in page.obj.get("/Annots", ()):
            assert annotation.Subtype == "/Link"
            if "/A" in annotation:
                assert annotation.A.S in ("/URI", "/GoTo")
                yield str(annotation.A.get("/URI", ""))


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(
            executable_path=find_chromium(), chromium_sandbox=not is_root()
        )
        yield opened
        opened.close()


LEFT = "net::ERR_ABORTED"


def test_a_reader_meets_no_dialogue_no_request_and_no_error(
    site: Path, browser: Browser
) -> None:
    page, met = browser.new_page(), list[str]()

    def dismiss(dialog: Dialog) -> None:
        met.append(f"a dialogue: {dialog.message}")
        dialog.dismiss()

    def look(request: Request) -> None:
        if not request.url.startswith("file:"):
            met.append(f"a request: {request.url}")

    def fail(request: Request) -> None:
        if request.failure != LEFT:  # a face that the page was left before it had
            met.append(f"not found: {request.url}")

    page.on("dialog", dismiss)
    page.on("request", look)
    page.on("requestfailed", fail)
    page.on("console", lambda message: met.append(message.text))
    page.on("pageerror", lambda error: met.append(str(error)))
    for path in sorted(site.rglob("*.html")):
        page.goto(path.as_uri())
        if path.name == "index.html" and path.parent != site:
            search_for_everything(page)
    assert met == []


def search_for_everything(page: Page) -> None:
    """Type what an attacker hopes somebody will look for, and see it found."""
    for words in ("script", "alert", "onerror", "__proto__", "nothing at all"):
        page.fill("#finder", words)
    page.fill("#finder", "script")
    assert page.locator("#found li").count() > 0
    assert page.locator("#found img, #found script, #found-count *").count() == 0
