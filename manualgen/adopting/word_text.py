"""The words of a word processor's paragraph, and what its style says of it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from docx.oxml.xmlchemy import BaseOxmlElement

_HEADING = re.compile(r"heading (\d)", re.IGNORECASE)
_RAISED = str.maketrans("0123456789+-−–n", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻⁻⁻ⁿ")
_MINUS = str.maketrans("−–", "--")
_CHARGE = re.compile(r"(\d{0,2})([+\-−–])|([+\-−–])(\d{1,2})")
_FORMULA_BEFORE = re.compile(r"(?<![A-Za-z])\d{0,3}[A-Z(\[][A-Za-z0-9()\[\]]*$")
_UNIT_BEFORE = re.compile(r"(?:^|[\s\d/(])(?:[cdmnkµ]?m|mol|g|L|l|s|kg|K|J|kJ)$")
_SKIPPED = frozenset({"txbxContent", "del", "moveFrom", "Fallback", "instrText"})


def tag(element: BaseOxmlElement) -> str:
    """The name of an element without its namespace; nothing of a comment."""
    name = element.tag
    return str(name).rpartition("}")[2] if isinstance(name, str) else ""


def heading_level(style: str) -> int | None:
    """The rank that a style gives a heading, 0 for the title."""
    if found := _HEADING.match(style):
        return int(found[1])
    return {"title": 0, "subtitle": 9}.get(style.casefold())


def is_list_item(paragraph: BaseOxmlElement, style: str) -> bool:
    """Whether a paragraph has a bullet or a number."""
    numbered = any(tag(child) == "numPr" for part in paragraph for child in part)
    return style.casefold().startswith("list") or numbered


def is_bold(paragraph: BaseOxmlElement) -> bool:
    """Whether all words of a paragraph are bold."""
    runs = [r for r in paragraph.iter() if tag(r) == "r" and _run_text(r).strip()]
    return bool(runs) and all(_has(run, "b") for run in runs)


def lines_of(paragraph: BaseOxmlElement) -> Iterator[str]:
    """The lines of a paragraph, its own text boxes and what was struck out left away."""
    text = ""
    runs = ((_value(r, "vertAlign"), _run_text(r)) for r in _runs(paragraph))
    for height, group in groupby(runs, key=lambda run: run[0]):
        words = "".join(said for _, said in group)
        text += _raised(text, words) if height == "superscript" else words
    yield from text.split("\n")


def _runs(paragraph: BaseOxmlElement) -> Iterator[BaseOxmlElement]:
    """Runs in order, without walking into what is skipped; not recursive."""
    stack = [iter(paragraph)]
    while stack:
        child = next(stack[-1], None)
        if child is None:
            stack.pop()
        elif tag(child) in _SKIPPED:
            continue
        elif tag(child) == "r":
            yield child
        else:
            stack.append(iter(child))


def _run_text(run: BaseOxmlElement) -> str:
    found = ""
    for child in run:
        match tag(child):
            case "t":
                found += child.text or ""
            case "br" | "cr":
                found += "\n"
            case "tab":
                found += "\t"
            case "noBreakHyphen":
                found += "-"
            case _:
                pass
    return found


def _raised(before: str, words: str) -> str:
    """Raised figures: a unit's power on the line, as it is typed; a charge behind ^."""
    said = words.strip()
    if _UNIT_BEFORE.search(before.rstrip()) and re.fullmatch(r"[-−–]?\d", said):
        return words.translate(_MINUS)
    charge = _CHARGE.fullmatch(said)
    if charge and _FORMULA_BEFORE.search(before):
        size, sign = charge[1] or charge[4] or "", charge[2] or charge[3]
        return words.replace(said, f"^{size}{sign.translate(_MINUS)}")
    if re.fullmatch(r"[\d+\-−–n]+", said):
        return words.translate(_RAISED)
    return words


def _has(run: BaseOxmlElement, name: str) -> bool:
    for part in run:
        if tag(part) != "rPr":
            continue
        for child in part:
            if tag(child) == name:
                value = next(iter(child.attrib.values()), "true")
                return str(value) not in ("0", "false", "off")
    return False


def _value(run: BaseOxmlElement, name: str) -> str:
    for part in run:
        for child in part if tag(part) == "rPr" else ():
            if tag(child) == name:
                return str(next(iter(child.attrib.values()), ""))
    return ""
