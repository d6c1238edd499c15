"""Talk that was written down: lines that begin with a time.

Where stops were written, the lines are joined and parted at them. Where none
were, or small letters follow them as in what was typed in a hurry, a line is a
sentence of its own unless the line before was left open or it can only go on
with it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from manualgen.adopting.clauses import clauses
from manualgen.adopting.doing import imperative
from manualgen.adopting.needs import tells_details
from manualgen.adopting.piece import Kind, Piece, tidy
from manualgen.adopting.seeing import has_verb, is_verb_of_seeing
from manualgen.adopting.spoken import spoken_pattern
from manualgen.adopting.vocabulary import one_of, part_named, patterns

_CLOCK = r"\d{1,2}:\d{2}(?::\d{2})?(?:[.,]\d{1,3})?"
_TIME = re.compile(
    rf"\s*[\[(]?\s*({_CLOCK})(?:(?:\s*-->\s*|[–-]){_CLOCK})?\s*[\])]?(?=\s|$)\s*[-–:]?\s*(.*)"
)
_COUNTER = re.compile(r"\s*\d{1,5}\s*")
_AMOUNT = re.compile(r"(?:and\s+)?(?:then\s+)?\d")


@cache
def _listed() -> re.Pattern[str]:
    return re.compile(
        rf"(?:and\s+)?(?:then\s+)?(?:an?|some|\d+|{spoken_pattern()})\s", re.I
    )


_CUT_OFTEN = 5
"""Where more than one line in so many ends in mid-sentence, no line is a sentence."""
_WITH_LINES = 0.6
"""Share of clauses that begin with a line where lines are sentences."""
_FEWEST = 3
_STOP = re.compile(r"[.!?](?=\s|$)")
_SMALL, _CAPITAL = re.compile(r"[.!?]\s+[a-z]"), re.compile(r"[.!?]\s+[A-Z]")


def is_talk(text: str) -> bool:
    """Whether most lines begin with a time."""
    lines = [line for line in text.split("\n") if line.strip()]
    timed = sum(bool(_TIME.match(line)) for line in lines)
    return timed >= _FEWEST and timed * 3 >= len(lines)


def read_talk(text: str) -> tuple[Piece, ...]:
    """The sentences of talk, or all of it as one text where stops were written."""
    lines = list(_lines(text))
    if not lines:
        return ()
    if _names_parts(lines):
        return tuple(_parted(lines))
    if _is_hurried(lines):
        lines = [(time, part) for time, words in lines for part in _at_stops(words)]
        return tuple(_joined(group) for group in _groups(lines))
    stops = sum(len(_STOP.findall(words)) for _, words in lines)
    if stops * 3 >= len(lines):
        return (_joined(lines),)
    whole = _joined(lines, listed=False)
    parts = tuple(clauses(whole))
    opens = sum(_is_open(words) for _, words in lines[:-1])
    if opens * _CUT_OFTEN > len(lines) or _is_cut_anywhere(whole, parts):
        return parts
    return tuple(_joined(group) for group in _groups(lines))


def _names_parts(lines: list[tuple[str, str]]) -> bool:
    """Whether headings are read out, three or more of them."""
    found = (_label().match(words) for _, words in lines)
    return len({part_named(f["label"]) for f in found if f}) >= _FEWEST


@cache
def _label() -> re.Pattern[str]:
    """A heading that is read out, and what stands under it on the same line."""
    label = one_of("headings_read_out").pattern
    return re.compile(
        rf"(?:(?:um|er|uh|and|so)\s+)*(?P<label>{label})[\s:,]+(?=\w)", re.I
    )


def _parted(lines: list[tuple[str, str]]) -> Iterator[Piece]:
    """What was read out, with its headings."""
    rest: list[tuple[str, str]] = []
    for time, words in lines:
        found = _label().match(words)
        if found:
            yield from map(_joined, _groups(rest))
            label = found["label"]
            yield Piece(Kind.HEADING, label, ((0, time),), level=3, is_label=True)
            rest = [(time, words[found.end() :])]
        else:
            rest.append((time, words))
    yield from map(_joined, _groups(rest))


def _is_hurried(lines: list[tuple[str, str]]) -> bool:
    """Whether small letters follow the stops, and few lines end with one."""
    small = sum(len(_SMALL.findall(words)) for _, words in lines)
    capital = sum(len(_CAPITAL.findall(words)) for _, words in lines)
    ended = sum(words[-1] in ".!?" for _, words in lines)
    return small >= _FEWEST and small > capital and ended * 3 <= len(lines)


def _at_stops(words: str) -> list[str]:
    """A line parted at the stops within it."""
    return re.split(r"(?<=[.!?])\s+(?=\w)", words)


def _is_cut_anywhere(whole: Piece, parts: tuple[Piece, ...]) -> bool:
    """Whether most clauses begin within a line and not with one."""
    firsts = {at for at, _ in whole.marks}
    with_line, at = 0, 0
    for part in parts:
        at = whole.text.index(part.text, at)
        with_line += at in firsts
        at += len(part.text)
    return with_line < _WITH_LINES * len(parts)


def _lines(text: str) -> Iterator[tuple[str, str]]:
    """The words of each line with their time; a line without one goes on."""
    time = ""
    for line in text.split("\n"):
        found = _TIME.match(line)
        if found:
            time = found[1]
        words = tidy(found[2] if found else line)
        is_counter = not found and _COUNTER.fullmatch(line)
        if words and not is_counter:
            yield time or "0:00", words


def _groups(lines: list[tuple[str, str]]) -> Iterator[list[tuple[str, str]]]:
    group: list[tuple[str, str]] = []
    for time, words in lines:
        if group and not _goes_on(group[-1][1], words):
            yield group
            group = []
        group.append((time, words))
    if group:
        yield group


def _goes_on(before: str, words: str) -> bool:
    """Whether a line can only go on with the line before it."""
    is_anew = patterns("clauses", "anew").match(words)
    return not is_anew and (_is_open(before) or _begins_open(words))


def _is_open(before: str) -> bool:
    last = before.rsplit(" ", 1)[-1].casefold()
    return before.endswith(",") or bool(one_of("open_ends").fullmatch(last))


def _begins_open(words: str) -> bool:
    if patterns("needing").match(words):
        return False
    if is_verb_of_seeing(words.split()[0]) or tells_details(words):
        return True
    begins = one_of("open_starts").match(words) or _AMOUNT.match(words)
    is_step = words.startswith(("to ", "in ", "on ", "into ")) and imperative(words)
    return bool(begins) and not has_verb(words) and not is_step


def _joined(lines: list[tuple[str, str]], *, listed: bool = True) -> Piece:
    """Lines as one text; a line that goes on with a list is parted by a comma."""
    text, marks = "", []
    for time, words in lines:
        is_item = listed and text and _listed().match(words) and not _is_open(text)
        text += ", " if is_item and text[-1] not in ".!?;" else " " if text else ""
        marks.append((len(text), time))
        text += words
    return Piece(Kind.TEXT, text, tuple(marks))
