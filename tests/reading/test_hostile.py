"""What no author writes in good faith: every file gives findings, in bounded time."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from manualgen.reading import read_manual
from manualgen.sources import Folder

from .shelf import METHOD, Shelf, read, read_settings

HEAD = "---\ntitle: T\n---\n\n"
SIZE = 60_000
LONGEST = 3
"""Seconds, which leaves room for measuring coverage; without, none takes one."""


def test_an_alias_bomb_is_one_finding_at_its_first_anchor() -> None:
    levels = "\n".join(
        f"l{n}: &l{n} [{', '.join([f'*l{n - 1}'] * 9)}]" for n in range(1, 12)
    )
    page = read_settings(f"l0: &l0 [lol]\n{levels}")
    assert [(c, w) for c, w, _ in page.faults if "anchor" not in c] == [
        ("source-syntax", "3:5")
    ]


@pytest.mark.parametrize(
    ("content", "words", "at"),
    [
        (bytes(range(256)), "not UTF-8", "3:115"),
        (b"---\ntitle: \xb0C\n---\n", "not UTF-8", "2:8"),
        ("---\ntitle: T\n".encode("utf-16"), "UTF-16", "1:1"),
        (b"---\ntitle: a\0b\n---\n", "NUL", "1:1"),
        (b"\x89PNG\r\n\x1a\n" + bytes(64), "not UTF-8", "1:1"),
    ],
)
def test_binary_junk_is_one_finding(content: bytes, words: str, at: str) -> None:
    manual, _ = read_manual(
        Shelf({"manual.yaml": "title: T\nparts: []", "x.md": content})
    )
    (experiment,) = manual.experiments
    (noted,) = experiment.noted
    assert words in noted.fault.message
    place = noted.fault.place
    assert f"{place.line}:{place.column}" == at


def test_a_control_character_is_pointed_at_and_the_rest_is_read() -> None:
    page = read("---\ntitle: T\n---\n\n## Method\n\n1. Go\x1b[31m on.\x07\n")
    assert page.faults == [("source-syntax", page.at("\x1b"), None)]


def test_fifty_megabytes_are_one_finding(tmp_path: Path) -> None:
    (tmp_path / "manual.yaml").write_text("title: T\nparts: []\n", encoding="utf-8")
    with (tmp_path / "huge.md").open("wb") as file:
        file.truncate(50_000_000)
    manual, _ = read_manual(Folder(tmp_path))
    (experiment,) = manual.experiments
    (noted,) = experiment.noted
    assert (
        noted.fault.message
        == "this file has 50.0 MB, more than the 150 kB that are read"
    )


def test_a_link_to_what_lies_outside_is_one_finding(tmp_path: Path) -> None:
    content = tmp_path / "content"
    content.mkdir()
    (tmp_path / "secret.md").write_text("secret", encoding="utf-8")
    (content / "manual.yaml").write_text("title: T\nparts: []\n", encoding="utf-8")
    (content / "x.md").symlink_to(tmp_path / "secret.md")
    manual, lines = read_manual(Folder(content))
    (experiment,) = manual.experiments
    assert [n.check for n in experiment.noted] == ["source-syntax"]
    assert "secret" not in str(lines)


@pytest.mark.parametrize(
    "path", ["../../secret.csv", "/etc/passwd", "..\\..\\secret.csv", "x\\..\\y.csv"]
)
def test_data_come_from_inside_the_content_folder_alone(path: str) -> None:
    text = f"```readings\ncolumns:\n  - {{symbol: a, sample: '{path}#a'}}\n```"
    page = read(f"{HEAD}{text}\n\n{METHOD}", {"secret.csv": "a\n1\n"})
    assert [c for c, _, _ in page.faults] == ["source-syntax"]


@pytest.mark.parametrize("file", ["manual.yaml", "chemicals.yaml", "apparatus.yaml"])
@pytest.mark.parametrize(
    "content",
    [
        "[" * SIZE,
        "{a: " * SIZE,
        "- " * SIZE,
        "? " * SIZE,
        "&a [*a, *a]",
        "!!python/object/apply:os.system [id]",
        "a: " + "9" * SIZE,
        "a: b: c",
        "\t",
        "%YAML 9.9\n---\na: b",
        "--- a\n--- b",
        "'",
        "\x85\u2028\ufeff",
    ],
)
def test_bad_yaml_in_the_departments_files_is_findings(file: str, content: str) -> None:
    files = {"manual.yaml": "title: T\nparts: []\n", "x.md": HEAD + METHOD}
    manual, _ = read_manual(Shelf({**files, file: content}))
    assert manual.noted
    assert [e.id for e in manual.experiments] == ["x"]


def repeated(piece: str) -> str:
    return piece * (SIZE // len(piece))


PARAGRAPH = 19_000
BODIES = [
    repeated("["),
    ("[" * 100 + "_]" * 100 + "\n\n") * 40,
    ("[_ " * 100 + "_]\n\n") * 40,
    repeated("![a](\n\n"),
    "".join("`" * n + " " for n in range(1, 190)),
    "`" + " " * PARAGRAPH + "`",
    "`" + "H2 + " * (PARAGRAPH // 5) + "`",
    "*a " * (PARAGRAPH // 3),
    "**a *b _c " * (PARAGRAPH // 10),
    repeated("> "),
    repeated("> a\n"),
    repeated("- "),
    repeated("- a\n"),
    "".join(" " * n + "- a\n" for n in range(340)),
    repeated("1. a\n"),
    repeated("<a "),
    repeated("<!--\n\n"),
    repeated("&#1;"),
    "| a |\n| - |\n" + repeated("| b |\n"),
    "|" * (SIZE // 3) + "\n" + "|-" * (SIZE // 3) + "\n",
    repeated("[a]: b\n"),
    repeated("```equation\n"),
    "```equation\n" + repeated("H2 + O2 -> H2O\n") + "```",
    "```calculation\n" + repeated("a = b * c -> g\n") + "```",
    "```calculation\na = " + "(" * SIZE + "\n```",
    "```setup\nbeaker\n" + repeated("on beaker\n") + "```",
    "```setup\nbeaker " + "on in joined by " * 60 + "\n```",
    "```readings\ncolumns: [{symbol: a, sample: [" + repeated("1, ") + "1]}]\n```",
    "```graph\nx: " + repeated("a / ") + "\n```",
    repeated("## a\n\n"),
    repeated("\t- a\n"),
    repeated("    a\n"),
    repeated("> **Note:** a\n\n"),
    repeated("`Xx1`\n\n"),
]


@pytest.mark.parametrize("body", BODIES, ids=range(len(BODIES)))
def test_no_text_holds_the_reader_up(body: str) -> None:
    start = time.process_time()
    read(f"{HEAD}{body}\n\n{METHOD}")
    assert time.process_time() - start < LONGEST


SETTINGS = [
    "".join(f"k{n}: 1\n" for n in range(4000)),
    "chemicals:\n" + "  - salt, 5 gq, exces\n" * 2000,
    "chemicals: ['" + "a, " * 20000 + "']",
    "techniques: {a: b" + ", a" * 20000 + "}",
    "chemicals: [{shown: x, sets: {" + "groups 1-999: a, " * 2000 + "}}]",
    "apparatus:\n" + "  - 25 cm3 pipette\n" * 2000,
    "group: " + "9" * SIZE,
    "time: " + "1 " * (SIZE // 2),
]


@pytest.mark.parametrize("settings", SETTINGS, ids=range(len(SETTINGS)))
def test_no_settings_hold_the_reader_up(settings: str) -> None:
    start = time.process_time()
    page = read_settings(settings)
    assert page.faults
    assert time.process_time() - start < LONGEST


def test_a_file_of_too_many_lines_is_read_as_far_as_that() -> None:
    page = read(f"{HEAD}{METHOD}\n" + "line\n\n" * 5000)
    assert [(c, w) for c, w, _ in page.faults] == [("source-syntax", "5000:1")]
    assert page.experiment.sections
