"""The press at work: what it lets in, what it reports, and what it survives."""

import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Sequence
from concurrent.futures import Future
from pathlib import Path

import pytest

from manualgen.press import worker
from manualgen.press.errors import PressError
from manualgen.press.jobs import Job, Print
from manualgen.press.press import Press
from manualgen.press.worker import PATIENCE_SECONDS
from tests.closed.hostile import DOT
from tests.press.conftest import WHEN, PrintHtml, print_all
from tests.press.readback import figures, page_texts, tagged_text, tags, unmarked_paint
from tests.press.sample import write_sheets
from tests.press.stand_in import is_running, stand_in

pytestmark = pytest.mark.browser

SQUARE = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9">'
    '<rect width="9" height="9" fill="{}"/></svg>'
)


def test_prints_are_the_same_bytes_from_any_browser_in_any_order_and_folder(
    tmp_path: Path,
) -> None:
    seen: dict[str, set[bytes]] = {}
    for run in range(3):
        folder = tmp_path / f"folder-{run}" / ("deep" * run)
        folder.mkdir(parents=True)
        documents = write_sheets(folder, 3)[:: 1 if run % 2 else -1]
        with Press(folder, WHEN, browsers=1 + run % 2) as press:
            for _ in range(2):
                for done in print_all(press, documents, folder):
                    seen.setdefault(done.job.name, set()).add(done.job.pdf.read_bytes())
    assert {name: len(kinds) for name, kinds in seen.items()} == dict.fromkeys(
        ("sheet-001", "sheet-002", "sheet-003"), 1
    )


def test_only_files_of_the_build_are_loaded(
    print_html: PrintHtml, folder: Path, tmp_path: Path
) -> None:
    outside = tmp_path / "picture.svg"
    outside.write_text('<svg xmlns="http://www.w3.org/2000/svg"/>', encoding="utf-8")
    (folder / "linked.svg").symlink_to(outside)
    (folder / "own.svg").write_text(outside.read_text(), encoding="utf-8")
    with socket.create_server(("127.0.0.1", 0)) as server:
        web = f"http://127.0.0.1:{server.getsockname()[1]}"
        done = print_html(
            f'<img src="{web}/a.png"><img src="{outside.as_uri()}"><img src="own.svg">'
            f'<img src="linked.svg"><iframe src="{web}/frame"></iframe>'
            f'<iframe src="file:///etc/passwd"></iframe><img src="absent.png">',
            style=f"@font-face {{ font-family: W; src: url({web}/w.woff) }}",
        )
        server.settimeout(0.1)
        with pytest.raises(TimeoutError):
            server.accept()
    assert set(done.refused) == {
        f"{web}/a.png",
        f"{web}/frame",
        f"{web}/w.woff",
        outside.as_uri(),
        (folder / "linked.svg").as_uri(),
        (folder / "absent.png").as_uri(),
        "file:///etc/passwd",
    }


def test_scripts_of_a_document_do_not_run(print_html: PrintHtml) -> None:
    done = print_html(
        "<p>as written</p><script>document.body.textContent = 'as run'</script>"
        "<img src='absent.png' onerror=\"document.body.textContent = 'as run'\">"
    )
    assert page_texts(done.job.pdf)[0].strip() == "as written"


# ISO 32000-1:2008, 14.8.4, "Standard structure types"; from memory.
STANDARD_TAGS = frozenset(
    re.findall(
        r"\w+",
        "Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private "
        "P H H1 H2 H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot Span "
        "Quote Note Reference BibEntry Code Link Annot Ruby RB RT RP Warichu WT WP "
        "Figure Formula Form",
    )
)


def test_every_tag_is_one_of_the_standards(print_html: PrintHtml) -> None:
    done = print_html(
        "<article><header><h1>a</h1></header><nav><a href='#x'>b</a></nav>"
        "<p id='x'>c <strong>d</strong> <em>e</em> <b>f</b> <i>g</i> <code>h</code>"
        "<q>i</q> <cite>j</cite> <kbd>k</kbd> <del>l</del> <ins>m</ins> <mark>n</mark></p>"
        "<blockquote>o</blockquote><pre>p</pre><dl><dt>q</dt><dd>r</dd></dl>"
        "<details open><summary>s</summary>t</details><aside>u</aside><ruby>v<rt>w</rt>"
        "</ruby><label>x <input value='y'></label><h6>z</h6><footer>end</footer></article>"
    )
    assert set(tags(done.job.pdf)) <= STANDARD_TAGS
    assert tagged_text(done.job.pdf).split()[:5] == ["a", "b", "c", "d", "e"]


def test_a_paragraph_that_runs_over_three_pages_is_one_paragraph(
    print_html: PrintHtml,
) -> None:
    words = [f"word{n}" for n in range(3000)]
    done = print_html(f"<p>{' '.join(words)}</p>")
    assert len(page_texts(done.job.pdf)) > 2
    assert tags(done.job.pdf) == ["Document", "P"]
    # Chromium sets no space at the end of a line.
    assert tagged_text(done.job.pdf).replace(" ", "") == "".join(words)
    assert unmarked_paint(done.job.pdf) == []


def test_an_empty_page_can_be_printed(print_html: PrintHtml) -> None:
    done = print_html("")
    assert (done.scale, page_texts(done.job.pdf)) == (1, [""])


def test_a_page_that_fits_is_printed_at_its_size(print_html: PrintHtml) -> None:
    # A4 less two margins of 20 mm is 170 mm.
    done = print_html('<div id="full" style="width: 170mm">as wide as the text</div>')
    assert (done.scale, done.wide) == (1, ())


@pytest.mark.parametrize("width_mm", [190, 250, 330, 500])
def test_an_excess_of_any_size_is_seen(print_html: PrintHtml, width_mm: int) -> None:
    done = print_html(
        f'<p id="wide" style="width: {width_mm}mm">too wide</p><p>fits</p>'
    )
    assert [w.id for w in done.wide] == ["wide"]
    assert done.scale == pytest.approx(max(170 / width_mm, 2 / 3), abs=0.005)


def test_half_a_millimetre_too_much_is_seen(print_html: PrintHtml) -> None:
    done = print_html('<p id="wide" style="width: 170.5mm">a little too wide</p>')
    assert [w.id for w in done.wide] == ["wide"]


@pytest.mark.parametrize(
    ("body", "culprit"),
    [
        (
            '<p>fits</p><p id="wide" style="width: 200mm">does not</p>',
            ("p", "wide", ""),
        ),
        (
            f'<ul id="list"><li data-line="9">{"long" * 60}</li></ul>',
            ("li", "list", "9"),
        ),
        (
            '<figure id="fig" data-line="4"><svg width="180mm" height="9">'
            '<path d="M0 4H600" stroke="black"/></svg></figure>',
            ("svg", "fig", "4"),
        ),
    ],
)
def test_what_is_wider_than_the_page_is_named(
    print_html: PrintHtml, body: str, culprit: tuple[str, str, str]
) -> None:
    done = print_html(body)
    assert done.scale < 1
    assert [(w.tag, w.id, w.line) for w in done.wide] == [culprit]


def test_a_page_that_is_one_large_drawing_is_not_taken_for_a_shrunk_one(
    print_html: PrintHtml,
) -> None:
    done = print_html(
        '<svg style="display: block" width="170mm" height="250mm" viewBox="0 0 1700 2500">'
        '<path d="M0 9H1700" stroke="black"/></svg>'
    )
    assert (done.scale, done.wide) == (1, ())


def test_the_excess_is_measured_in_millimetres_of_the_page(
    print_html: PrintHtml,
) -> None:
    done = print_html('<p id="wide" style="width: 200mm; margin: 0">too wide</p>')
    assert done.wide[0].excess_mm == pytest.approx(30, abs=0.3)
    assert done.scale == pytest.approx(170 / 200, abs=0.002)


def test_what_is_cut_off_at_its_own_edge_does_not_widen_the_page(
    print_html: PrintHtml,
) -> None:
    done = print_html(
        '<p style="width: 20mm; overflow: clip"><span style="white-space: nowrap">'
        f"{'word ' * 100}</span></p>"
    )
    assert (done.scale, done.wide) == (1, ())


DIES = '"$BROWSER" "$@" & sleep 1; kill -9 $!; exit 1'


@pytest.mark.parametrize("fault", ["exit 1", DIES])
def test_a_browser_that_dies_is_started_once_more(
    fault: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    browser = stand_in(tmp_path, first=fault)
    monkeypatch.setenv("MANUALGEN_BROWSER", str(browser.executable))
    html = tmp_path / "long.html"
    html.write_text(
        f"<!doctype html>{'<p>once and again</p>' * 5000}", encoding="utf-8"
    )
    with Press(tmp_path, WHEN, browsers=1) as press:
        print_all(press, [html], tmp_path)
    assert len(browser.processes) == 2
    assert "once and again" in page_texts(tmp_path / "long.pdf")[-1]


def test_a_browser_that_dies_twice_ends_the_job_with_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    browser = stand_in(tmp_path, first="exit 1", later="exit 1")
    monkeypatch.setenv("MANUALGEN_BROWSER", str(browser.executable))
    (html,) = write_sheets(tmp_path, 1)
    with (
        Press(tmp_path, WHEN, browsers=1) as press,
        pytest.raises(PressError, match=r"the titration: the browser .* failed twice"),
    ):
        press.submit(Job("the titration", html, tmp_path / "out.pdf")).result()
    assert len(browser.processes) == 2


def test_a_pdf_that_cannot_be_written_is_the_jobs_fault(tmp_path: Path) -> None:
    (html,) = write_sheets(tmp_path, 1)
    with (
        Press(tmp_path, WHEN, browsers=1) as press,
        pytest.raises(PressError, match=r"sheet: cannot write .*No such file"),
    ):
        press.submit(Job("sheet", html, tmp_path / "absent" / "out.pdf")).result()


def test_no_browser_starts_for_what_the_cache_has(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    browser = stand_in(tmp_path)
    monkeypatch.setenv("MANUALGEN_BROWSER", str(browser.executable))
    folder, cache = tmp_path / "sheets", tmp_path / "cache"
    folder.mkdir()
    documents = write_sheets(folder, 2)
    printed = []
    for _ in range(2):
        with Press(folder, WHEN, browsers=1, cache=cache) as press:
            printed.append(
                [d.job.pdf.read_bytes() for d in print_all(press, documents, folder)]
            )
    assert printed[0] == printed[1]
    assert len(browser.processes) == 1


def test_a_changed_style_sheet_is_printed_again(tmp_path: Path) -> None:
    folder, cache = tmp_path / "sheets", tmp_path / "cache"
    folder.mkdir()
    documents = write_sheets(folder, 1)
    heads = []
    for head in ("Skerry Point", "Another"):
        css = folder / "sheet.css"
        css.write_text(css.read_text().replace("Skerry Point", head), encoding="utf-8")
        with Press(folder, WHEN, browsers=1, cache=cache) as press:
            (done,) = print_all(press, documents, folder)
        heads.append(page_texts(done.job.pdf)[0].split()[0])
    assert heads == ["Skerry", "Another"]


def test_a_changed_picture_prints_again_what_shows_it(tmp_path: Path) -> None:
    folder, cache = tmp_path / "pages", tmp_path / "cache"
    folder.mkdir()
    documents = []
    for name in ("plain", "mine", "other"):
        picture = "" if name == "plain" else f'<img alt="{name}" src="{name}.svg">'
        (folder / f"{name}.svg").write_text(SQUARE.format("red"), encoding="utf-8")
        documents.append(folder / f"{name}.html")
        documents[-1].write_text(f"<!doctype html><title>{name}</title>{picture}")
    prints = []
    for colour in ("red", "blue"):
        (folder / "mine.svg").write_text(SQUARE.format(colour), encoding="utf-8")
        with Press(folder, WHEN, browsers=1, cache=cache) as press:
            done = print_all(press, documents, folder)
        prints.append([d.job.pdf.read_bytes() for d in done])
    assert [a == b for a, b in zip(*prints, strict=True)] == [True, False, True]


def test_a_raster_picture_of_a_later_document_is_waited_for(tmp_path: Path) -> None:
    (tmp_path / "dot.png").write_bytes(DOT)
    documents = [tmp_path / "first.html", tmp_path / "second.html"]
    documents[0].write_text("<!doctype html><title>First</title>One")
    documents[1].write_text(
        '<!doctype html><title>Second</title><img alt="a dot" src="dot.png">'
    )
    jobs = [Job(d.stem, d, d.with_suffix(".pdf")) for d in documents]
    with Press(tmp_path, WHEN, browsers=1) as press:
        orders = [press.submit(job) for job in jobs]
        done = [order.result(timeout=PATIENCE_SECONDS / 2) for order in orders]
    assert [figures(each.job.pdf) for each in done] == [[], ["a dot"]]


def test_nothing_of_a_document_stays_for_the_next(tmp_path: Path) -> None:
    first, second = tmp_path / "first.html", tmp_path / "second.html"
    first.write_text(
        '<!doctype html><html lang="fr" class="large" dir="rtl"><title>A</title>'
        "<style>@page { size: A5 landscape } .large { font-size: 40pt }</style>"
        '<body style="color: red"><h1 id="top">First</h1>'
    )
    second.write_text('<!doctype html><title>B</title><p class="large" id="p">Second')
    alone, after = (_last_print(d, tmp_path) for d in ((second,), (first, second)))
    assert alone == after


def _last_print(documents: Sequence[Path], folder: Path) -> bytes:
    with Press(folder, WHEN, browsers=1) as press:
        return print_all(press, documents, folder)[-1].job.pdf.read_bytes()


def test_after_an_error_what_was_not_begun_is_dropped(tmp_path: Path) -> None:
    documents = write_sheets(tmp_path, 30)
    futures: list[Future[Print]] = []

    def give_up() -> None:
        with Press(tmp_path, WHEN, browsers=1) as press:
            jobs = [Job(d.stem, d, d.with_suffix(".pdf")) for d in documents]
            futures.extend(press.submit(job) for job in jobs)
            futures[0].result()
            raise KeyError

    with pytest.raises(KeyError):
        give_up()
    assert futures[-1].cancelled()
    assert all(future.done() for future in futures)


PRINT_FOR_EVER = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from manualgen.press.jobs import Job, Print
from manualgen.press.press import Press

html = Path(sys.argv[1])
with Press(html.parent, datetime(2026, 9, 1, tzinfo=UTC), browsers=2) as press:
    jobs = [Job("sheet", html, html.with_suffix(f".{n}.pdf")) for n in range(10000)]
    for future in [press.submit(job) for job in jobs]:
        future.result()
"""


def test_no_browser_outlives_a_press_that_is_killed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    browser = stand_in(tmp_path)
    monkeypatch.setenv("MANUALGEN_BROWSER", str(browser.executable))
    (html,) = write_sheets(tmp_path, 1)
    printing = subprocess.Popen([sys.executable, "-c", PRINT_FOR_EVER, html])
    wait_until(lambda: len(list(tmp_path.glob("*.pdf"))) > 2)
    printing.send_signal(signal.SIGKILL)
    printing.wait()
    wait_until(lambda: not any(map(is_running, browser.processes)))
    assert len(browser.processes) == 2


def test_the_browser_is_gone_when_the_press_is_closed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    browser = stand_in(tmp_path)
    monkeypatch.setenv("MANUALGEN_BROWSER", str(browser.executable))
    with Press(tmp_path, WHEN, browsers=1) as press:
        print_all(press, write_sheets(tmp_path, 1), tmp_path)
    assert not any(map(is_running, browser.processes))


def wait_until(condition: object, seconds: float = 20) -> None:
    assert callable(condition)
    limit = time.monotonic() + seconds
    while not condition():
        assert time.monotonic() < limit, "waited in vain"
        time.sleep(0.05)


STANDS_STILL = '"$BROWSER" "$@" & sleep 1; kill -STOP $!; sleep 6; kill -CONT $!; wait'
"""Six seconds of standing still; of one that never wakes, the driver waits 30."""


def test_a_browser_that_stands_still_is_replaced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    browser = stand_in(tmp_path, first=STANDS_STILL)
    monkeypatch.setenv("MANUALGEN_BROWSER", str(browser.executable))
    html = tmp_path / "long.html"
    html.write_text(
        f"<!doctype html>{'<p>once and again</p>' * 5000}", encoding="utf-8"
    )
    monkeypatch.setattr(worker, "PATIENCE_SECONDS", 3)
    with Press(tmp_path, WHEN, browsers=1) as press:
        order = press.submit(Job("long", html, tmp_path / "long.pdf"))
        wait_until(lambda: bool(browser.processes))
        # The first browser has three seconds; the second as long as it needs.
        monkeypatch.setattr(worker, "PATIENCE_SECONDS", 120)
        order.result()
    assert len(browser.processes) == 2
    assert "once and again" in page_texts(tmp_path / "long.pdf")[-1]
    wait_until(lambda: not any(map(is_running, browser.processes)))
