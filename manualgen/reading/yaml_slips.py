"""Slips in YAML, told as an author made them: which line, what is wrong, what to write.

A parser gives up where it can go no further, which is often lines behind the
quotation mark or the blank that is missing, and it speaks of scalars and tokens.
Here the lines up to that point are looked through for what people do write.
"""

from __future__ import annotations

import re
from typing import Final

import yaml

from manualgen.reading.yaml_lines import KEY, Line, Slip, bullet, quoted

_NO_COLON = re.compile(
    r"\s*(?P<key>[A-Za-z_]\w*)(?:\s*[=;]\s*|\s+:(?=\S)|:(?=\S))(?P<value>\S.*)"
)
_PAIRS = re.compile(r"(?:^|,|- )\s*[A-Za-z_]+:\s")
"""Keys as they stand in braces, between commas."""
_SIGNS: Final = "@`%|>&*!?"
_CLOSING: Final = {"[": "]", "{": "}"}
_OPENS: Final = "a quotation mark opens here and is not closed on its line"
_LINES_OF_QUOTES: Final = 60
"""Lines above an error in which the quotation mark behind it is looked for."""
_OTHERWISE: Final = {
    "found unexpected end of stream": "a quotation mark or bracket is not closed",
    "did not find expected key": "a key is expected here, as far in as the keys "
    "above, or a quotation mark ends too soon",
    "did not find expected '-' indicator": "a list item is expected here, with its "
    "- as far in as those above",
    "did not find expected ',' or": "a bracket is not closed, or a comma is missing",
    "expected a single document": "--- stands inside the settings",
}
"""What is said where none of the slips shows."""


def slip_of(text: str, error: yaml.YAMLError) -> Slip:
    """The slip behind an error of YAML's parser."""
    problem = str(getattr(error, "problem", None) or error)
    at = _index(error, "problem_mark", getattr(error, "position", 0) or 0)
    context = _index(error, "context_mark", at)
    if problem.startswith("could not find expected ':'"):
        at = context
    slip = None
    if problem.startswith(("did not find expected ',' or", "found unexpected end")):
        slip = _not_closed(text, context) or _bracket(text, context, at)
    if slip := slip or _in_lines(_lines(text, at), problem):
        return slip
    said = (ours for theirs, ours in _OTHERWISE.items() if problem.startswith(theirs))
    return Slip(at, at, next(said, f"this cannot be read as YAML: {problem}"))


def _in_lines(lines: list[Line], problem: str) -> Slip | None:
    """The slip that the last of some lines, or one before it, shows."""
    last = lines[-1]
    before = next((each for each in reversed(lines[:-1]) if each.text.strip()), None)
    return (
        _tab(last)
        or _quotation_mark(lines)
        or bullet(last)
        or _sign(last)
        or _colon(last, before, problem)
        or _indent(last, lines, problem)
    )


def _index(error: yaml.YAMLError, name: str, otherwise: int) -> int:
    mark = getattr(error, name, None)
    return mark.index if mark else otherwise


def _lines(text: str, at: int) -> list[Line]:
    """The lines up to the one in which an offset stands, that one whole."""
    end = text.find("\n", at)
    lines, start = [], 0
    for line in text[: end if end >= 0 else len(text)].split("\n"):
        lines.append(Line(start, line.rstrip()))
        start += len(line) + 1
    return lines


def _tab(line: Line) -> Slip | None:
    blank = line.text[: len(line.text) - len(line.text.lstrip())]
    if "\t" not in blank:
        return None
    at = blank.index("\t")
    return line.slip(at, "\t", "a tab stands where blanks belong", "two blanks")


def _quotation_mark(lines: list[Line]) -> Slip | None:
    """A quotation mark that is not closed, or closed before the value ends."""
    lines = lines[-_LINES_OF_QUOTES:]
    for n, line in enumerate(lines):
        found = line.value()
        if found is None or found[1][0] not in "\"'":
            continue
        at, value = found
        quote, inner = value[0], value[1:]
        close = inner.find(quote)
        if close < 0:
            if n < len(lines) - 1 and _closes_before(lines[n + 1 :], quote):
                continue
            return line.slip(at, value, _OPENS, quoted(inner))
        behind = inner[close + 1 :].strip()
        if n == len(lines) - 1 and behind and behind[0] not in ",]}:#":
            message = "the value ends at its second quotation mark, and words follow"
            return line.slip(at, value, message, quoted(inner.removesuffix(quote)))
    return None


def _not_closed(text: str, opened: int) -> Slip | None:
    """A quotation mark after which the parser went on to the end of the text."""
    if text[opened : opened + 1] not in ("'", '"'):
        return None
    value = text[opened:].partition("\n")[0].rstrip()
    return Slip(opened, opened + len(value), _OPENS, quoted(value[1:]))


def _closes_before(lines: list[Line], quote: str) -> bool:
    """Whether a value in quotes ends on one of some lines but the last."""
    return any(line.text.rstrip().endswith(quote) for line in lines[:-1])


def _sign(line: Line) -> Slip | None:
    """A value that begins with a sign that means something to YAML."""
    found = line.value()
    if found is None or found[1][0] not in _SIGNS:
        return None
    at, value = found
    if value.startswith("```"):
        message = "a block begins here, and the one above it is not closed"
        return line.slip(at, value, message, "a line ``` before it")
    message = f"a value cannot begin with {value[0]}; put it in quotes"
    return line.slip(at, value, message, quoted(value))


def _colon(last: Line, before: Line | None, problem: str) -> Slip | None:
    """A colon too many, or none behind a key."""
    if problem.startswith("could not find expected ':'"):
        return _without_colon(last, before)
    if problem.startswith("block sequence entries are not allowed"):
        item = (
            last.text[last.text.index("- ") :].strip() if "- " in last.text else "- …"
        )
        message = "a list begins on the line below its key"
        at = max(last.text.find("- "), 0)
        return last.slip(at, item, message, f"{item} on a line of its own")
    if not problem.startswith("mapping values are not allowed"):
        return None
    found = last.value()
    own_key = KEY.match(last.text)
    if own_key and found and not re.search(r":\s", found[1]) and before:
        if not KEY.match(before.text) and (slip := _without_colon(before, None)):
            return slip
        if last.indent > before.indent:
            words = last.text.strip()
            message = "this line begins further in than the one above it"
            mend = " " * before.indent + words
            return last.slip(last.indent, words, message, mend)
    if found is None:
        return None
    if last.text.lstrip().startswith("- ") and len(_PAIRS.findall(last.text)) > 1:
        words = last.text.strip()[2:]
        message = "several keys on one line stand in braces"
        return last.slip(last.text.index("- ") + 2, words, message, f"{{{words}}}")
    message = "a colon and a blank stand inside a value; put the whole value in quotes"
    return last.slip(*found, message, quoted(found[1].strip("“”")))


def _without_colon(line: Line, before: Line | None) -> Slip | None:
    words = line.text.strip()
    if found := _NO_COLON.fullmatch(line.text):
        message = "a colon and a blank belong behind a key"
        mend = f"{found['key']}: {found['value']}"
        return line.slip(line.indent, words, message, mend)
    if before and KEY.match(before.text) and before.indent == line.indent:
        message = "no colon and blank stand behind a key here"
        key, _, value = words.partition(" ")
        joined = f"{before.text.strip()} {words}"
        mend = f"{key}: {value or '…'}, or in one line {joined}"
        return line.slip(line.indent, words, message, mend)
    message = "a colon and a blank belong behind a key"
    return line.slip(line.indent, words, message, None) if words else None


def _indent(last: Line, lines: list[Line], problem: str) -> Slip | None:
    """An item or a key that begins elsewhere than its like above."""
    expected = "did not find expected key", "did not find expected '-' indicator"
    words = last.text.strip()
    if not problem.startswith(expected) or not words:
        return None
    is_item = words.startswith("- ")
    like = [
        each
        for each in lines[:-1]
        if (each.text.lstrip().startswith("- ") if is_item else KEY.match(each.text))
    ]
    if not like or (not is_item and not KEY.match(last.text)):
        if "indicator" in problem and _is_below_item(lines):
            message = "an item of a list begins with - and a blank"
            return last.slip(last.indent, words, message, f"- {words}")
        return None
    what = "item" if is_item else "key"
    message = f"this {what} does not begin as far in as the one above it"
    return last.slip(last.indent, words, message, " " * like[-1].indent + words)


def _is_below_item(lines: list[Line]) -> bool:
    """Whether the line above the last is an item of a list."""
    return len(lines) > 1 and lines[-2].text.lstrip().startswith("- ")


def _bracket(text: str, opened: int, at: int) -> Slip | None:
    """A bracket that is not closed, or two values in it that no comma parts."""
    sign = text[opened : opened + 1]
    if sign not in _CLOSING:
        return None
    line = text[opened:].partition("\n")[0].rstrip()
    if line.count(sign) > line.count(_CLOSING[sign]) and at >= opened + len(line):
        message = f"this bracket {sign} is not closed"
        return Slip(opened, opened + len(line), message, f"{line}{_CLOSING[sign]}")
    if text[at : at + 1] in _CLOSING.values() and text[at] != _CLOSING[sign]:
        message = f"this {text[at]} closes a bracket {sign}"
        return Slip(at, at + 1, message, _CLOSING[sign])
    if text[at : at + 1] == ":":
        begin = max(text.rfind(" ", opened, at), opened) + 1
        key = text[begin:at]
        message = f"a comma is missing before {key}"
        return Slip(begin, at, message, f", {key}: …")
    return None
