"""Slips that YAML takes for a value: an item without its dash, a mark that opens nothing."""

from __future__ import annotations

import re

from manualgen.reading.yaml_lines import Line, Slip, bullet, dash, quoted

_ENDS_IN_QUANTITY = re.compile(r"\d[\d.]*\s*[^\s,\d]\S*$")
_QUANTITY_ENDS = 24
"""Characters in which a quantity at the end of a line is looked for."""
_COMMENT = re.compile(r" #\d.*")
"""``Vinegar #2``; a comment has a blank behind its sign, or a word."""
_STRAY = re.compile(r"[^\"]*[^\"\d\s]\"")


def slip_in_value(
    text: str, start: int, end: int, *, in_list: bool, in_brackets: bool
) -> Slip | None:
    """A slip that YAML takes for a value without quotes: a line's end or a dash."""
    if in_brackets:
        return None
    source = text[start:end]
    begin = text.rfind("\n", 0, start) + 1
    first = Line(begin, text[begin:end].partition("\n")[0].rstrip())
    heads_line = not text[begin:start].strip()
    if heads_line and (slip := bullet(first) or dash(first)):
        return slip
    line, break_, rest = source.partition("\n")
    if not break_:
        return None
    second = Line(start + len(line) + 1, rest.partition("\n")[0].rstrip())
    words = second.text.strip()
    if words.startswith("- "):
        message = "this item does not begin as far in as the one above it"
        mend = " " * max(first.text.find("- "), 0) + words
        return second.slip(second.indent, words, message, mend)
    is_apart = _ENDS_IN_QUANTITY.search(line[-_QUANTITY_ENDS:]) and words[:1].isalpha()
    if in_list and is_apart:
        message = "this line goes on with the item above it"
        return second.slip(second.indent, words, message, f"- {words}")
    return None


def stray_in_value(text: str, start: int, end: int) -> Slip | None:
    """A quotation mark that closes what none opens, or words behind ``#``."""
    value = text[start:end]
    if _STRAY.fullmatch(value):
        message = "this quotation mark closes what none opens"
        return Slip(end - 1, end, message, quoted(value[:-1]))
    if found := _COMMENT.match(text, end):
        message = "what stands behind # is a comment, which no edition shows"
        return Slip(
            end + 1, found.end(), message, quoted(f"{value}{found[0].rstrip()}")
        )
    return None
