"""`manualgen prepare`: a day's work for the technician, set out by action."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

import pytest

from manualgen.cli import main
from tests.commands.preparing import Report, Run, rows_of


def test_the_sheet_goes_by_action_and_in_the_order_of_the_work(
    report: Report,
) -> None:
    actions = [a["action"] for a in report("salts:12")["actions"]]
    assert actions == ["handle", "weigh", "dilute", "fill", "set_out", "put_back"]


def test_what_comes_back_has_a_route_and_the_manuals_own_words_come_first(
    report: Report,
) -> None:
    rows = rows_of(report("salts:12"), "put_back")
    assert rows[0]["what"] == "Salts: the manual says"
    silver = next(r for r in rows if "silver nitrate" in r["what"])
    assert "silver residues" in silver["how"][0]


def test_what_the_author_tells_the_technician_is_on_the_sheet(
    folder: Path, capsys: Run
) -> None:
    assert main(["prepare", "salts", "--content", str(folder)]) == 0
    told = capsys.readouterr().out
    assert "Brown bottles for the AgNO₃; 5 cm³ in each." in told


def test_the_text_has_a_box_to_tick_for_each_thing_to_do(
    folder: Path, report: Report, capsys: Run
) -> None:
    found = report("salts:12")
    main(["prepare", "salts:12", "--content", str(folder)])
    boxes = capsys.readouterr().out.count("[ ]")
    rows = sum(len(a["rows"]) for a in found["actions"])
    assert boxes == rows + len(found["ask"])


def test_the_csv_has_a_row_for_each_thing_to_do(
    folder: Path, report: Report, tmp_path: Path
) -> None:
    found = report("salts:12")
    out = tmp_path / "salts.csv"
    words = ["prepare", "salts:12", "--content", str(folder), "--format", "csv"]
    assert main([*words, "--output", str(out)]) == 0
    rows = list(csv.reader(io.StringIO(out.read_text(encoding="utf-8"))))
    assert rows[0] == ["Action", "Code", "What", "Amount", "How"]
    assert {len(row) for row in rows} == {5}
    wanted = sum(len(a["rows"]) for a in found["actions"]) + len(found["ask"])
    assert len(rows) == wanted + 2


def test_only_the_named_experiments_own_faults_count(folder: Path, capsys: Run) -> None:
    assert main(["prepare", "salts", "--content", str(folder)]) == 0
    assert "broken.md" not in capsys.readouterr().err
    assert main(["prepare", "salts", "broken", "--content", str(folder)]) == 1
    assert "broken.md" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["salt"], "did you mean salts?"),
        (["salts:0"], "1 to 1000"),
        (["salts:many"], "1 to 1000"),
        (["salts:"], "1 to 1000"),
        (["salts", "--part", "Lesson 1"], "its Method has no parts"),
        (["lessons", "--part", "Lesson 9"], "it has Lesson 1, Lesson 2"),
        (["salts", "--spare", "much"], "write it as 10%"),
        (["salts", "--spare", "150%"], "0% to 100%"),
        (["salts", "--groups", "0"], "1 to 1000"),
    ],
)
def test_wrong_words_are_2_and_say_what_to_write(
    folder: Path, words: list[str], told: str, capsys: Run
) -> None:
    try:
        status = main(["prepare", *words, "--content", str(folder)])
    except SystemExit as end:
        status = int(end.code or 0)
    assert status == 2
    assert told in capsys.readouterr().err


def test_a_file_that_cannot_be_written_is_3(folder: Path, capsys: Run) -> None:
    out = folder / "no-such-folder" / "day.csv"
    words = ["prepare", "salts", "--content", str(folder), "--format", "csv"]
    assert main([*words, "--output", str(out)]) == 3
    assert "cannot write" in capsys.readouterr().err


@pytest.mark.parametrize("form", ["text", "json", "csv"])
def test_nothing_is_called_safe_and_everything_defers(
    folder: Path, form: str, capsys: Run
) -> None:
    words = ["prepare", "salts", "lessons", "stations", "--content", str(folder)]
    assert main([*words, "--format", form]) == 0
    told = " ".join(capsys.readouterr().out.split()).casefold()
    assert not re.search(r"\b(?:un)?safe(?:ly)?\b|\bharmless\b", told)
    for whose in (
        "employer’s risk assessment",
        "local rules",
        "current safety data sheet",
    ):
        assert whose in told
