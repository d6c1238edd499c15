"""Old documents of anybody's: what attacks its reader is refused, the rest is left."""

from __future__ import annotations

import io
import time
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from manualgen.cli import main
from manualgen.commands.start import schema_files
from tests.closed.hostile import DOT, files_in

LONGEST = 3.0
"""Seconds of processor time, which leaves room for measuring coverage."""

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
    # The editor's schemas stand beside a folder that is begun, ours to the byte.
    for name, text in schema_files():
        assert made.pop(name, text.encode()) == text.encode()
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
