"""Nothing that the tool can say calls anything safe.

Every word that may reach a person is gone through: the tables, the schemas, the
templates, the rules and messages in the program's own strings, and the
demonstration manual. Two of the standard's own P-statements say *if safe to do
so*; they are its words, and known by their codes.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Final

import pytest
import yaml

PACKAGE: Final = Path(str(files("manualgen")))
ROOT: Final = Path(__file__).parents[2]

CALLS_SAFE: Final = re.compile(
    r"\b(?:(?:un)?safe(?:ly|r|st)?|harmless(?:ly)?|non-?hazardous|risk-free|"
    r"(?:no|without|free of) (?:risk|danger|hazards?)(?! (?:data|class|category|statement|box))|not (?:dangerous|hazardous)|"
    r"sans (?:danger|risque)|inoffensi(?:f|ve)s?|non dangereu(?:x|se)s?|"
    r"s[ûu]re?s?(?= (?:pour|à l’emploi|à manipuler))|en toute sécurité)\b",
    re.IGNORECASE,
)
STANDARD_WORDS: Final = frozenset({"P370+P376", "P377"})
NAMES: Final = re.compile(
    r"Safe Work Australia|'unsafe-inline'|(?:keep|stay)(?:ing)? safe|safe working"
)
"""A body's name, a word of the content security policy, and headings of old
documents that are read and never said."""

MARKUP: Final = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}|<!--.*?-->", re.DOTALL)


def said_in_table(value: object) -> Iterator[str]:
    """Every text of a table, its keys too, but for the standard's own words."""
    if isinstance(value, dict):
        for key, cell in value.items():
            yield str(key)
            if key not in STANDARD_WORDS:
                yield from said_in_table(cell)
    elif isinstance(value, list):
        for cell in value:
            yield from said_in_table(cell)
    else:
        yield str(value)


def said_in_program(source: str) -> Iterator[str]:
    """Every string of a module; of the docstrings only a check's, which are printed."""
    tree = ast.parse(source)
    unprinted = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef) or (
            isinstance(node, ast.FunctionDef) and not _is_check(node)
        ):
            first = node.body[0] if node.body else None
            if isinstance(first, ast.Expr):
                unprinted.add(id(first.value))
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and id(node) not in unprinted:
            text = str(node.value) if isinstance(node.value, str) else ""
            yield from [text] * (" " in text)


def _is_check(node: ast.FunctionDef) -> bool:
    called = [d.func for d in node.decorator_list if isinstance(d, ast.Call)]
    return any(isinstance(f, ast.Name) and f.id.endswith("check") for f in called)


def offences(texts: Iterator[str]) -> list[str]:
    return [t for t in texts if CALLS_SAFE.search(NAMES.sub("", t))]


@pytest.mark.parametrize(
    "table", sorted(PACKAGE.glob("data/**/*.yaml")), ids=lambda p: p.stem
)
def test_no_table_calls_anything_safe(table: Path) -> None:
    rows = yaml.load(table.read_text("utf-8"), yaml.CBaseLoader)
    assert offences(said_in_table(rows)) == []


def test_no_message_of_the_program_calls_anything_safe() -> None:
    modules = sorted(PACKAGE.rglob("*.py"))
    assert len(modules) > 100
    found = {
        module.name: wrong
        for module in modules
        if (wrong := offences(said_in_program(module.read_text("utf-8"))))
    }
    assert found == {}


def test_no_template_or_schema_calls_anything_safe() -> None:
    sheets = [
        *sorted((ROOT / "templates").rglob("*.html")),
        *sorted(PACKAGE.glob("data/schemas/*.json")),
        *sorted(PACKAGE.glob("data/start/*.md")),
    ]
    assert sheets
    found = [
        sheet.name
        for sheet in sheets
        if offences(iter([MARKUP.sub("", sheet.read_text("utf-8"))]))
    ]
    assert found == []


def test_the_demonstration_manual_calls_nothing_safe() -> None:
    sheets = sorted((ROOT / "content").rglob("*.*"))
    found = [
        sheet.name
        for sheet in sheets
        if sheet.suffix in (".md", ".yaml")
        and offences(iter([sheet.read_text("utf-8")]))
    ]
    assert found == []


@pytest.mark.parametrize(
    "words",
    ["It is safe to touch.", "a harmless salt", "sans danger", "No hazards", "safely"],
)
def test_the_search_would_find_it(words: str) -> None:
    assert offences(iter([words])) == [words]


def test_words_about_safety_are_no_claim() -> None:
    said = ["safety data sheet", "Safety 3.1", "not classified at this strength"]
    assert offences(iter(said)) == []
