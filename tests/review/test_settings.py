"""Every setting that a manual can make is told, where it is made."""

from __future__ import annotations

from manualgen.reading.manual import read_manual
from manualgen.reading.settings import KEYS
from manualgen.review.setting_places import setting_places
from manualgen.review.settings import Set, setting_changes
from manualgen.sources.texts import Texts

EVERYTHING = """\
title: A manual
institution: A school
edition: 2026-27
language: fr-FR
paper: Letter
class:
  groups: 7
  spare: 30 %
conditions:
  temperature: 25 °C
  pressure: 100 kPa
uncertainty: sum
burette: 0.1 cm3
rounding: even
duplex: true
house_style:
  volume: mL
  units: solidus
  sulfur: ph
  decimal: comma
standing_controls:
  - Bags stay under the benches.
"""

TOLD_ELSEWHERE = {"parts", "accept"}


def read(text: str) -> Set:
    manual, lines = read_manual(Texts({"manual.yaml": text}))
    return manual.settings, setting_places(manual.file, lines)


def test_every_setting_is_told_with_its_line() -> None:
    lines = EVERYTHING.splitlines()
    keys = {line.partition(":")[0] for line in lines if not line.startswith(" ")}
    assert keys == set(KEYS) - TOLD_ELSEWHERE
    told = tuple(setting_changes(read(""), read(EVERYTHING)))
    holds_a_value = {
        number
        for number, line in enumerate(lines, start=1)
        if line.startswith("  - ") or line.partition(": ")[2]
    }
    assert {change.line for change in told} == holds_a_value
    assert len(told) == len(holds_a_value)


def test_what_is_taken_out_is_told_where_it_stood() -> None:
    told = setting_changes(read(EVERYTHING), read(""))
    lines = EVERYTHING.splitlines()
    for change in told:
        assert change.line is not None
        words = change.what.rpartition(", ")[2].split()[0]
        assert words in lines[change.line - 1] or change.kind == "standing control"
