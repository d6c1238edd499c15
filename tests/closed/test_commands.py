"""Hostile words and files given to the commands themselves."""

from __future__ import annotations

import io
import subprocess
import time
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from manualgen.cli import main
from tests.closed.hostile import DOT, SECRET, SOUND, manual

LONGEST = 3.0
"""Seconds of processor time, which leaves room for measuring coverage."""
ESCAPE = "\x1b"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    folder.mkdir()
    (folder / "sound.md").write_text(SOUND)
    (folder / "manual.yaml").write_bytes(manual(("sound.md",)))
    return folder


def files_in(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes()
        for p in sorted(folder.rglob("*"))
        if p.is_file() and ".git" not in p.parts
    }


# --- where the answer goes -----------------------------------------------------------


@pytest.mark.parametrize("file", ["sound.md", "manual.yaml"])
def test_no_answer_is_written_over_a_source(content: Path, file: str) -> None:
    before, target = files_in(content), str(content / file)
    words = ["print", "sound", str(content), "--output", target]
    assert main(words) == 2
    assert files_in(content) == before


def test_no_site_takes_the_place_of_its_own_sources(content: Path) -> None:
    (content / "manifest.json").write_text('{"maker": "manualgen"}')
    before = files_in(content)
    for out in (content, content.parent):
        assert main(["build", str(content), "--out", str(out), "--no-pdf"]) in (2, 3)
        assert files_in(content) == before


# --- revisions of git ----------------------------------------------------------------


def git(folder: Path, *words: str) -> None:
    named = ["-c", "user.name=A", "-c", "user.email=a@example.org"]
    subprocess.run(["git", "-C", folder, *named, *words], check=True)


@pytest.mark.parametrize(
    "revision",
    [
        "--output=owned",
        "--help",
        "-",
        "--",
        "HEAD --output=owned",
        "HEAD:content/sound.md",
        "HEAD..HEAD",
        "HEAD\n--output=owned",
        "$(touch owned)",
        "HEAD^{tree}",
        "a" * 100_000,
        "\udcff",
    ],
    ids=range(12),
)
def test_a_revision_is_only_ever_a_revision(
    content: Path, revision: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    git(content, "init", "--quiet")
    git(content, "add", ".")
    git(content, "commit", "--quiet", "--message", "One")
    before = files_in(content.parent)
    monkeypatch.chdir(content.parent)
    assert main(["compare", "--content", "content", "--", revision]) == 2
    assert files_in(content.parent) == before


def test_a_repository_of_somebodys_runs_nothing(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Git's own settings can name programs; none of them is needed or run."""
    git(content, "init", "--quiet")
    git(content, "add", ".")
    git(content, "commit", "--quiet", "--message", "One")
    owned = content.parent / "owned"
    hook = content.parent / "hook"
    hook.write_text(f"#!/bin/sh\ntouch {owned}\n")
    hook.chmod(0o755)
    for key in ("core.fsmonitor", "core.pager", "diff.external", "core.sshCommand"):
        git(content, "config", key, str(hook))
    (content / "sound.md").write_text(SOUND.replace("water", "lake"))
    assert main(["compare", "HEAD", "--content", str(content)]) == 0
    assert "lake" in capsys.readouterr().out
    assert not owned.exists()


# --- words on the command line -------------------------------------------------------


@pytest.mark.parametrize("command", ["equation", "formula", "quantity"])
@pytest.mark.parametrize(
    "text",
    [
        "(" * 50_000,
        "H" * 50_000,
        "9" * 50_000,
        "1e" + "9" * 50_000,
        "2" + "0" * 30_000 + " H2 -> H2",
        "H2 + " * 10_000 + "-> H2O",
        "di" * 20_000 + "hydrogen",
        "1,2-" * 10_000 + "ethane",
        "[" * 5000 + "Cu" + "]" * 5000,
        "m" * 20_000,
        "5 " + "k" * 20_000 + "g",
        "5 " + "g/" * 20_000 + "g",
        "5 g" + "9" * 20_000,
        "\x1b[2J\x1b]0;owned\x07",
        "\u202eOaN",
        "NaCl\nNaOH",
        "__import__('os').system('touch owned')",
        "\udcff",
    ],
    ids=range(18),
)
def test_no_text_holds_an_answer_up_or_gives_orders(
    command: str, text: str, capsys: pytest.CaptureFixture[str]
) -> None:
    for more in ([], ["--format", "json"]):
        began = time.process_time()
        assert main([command, *more, "--", text]) == 1
        assert time.process_time() - began < LONGEST
    said = capsys.readouterr()
    assert ESCAPE not in said.out + said.err


def test_a_file_that_is_called_like_an_order_is_shown_not_obeyed(
    content: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (content / "a\x1b[2J\nb: error: all is well.md").write_text(SOUND)
    for words in ("check", "build"):
        assert main([words, str(content)]) == 1
        said = capsys.readouterr()
        assert ESCAPE not in said.out + said.err
        assert "\nb: error" not in said.out + said.err


@pytest.mark.parametrize("name", ["../../secret", "/etc/passwd", "a\0b", "x/../y"])
def test_no_other_manual_leads_outside(
    content: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (content.parent / "secret.yaml").write_text(f"title: {SECRET}\n")
    assert main(["check", str(content), "--manual", name]) == 1
    assert SECRET not in capsys.readouterr().out


# --- documents of anybody's ----------------------------------------------------------

TYPES = (
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="xml" ContentType="application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"/>'
    '<Default Extension="html" ContentType="image/png"/><Default Extension="svg" ContentType="image/png"/>'
    "</Types>"
)
RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
ROOT = (
    f'<Relationships xmlns="{RELATIONS}"><Relationship Id="r1" '
    f'Type="{OFFICE}/officeDocument" Target="word/document.xml"/></Relationships>'
)
WORDS = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
DRAWN = "http://schemas.openxmlformats.org/drawingml/2006/main"


def document(body: str = "<w:p><w:r><w:t>Add the salt.</w:t></w:r></w:p>") -> str:
    return (
        f'<w:document xmlns:w="{WORDS}" xmlns:a="{DRAWN}" xmlns:r="{OFFICE}">'
        f"<w:body>{body}</w:body></w:document>"
    )


def related(target: str, more: str = "") -> str:
    return (
        f'<Relationships xmlns="{RELATIONS}"><Relationship Id="p1" '
        f'Type="{OFFICE}/image" Target="{target}" {more}/></Relationships>'
    )


def package(parts: Mapping[str, str | bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as file:
        whole: dict[str, str | bytes] = {
            "[Content_Types].xml": TYPES,
            "_rels/.rels": ROOT,
            "word/document.xml": document(),
        }
        for name, content in {**whole, **parts}.items():
            packed = zipfile.ZIP_DEFLATED if len(content) > 999 else zipfile.ZIP_STORED
            file.writestr(name, content, packed)
    return out.getvalue()


PICTURE = document(
    '<w:p><w:r><w:t>Add salt.</w:t></w:r><w:r><a:blip r:embed="p1"/></w:r></w:p>'
)
ENTITY = '<!DOCTYPE d [<!ENTITY x SYSTEM "file:///etc/passwd">]>'
RELS = "word/_rels/document.xml.rels"

PACKAGES: dict[str, Callable[[], bytes]] = {
    "a bomb": lambda: package({"word/media/a.png": bytes(60_000_000)}),
    "many bombs": lambda: package(
        {f"word/{n}.bin": bytes(9_000_000) for n in range(12)}
    ),
    "too many parts": lambda: package({f"word/{n}.xml": "" for n in range(5000)}),
    "entities": lambda: package({"word/document.xml": ENTITY + document()}),
    "entities in UTF-16": lambda: package(
        {"word/document.xml": (ENTITY + document()).encode("utf-16")}
    ),
    "entities in a relation": lambda: package({RELS: ENTITY + related("a.png")}),
    "depth": lambda: package(
        {"word/document.xml": document("<w:sdt>" * 20_000 + "</w:sdt>" * 20_000)}
    ),
    "a lying checksum": lambda: package({"word/a.bin": "abc"}).replace(b"abc", b"xyz"),
    "half a package": lambda: package({})[:300],
    "no document": lambda: package({"word/document.xml": "<html/>"}),
    "no words": lambda: package({"word/document.xml": document("")}),
}


@pytest.mark.parametrize("name", PACKAGES)
def test_a_document_that_attacks_its_reader_is_refused(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    old = tmp_path / "old.docx"
    old.write_bytes(PACKAGES[name]())
    began = time.process_time()
    assert main(["adopt", str(old), "--into", str(tmp_path / "content")]) == 2
    assert time.process_time() - began < LONGEST
    assert "Traceback" not in capsys.readouterr().err
    assert files_in(tmp_path).keys() == {"old.docx"}


ODD_PICTURES: dict[str, Mapping[str, str | bytes]] = {
    "a page": {RELS: related("media/a.html"), "word/media/a.html": b"<script>"},
    "an active drawing": {
        RELS: related("media/a.svg"),
        "word/media/a.svg": b"<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>",
    },
    "a path upward": {RELS: related("../../a.png"), "../../a.png": DOT},
    "an address": {
        RELS: related("https://evil.example/a.png", 'TargetMode="External"')
    },
    "a file of the disk": {
        RELS: related("file:///etc/passwd", 'TargetMode="External"')
    },
}


@pytest.mark.parametrize("name", ODD_PICTURES)
def test_what_a_document_carries_is_a_picture_or_left(
    name: str, tmp_path: Path
) -> None:
    old, content = tmp_path / "in" / "old.docx", tmp_path / "content"
    old.parent.mkdir()
    old.write_bytes(package({"word/document.xml": PICTURE, **ODD_PICTURES[name]}))
    assert main(["adopt", str(old), "--into", str(content)]) in (0, 2)
    made = {
        name: text for name, text in files_in(tmp_path).items() if "in/" not in name
    }
    assert all(name.startswith("content/") for name in made)
    assert {Path(name).suffix for name in made} <= {".md", ".yaml", ".png"}
    assert not [name for name, text in made.items() if b"evil.example" in text]


@pytest.mark.parametrize(
    "address",
    ["../secret.png", "/etc/passwd.png", "link.png", "~/a.png", "%2e%2e/secret.png"],
)
def test_notes_bring_no_picture_from_elsewhere(address: str, tmp_path: Path) -> None:
    folder, content = tmp_path / "in", tmp_path / "content"
    folder.mkdir()
    (tmp_path / "secret.png").write_bytes(DOT)
    (folder / "link.png").symlink_to(tmp_path / "secret.png")
    notes = folder / "notes.md"
    notes.write_text(f"# Salt\n\n## Method\n\n1. Add salt.\n\n![a]({address})\n")
    assert main(["adopt", str(notes), "--into", str(content)]) == 0
    assert {Path(name).suffix for name in files_in(content)} == {".md", ".yaml"}
