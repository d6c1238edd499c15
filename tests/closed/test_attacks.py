"""A hostile contributor's files: each attack is met by a finding, or is only words.

The attacks are data, in ``attacks/``.  None ends in a traceback, takes long,
runs or loads anything, reads what lies outside the content folder, or writes
anywhere but where it was told to.
"""

from __future__ import annotations

import datetime
import json
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from manualgen.build.preview import Preview
from manualgen.build.studio import Studio
from manualgen.cli import main
from tests.closed.hostile import SECRET, Attack, attacks
from tests.closed.pages import open_doors

TODAY = datetime.date(2026, 9, 1)
LONGEST = 3.0
"""Seconds, which leaves room for measuring coverage; without, none takes one."""

PREVIEWS_OWN = (
    '<link rel="stylesheet" href="/~preview/preview.css">'
    '<script src="/~preview/preview.js" data-version="1" defer></script>'
)
"""What a preview adds to a page, so that it shows findings and is loaded again."""

ATTACKS = tuple(attacks())


def everything(folder: Path) -> dict[str, bytes | None]:
    """Each ordinary file with what it holds, and the names of all others."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        if path.is_file() and not path.is_symlink()
        else None
        for path in walk(folder)
    }


def walk(folder: Path) -> Iterator[Path]:
    for path in sorted(folder.iterdir()):
        yield path
        if path.is_dir() and not path.is_symlink():
            yield from walk(path)


def test_there_are_many_attacks_and_none_twice() -> None:
    names = [attack.name for attack in ATTACKS]
    assert len(set(names)) == len(names) > 100


@pytest.fixture(params=ATTACKS, ids=lambda attack: attack.name)
def attack(request: pytest.FixtureRequest) -> Attack:
    found: Attack = request.param
    return found


def test_an_attack_is_met(
    attack: Attack, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content, out = attack.write(tmp_path), tmp_path / "built" / "site"
    before = everything(tmp_path)
    began = time.process_time()
    status = main(["check", str(content), "--format", "json"])
    spent = time.process_time() - began
    findings = json.loads(capsys.readouterr().out)["findings"]
    grave = {f["check"] for f in findings if f["severity"] != "note"}
    assert grave == attack.finds
    errors = [f for f in findings if f["severity"] == "error"]
    assert status == (1 if errors else 0)
    assert spent < LONGEST

    built = main(["build", str(content), "--out", str(out), "--no-pdf"])
    said = capsys.readouterr()
    assert built == status
    assert SECRET not in said.out + said.err
    assert out.exists() == (built == 0)
    after = everything(tmp_path)
    made = {path: after.pop(path) for path in tuple(after) if path.startswith("built")}
    assert after == before
    assert not [p for p, c in made.items() if c is not None and SECRET.encode() in c]


def test_a_preview_shows_every_page_closed_though_no_build_would_allow_it(
    attack: Attack, tmp_path: Path
) -> None:
    made = Preview(Studio(attack.write(tmp_path), None, TODAY)).make(1)
    pages = {
        path: made.pages[path].decode().replace(PREVIEWS_OWN, "")
        for path in made.pages
        if path.endswith((".html", "search-index.js"))
    }
    assert open_doors(pages) == []
    assert not [path for path, text in pages.items() if SECRET in text]
