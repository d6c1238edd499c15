"""Names that stand beside formulas: ``magnesium hydroxide (`Mg(OH)2`)``.

Only what plainly says "this is that" is taken for such a pair: a name and its
formula next to each other, in brackets, between commas or after a colon; a
formula and its name in brackets; ``the formula of NAME is``; the columns of a
table. A list (*sodium chloride, `KBr` and `KI`*) and a sentence that only
happens to bring the two together are none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from manualgen.chemistry import (
    Formula,
    formulas_of,
    is_name,
    same_substance,
    without_form,
)
from manualgen.model.blocks import PipeTable, TableCell
from manualgen.model.experiment import Experiment
from manualgen.model.place import Place
from manualgen.model.text import (
    Blank,
    Emphasis,
    FormulaSpan,
    Inline,
    Inlines,
    LineBreak,
    OutsideLink,
    Reference,
    Words,
)
from manualgen.model.walk import all_blocks, blocks_of, plain, texts

MOST_WORDS: Final = 7
"""Words of a name in running text."""

_JOINT = re.compile(
    r"(?P<joint>\s*\(|\s*:|,|\s+[–—-]|"
    r",?\s+(?:which\s+|that\s+)?(?:has|having|with)\s+(?:the\s+)?formula(?:\s+is)?:?|"
    r",?\s+formula:?|)\s*$"
)
_OF_FORMULA = re.compile(
    r"\bformula\s+(?:of|for)\s+(?P<name>[^.;:]+?)\s+is:?\s*$", re.I
)
_SENTENCE_ENDS = re.compile(r"[.;!?]\s")
_LONGEST_NAME: Final = 60
_REACH: Final = 400  # characters beside a formula that are looked at
_SENTENCE_BEGINS = re.compile(r"[.;:!?]\s")
_ARTICLE = re.compile(r"(?:the|pure|solid) ", re.IGNORECASE)
_MADE_FROM = re.compile(
    r"\b(?:comes?|came|starting|start|(?:is|are|was|were|be|been)\s+(?:then\s+)?"
    r"(?:made|prepared|obtained|produced|formed))\s+from\s+(?:the\s+)?$",
    re.I,
)
"""*Is made from*: the brackets behind tell of the last name, which stands alone."""

_IN_BRACKETS = re.compile(r"\s*\((?P<name>[^()]+(?:\([ivIV]+\)[^()]*)?)\)")
_APPOSITION_ENDS = re.compile(r"\s*(?:[,.;:)!?]|$)")
_BRACKET_ENDS = re.compile(r"\s*[),;]")
_BEGINS_WITH_CLAUSE = re.compile(
    r"(?:^|[.;:?!]\s)\s*(?:with|in|after|before|when|on|by|for|from|during|if|while|as|"
    r"to|under|between|once|at|where|without)\b[^.;:?!]*$",
    re.IGNORECASE,
)
"""``With nitric acid, …``: the comma ends a clause."""

_ENTRY_SIGNS = frozenset({":", "–", "—", "-"})
_WORD = re.compile(r"\S+")
_PART_OF = frozenset(
    ("of", "in", "from", "with", "by", "containing", "contains", "contain", "and", "or")
)
"""Words after which an element's name says what a substance is made of."""

_OF_ANOTHER = re.compile(
    r"\b(?:from|for|than|between|(?:base|acid|ions?|anions?|cations?|salts?|[a-z]+ides?|"
    r"sulf(?:ate|ite)s?|sulph(?:ate|ite)s?|nitr(?:ate|ite)s?|carbonates?|compounds?|"
    r"products?|sources?|isomers?|polymers?|dimers?|hydrates?|complex(?:es)?|ores?|parts?)"
    r"\s+of)\s+(?:the\s+)?$",
    re.IGNORECASE,
)
"""Words after which a name tells where the substance comes from, not which it is."""

_FUNCTION = frozenset(
    (
        *("the", "a", "an", "some", "this", "that", "these", "those", "of", "in"),
        *("from", "with", "by", "to", "and", "or", "as", "is", "are", "was", "were"),
        *("be", "for", "into", "it", "its", "called", "named", "your", "their", "no"),
    )
)
"""Words that begin no name."""

_FORMULA_HEADING = re.compile(r"^(?:chemical |its )?formula(?:e|s)?$", re.I)
_NAME_HEADING = re.compile(
    r"\b(?:names?|substances?|chemicals?|compounds?|salts?|elements?|acids?|bases?|"
    r"gas(?:es)?|solids?|solutions?|reagents?|reactants?|products?|ions?|solutes?)\b",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Pair:
    """A name and the formula that it is set beside."""

    name: str
    formula: Formula
    place: Place
    """The formula's."""
    is_of: bool = False
    """``the chloride of sodium``: the name says what it is made of."""


def pairs_in(experiment: Experiment) -> Iterator[Pair]:
    """The names and formulas set beside each other, in source order."""
    for block in all_blocks(experiment):
        for content in texts(block):
            yield from _in_text(tuple(_flat(content)))
    for table in blocks_of(experiment, PipeTable):
        yield from _in_table(table)


def _flat(content: Inlines) -> Iterator[Inline]:
    """The words and spans in one row, whatever stresses them."""
    for inline in content:
        if isinstance(inline, Emphasis | Blank | Reference | OutsideLink):
            yield from _flat(inline.content)
        else:
            yield inline


def _in_text(row: tuple[Inline, ...]) -> Iterator[Pair]:
    for at, span in enumerate(row):
        if not isinstance(span, FormulaSpan):
            continue
        before = _words(reversed(row[:at]))[-_REACH:]
        after = _words(row[at + 1 :])[:_REACH]
        following = [i for i in row[at + 1 : at + 3] if isinstance(i, FormulaSpan)]
        is_last = not following or _ends_entry(after, following[0].formula)
        found = _before(before, after, is_last=is_last) or _behind(after)
        if found:
            name, is_of = found
            yield Pair(name, span.formula, span.place, is_of)


def _ends_entry(between: str, following: Formula) -> bool:
    """Whether words between two formulas end a sentence or name the second: no list then."""
    if _SENTENCE_ENDS.search(between):
        return True
    text = between.rstrip(" ,(")
    found = _last_name(text) if text != between.rstrip() else None
    return found is not None and same_substance(found[0], following) is True


def _words(row: Iterator[Inline] | tuple[Inline, ...]) -> str:
    """The words next to a span, up to whatever is no plain word."""
    parts: list[str] = []
    backwards = not isinstance(row, tuple)
    for inline in row:
        if isinstance(inline, Words):
            parts.append(inline.text)
        elif isinstance(inline, LineBreak):
            parts.append(" ")
        else:
            break
    return "".join(reversed(parts) if backwards else parts)


def _before(before: str, after: str, *, is_last: bool) -> tuple[str, bool] | None:
    """The name that a text before a formula ends in, if it is set beside it."""
    if stated := _OF_FORMULA.search(before):
        return (stated["name"], False) if is_name(stated["name"]) else None
    if found := _said_to_be(before, after):
        return found
    joint = next(_JOINT.finditer(before))  # at the least the end itself
    sign, text = joint["joint"].strip(), before[: joint.start()]
    ends = {"(": _BRACKET_ENDS, ",": _APPOSITION_ENDS}.get(sign)
    if ends and not ends.match(after):
        return None
    if sign and not is_last and not after.lstrip().startswith(")"):
        return None
    if sign == "," and _BEGINS_WITH_CLAUSE.search(text):
        return None
    found = _last_name(text, in_brackets=sign in ("(", ","))
    if sign in _ENTRY_SIGNS and not (found and _is_entry(text, found[0], after)):
        return None
    return found


def _said_to_be(before: str, after: str) -> tuple[str, bool] | None:
    """The name of a compound of which a sentence says no more than its formula."""
    tail = before[-_LONGEST_NAME:].rstrip()
    if not tail.endswith((" is", " =")) or not _APPOSITION_ENDS.match(after):
        return None
    pieces = _SENTENCE_BEGINS.split(tail[:-2])
    name = _ARTICLE.sub("", pieces[-1].strip(), count=1)
    is_whole = len(pieces) > 1 or len(before) <= _LONGEST_NAME
    if not is_whole or not is_name(name):
        return None
    meant = formulas_of(without_form(name)[0])
    if not meant or any(len(formula.atoms) < 2 or formula.charge for formula in meant):
        return None
    return name, False


def _is_entry(text: str, name: str, after: str) -> bool:
    """Whether name and formula make up the whole entry of a list.

    In ``sodium hydroxide: `Cu(OH)2`, blue`` and ``ammonium: `NH3` `` the name
    is what is tested with or for.
    """
    meant = formulas_of(without_form(name)[0])
    return (
        text.strip() == name
        and not after.strip(" .,;")
        and not any(formula.charge for formula in meant)
    )


def _behind(after: str) -> tuple[str, bool] | None:
    """The name in brackets behind a formula."""
    found = _IN_BRACKETS.match(after)
    return (found["name"], False) if found and is_name(found["name"]) else None


def _last_name(text: str, *, in_brackets: bool = False) -> tuple[str, bool] | None:
    """The longest name that a text ends in, and whether it stands after ``of``.

    None where it tells where another comes from, unless brackets or commas set the
    formula off behind *is made from*, and where the word before it may belong to it: a sulfate that is the end of
    ``lauryl sulfate`` is not the ion.
    """
    words = list(_WORD.finditer(text))
    for at in range(max(0, len(words) - MOST_WORDS), len(words)):
        start = words[at].start()
        name = text[start:].strip()
        if name[:1] in "([" or not is_name(name) or _begins_with_form(name):
            continue
        word = words[at - 1][0].casefold() if at else ""
        before = text[:start]
        of_another = _OF_ANOTHER.search(before)
        if of_another and not (in_brackets and _MADE_FROM.search(before)):
            return None
        if _may_belong(word, name):
            return None
        return name, word in _PART_OF
    return None


def _begins_with_form(name: str) -> bool:
    """Whether the name proper begins further on: *the*, *solid*, *some*."""
    rest = name.partition(" ")[2]
    return bool(rest) and is_name(rest) and without_form(name) == without_form(rest)


def _may_belong(word: str, name: str) -> bool:
    """Whether the word before a name may be a part of a longer name."""
    if not word or word in _FUNCTION or not word[-1].isalnum():
        return False
    if formulas_of(word) or formulas_of(f"{word} ion"):
        return True
    return all(f.charge < 0 for f in formulas_of(without_form(name)[0]))


def _in_table(table: PipeTable) -> Iterator[Pair]:
    headings = [plain(cell.content).strip() for cell in table.header]
    columns = [i for i, text in enumerate(headings) if _FORMULA_HEADING.match(text)]
    if len(columns) != 1:
        return
    column = columns[0]
    named = [i for i in range(column) if _NAME_HEADING.search(headings[i])]
    named = named or [
        i for i in range(column + 1, len(headings)) if _NAME_HEADING.search(headings[i])
    ]
    for row in table.rows if named else ():
        if len(row) > max(named[-1], column) and (span := _only_formula(row[column])):
            name = plain(row[named[-1]].content).strip()
            if is_name(name) and not _has_formula(row[named[-1]]):
                yield Pair(name, span.formula, span.place)


def _only_formula(cell: TableCell) -> FormulaSpan | None:
    flat = [
        inline
        for inline in _flat(cell.content)
        if not (isinstance(inline, Words) and not inline.text.strip())
    ]
    match flat:
        case [FormulaSpan() as span]:
            return span
        case _:
            return None


def _has_formula(cell: TableCell) -> bool:
    return any(isinstance(inline, FormulaSpan) for inline in _flat(cell.content))
