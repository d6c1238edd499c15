"""``manualgen adopt`` from the shell: drafts, the list, refusals, and a new user's way."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path

import pytest
import yaml

from manualgen.cli import main
from tests.adopting.documents import PICTURE, write_document

SOURCES = Path(__file__).parent / "sources"
NOTES = (
    "Salt from a pen\n\nMethod:\n1. Weigh 2g of salt.\n2. Stir it in 50cc of water.\n"
)


def _adopt(content: Path, *files: Path) -> int:
    return main(["adopt", *map(str, files), "--into", str(content)])


def _file(folder: Path, name: str, content: str | bytes) -> Path:
    path = folder / name
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def _listed(content: Path) -> list[str]:
    text = (content / "manual.yaml").read_text(encoding="utf-8")
    manual = yaml.load(text, Loader=yaml.CBaseLoader)
    return [name for part in manual["parts"] for name in part["experiments"]]


def test_each_practical_of_talk_becomes_a_listed_draft(tmp_path: Path) -> None:
    content = tmp_path / "content"
    assert _adopt(content, SOURCES / "ion-tests.txt") == 0
    assert _listed(content) == ["ammonium", "iron-both-sorts", "iodide", "carbonate"]
    assert {p.stem for p in content.glob("*.md")} == set(_listed(content))


def test_what_is_left_to_decide_is_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _adopt(tmp_path / "content", SOURCES / "ion-tests.txt") == 0
    told = capsys.readouterr().out
    for check in ("control-missing", "disposal-missing", "apparatus-not-listed"):
        assert check in told
    assert "how much potassium iodide solution is not said" in told


def test_used_and_not_listed_is_a_finding(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    notes = "Gas\n\nMethod:\n1. Put 2 g of sodium carbonate in a beaker.\n"
    assert _adopt(tmp_path / "content", _file(tmp_path, "n.txt", notes)) == 0
    assert "chemical-not-listed" in capsys.readouterr().out


def test_a_formula_that_cannot_be_is_a_finding(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    notes = "Salts\n\nTheory:\nThe salt is NaSO4.\n\nMethod:\n1. Stir the salt.\n"
    assert _adopt(tmp_path / "content", _file(tmp_path, "n.txt", notes)) == 0
    told = capsys.readouterr().out
    assert "formula-charge" in told
    assert "Na2SO4" in told


def test_a_draft_is_never_written_over(tmp_path: Path) -> None:
    content, notes = tmp_path / "content", _file(tmp_path, "pen.txt", NOTES)
    assert _adopt(content, notes) == 0
    first = content / "salt-from-a-pen.md"
    first.write_text("mine", encoding="utf-8")
    assert _adopt(content, notes) == 0
    assert first.read_text(encoding="utf-8") == "mine"
    assert _listed(content) == ["salt-from-a-pen", "salt-from-a-pen-2"]


def test_a_manual_gets_lines_and_loses_none(tmp_path: Path) -> None:
    content = tmp_path / "content"
    content.mkdir()
    before = "# ours\ntitle: Year 12   # the title\nparts:\n- title: Acids\n  experiments: [a]   # first\n\nedition: 2026\n"
    _file(content, "manual.yaml", before)
    assert _adopt(content, _file(tmp_path, "pen.txt", NOTES)) == 0
    after = (content / "manual.yaml").read_text(encoding="utf-8").splitlines()
    assert [
        line for line in after if line in before.splitlines()
    ] == before.splitlines()
    assert _listed(content) == ["a", "salt-from-a-pen"]


@pytest.mark.parametrize(
    "manual",
    [
        "parts: [{title: A, experiments: [a]}]\n",
        "a: [\n",
        "- 1\n",
        "title: T\nparts: x\n",
    ],
)
def test_a_manual_that_cannot_take_lines_is_left_alone(
    tmp_path: Path, manual: str, capsys: pytest.CaptureFixture[str]
) -> None:
    content = tmp_path / "content"
    content.mkdir()
    path = _file(content, "manual.yaml", manual)
    assert _adopt(content, _file(tmp_path, "pen.txt", NOTES)) == 0
    assert path.read_text(encoding="utf-8") == manual
    assert "left as it is" in capsys.readouterr().out


def test_pictures_and_tables_are_kept(tmp_path: Path) -> None:
    content = tmp_path / "content"
    assert _adopt(content, write_document("limescale-remover", tmp_path)) == 0
    draft = (content / "how-strong-is-a-limescale-remover.md").read_text("utf-8")
    address = re.search(r"!\[.*\]\((.*)\)", draft)
    assert address is not None
    assert (content / address[1]).read_bytes() == PICTURE
    assert "| initial / cm3 |  |  |  |" in draft


def test_a_picture_outside_the_notes_folder_is_not_taken(tmp_path: Path) -> None:
    inner = tmp_path / "notes"
    inner.mkdir()
    _file(tmp_path, "secret.png", PICTURE)
    notes = _file(inner, "n.md", NOTES + "\n![a](../secret.png)\n")
    assert _adopt(tmp_path / "content", notes) == 0
    assert not (tmp_path / "content" / "images").exists()
    assert "secret" in (tmp_path / "content" / "salt-from-a-pen.md").read_text("utf-8")


def _bomb() -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as package:
        package.writestr("[Content_Types].xml", "<Types/>")
        package.writestr("word/document.xml", b" " * 30_000_000)
    return file.getvalue()


def _with_entities(folder: Path) -> bytes:
    whole = write_document("cold-pack", folder)
    file = io.BytesIO()
    with zipfile.ZipFile(whole) as old, zipfile.ZipFile(file, "w") as package:
        for name in old.namelist():
            body = old.read(name)
            if name == "word/document.xml":
                declared = b'<!DOCTYPE d [<!ENTITY x SYSTEM "file:///etc/passwd">]>'
                body = body.replace(b"<w:document", declared + b"<w:document", 1)
            package.writestr(name, body)
    return file.getvalue()


@pytest.mark.parametrize(
    ("name", "content", "reason"),
    [
        ("a.doc", b"x", "of a kind that is not read"),
        ("a.docx", b"no archive", "no word processor's document"),
        ("a.docx", b"\xd0\xcf\x11\xe0" + b"\0" * 600, "of the old kind"),
        ("a.docx", b"PK\x05\x06" + b"\0" * 18, "no word processor's document"),
        ("a.txt", b"", "has no words"),
        ("a.txt", b"\0\1\2", "is not text"),
        ("a.txt", "word " * 200_000, "part it"),
    ],
)
def test_what_cannot_be_read_is_told_in_a_sentence(
    tmp_path: Path,
    name: str,
    content: bytes | str,
    reason: str,
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert _adopt(tmp_path / "content", _file(tmp_path, name, content)) == 2
    told = capsys.readouterr().err
    assert reason in told
    assert told.count("\n") == 1
    assert not (tmp_path / "content").exists()


def test_a_bomb_and_entities_are_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = tmp_path / "content"
    assert _adopt(content, _file(tmp_path, "bomb.docx", _bomb())) == 2
    assert "too large when it is unpacked" in capsys.readouterr().err
    assert _adopt(content, _file(tmp_path, "x.docx", _with_entities(tmp_path))) == 2
    assert "declares entities" in capsys.readouterr().err


def test_a_damaged_document_is_told_in_a_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    whole = write_document("leaves", tmp_path).read_bytes()
    for at in range(100, len(whole), 997):
        broken = whole[:at] + b"\xff" + whole[at + 1 :]
        assert _adopt(tmp_path / str(at), _file(tmp_path, "b.docx", broken)) in (0, 2)
    assert "Traceback" not in capsys.readouterr().err


def test_the_other_files_are_taken_where_one_is_refused(tmp_path: Path) -> None:
    content = tmp_path / "content"
    assert _adopt(content, tmp_path / "none.txt", _file(tmp_path, "p.txt", NOTES)) == 2
    assert _listed(content) == ["salt-from-a-pen"]


def test_old_windows_letters_are_read(tmp_path: Path) -> None:
    notes = NOTES + "It was 20 °C – “warm”.\n"
    path = _file(tmp_path, "n.txt", notes.encode("cp1252"))
    assert _adopt(tmp_path / "content", path) == 0
    draft = (tmp_path / "content" / "salt-from-a-pen.md").read_text("utf-8")
    assert "`20 °C` – “warm”" in draft


def _mended(draft: str) -> str:
    """What a teacher does with the findings of the cockle shells."""
    lists = "\n  - chalk\n  - "
    draft = draft.replace("  - cockle shells, 5 g", "  - calcium carbonate, 5 g")
    draft = draft.replace("crushed shell ", "calcium carbonate ")
    draft = draft.replace("faster?", "faster? [1]\n\n   > **Answer:** Warmer acid.")
    draft = draft.replace("bung?", "bung? [1]")
    draft = draft.replace(
        "## Method\n",
        "## Method\n\n> **Safety:** Wear eye protection: the acid harms the eyes.\n",
    )
    disposal = "## Disposal\n\nPour the solution down the sink with plenty of water.\n"
    assert lists not in draft
    return draft.replace("## For the teacher", f"{disposal}\n## For the teacher")


@pytest.mark.browser
def test_a_new_user_goes_from_old_notes_to_a_printed_sheet(tmp_path: Path) -> None:
    content = tmp_path / "content"
    assert _adopt(content, SOURCES / "shells.txt") == 0
    path = content / "cockle-shells-and-acid.md"
    path.write_text(_mended(path.read_text(encoding="utf-8")), encoding="utf-8")
    assert main(["check", str(content)]) == 0
    printed = tmp_path / "shells.pdf"
    words = ["print", path.stem, str(content), "--output", str(printed)]
    assert main(words) == 0
    assert printed.read_bytes().startswith(b"%PDF")


def test_what_a_speaker_puts_right_is_meant_and_what_was_said_is_kept(
    tmp_path: Path,
) -> None:
    talk = (
        "0:01 the first one is\n0:03 a potato you need a knife and\n"
        "0:06 a beaker cut it into um\n0:09 five no sorry six discs and weigh\n"
        "0:12 them put them in the beaker\n"
    )
    content = tmp_path / "content"
    assert _adopt(content, _file(tmp_path, "talk.txt", talk)) == 0
    draft = (content / f"{_listed(content)[0]}.md").read_text(encoding="utf-8")
    assert "1. Cut it into six discs.\n" in draft
    assert '# "cut it into um five no sorry six discs"' in draft
    assert "3. Put them in the beaker.\n" in draft


def test_a_strength_in_figures_needs_no_word_beside_it(tmp_path: Path) -> None:
    notes = "Fizz\n\nChemicals:\n- dilute hydrochloric acid, 1 mol/dm3 (20 cm3)\n- dilute ethanoic acid\n"
    content = tmp_path / "content"
    assert _adopt(content, _file(tmp_path, "n.txt", notes)) == 0
    draft = (content / "fizz.md").read_text(encoding="utf-8")
    assert "  - hydrochloric acid, 1 mol/dm3, 20 cm3\n" in draft
    assert "  - ethanoic acid, dilute\n" in draft
    assert "# line 4: Chemicals: dilute hydrochloric acid, 1 mol/dm3 (20 cm3)" in draft


def test_talk_that_names_no_needs_gets_its_title_and_all_its_steps(
    tmp_path: Path,
) -> None:
    talk = """[00:00:02] Okay so this is the fizzing one, cola and mints.
[00:00:08] Each group pours fifty cubic centimetres of cola into a beaker.
[00:00:15] Sugar in the first and salt in the second, then watch.
[00:00:21] They must have goggles on for this."""
    content = tmp_path / "content"
    assert _adopt(content, _file(tmp_path, "n.txt", talk)) == 0
    draft = (content / "fizzing-cola-and-mints.md").read_text(encoding="utf-8")
    steps = re.findall(r"^\d\. .*", draft, re.MULTILINE)
    assert steps == [
        "1. Pour `50 cm3` of cola into a beaker.",
        "2. Put sugar in the first and salt in the second.",
        "3. Watch.",
    ]
    assert "> **Safety:** They must have goggles on for this." in draft
    assert "Not placed yet" not in draft


def test_a_title_may_stand_below_the_number_of_its_practical(tmp_path: Path) -> None:
    notes = "Practical 4\nSalt from sea water\n\nMethod:\n1. Boil the water.\n"
    content = tmp_path / "content"
    assert _adopt(content, _file(tmp_path, "n.txt", notes)) == 0
    draft = (content / "salt-from-sea-water.md").read_text(encoding="utf-8")
    assert "title: Salt from sea water" in draft
    assert "# line 1: Practical 4: Salt from sea water" in draft
    assert "Not placed yet" not in draft


def test_numbered_answers_stand_under_their_questions_and_nowhere_else(
    tmp_path: Path,
) -> None:
    notes = (
        "Crystals\n\nMethod\n1. Stir the salt.\n\nWhat you see\nCrystals form.\n\n"
        "Q1 Why is it stirred? (1)\nQ2 What forms? (1)\n\n"
        "A1 To dissolve it.\nA2 Salt.\n"
    )
    content = tmp_path / "content"
    assert _adopt(content, _file(tmp_path, "notes.txt", notes)) == 0
    draft = (content / "crystals.md").read_text(encoding="utf-8")
    questions = draft[draft.index("## Questions") :]
    assert questions.index("stirred? [1]") < questions.index("**Answer:** To dissolve")
    assert questions.index("forms? [1]") < questions.index("**Answer:** Salt.")
    assert "dissolve it" not in draft[: draft.index("## Questions")]


def test_a_content_folder_that_is_begun_has_the_schemas_beside_it(
    tmp_path: Path,
) -> None:
    content, notes = tmp_path / "ours" / "content", _file(tmp_path, "pen.txt", NOTES)
    assert _adopt(content, notes) == 0
    assert main(["start", str(tmp_path / "started")]) == 0
    schemas, expected = (tmp_path / f / ".schemas" for f in ("ours", "started"))
    names = sorted(p.name for p in expected.iterdir())
    assert sorted(p.name for p in schemas.iterdir()) == names
    assert all((schemas / n).read_text() == (expected / n).read_text() for n in names)
    named = (content / "manual.yaml").read_text().partition("$schema=")[2].split()[0]
    assert (content / named).resolve() == (schemas / "manual.json").resolve()


def test_a_content_folder_that_was_there_gets_no_schemas(tmp_path: Path) -> None:
    content = tmp_path / "content"
    content.mkdir()
    _file(content, "manual.yaml", "title: Ours\nparts: []\n")
    assert _adopt(content, _file(tmp_path, "pen.txt", NOTES)) == 0
    assert not (tmp_path / ".schemas").exists()


def test_schemas_of_ones_own_are_kept(tmp_path: Path) -> None:
    (tmp_path / ".schemas").mkdir()
    mine = _file(tmp_path / ".schemas", "manual.json", "{}")
    assert _adopt(tmp_path / "content", _file(tmp_path, "pen.txt", NOTES)) == 0
    assert mine.read_text() == "{}"


def test_help_says_how_to_announce_a_practical(
    capsys: pytest.CaptureFixture[str],
) -> None:
    with pytest.raises(SystemExit):
        main(["adopt", "--help"])
    assert "announce each: 'Next practical." in " ".join(
        capsys.readouterr().out.split()
    )
