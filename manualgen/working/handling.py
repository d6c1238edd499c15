"""What the steps do with chemicals: how much, how strong, out of what, into what.

    Pipette `25.0 cm3` of the `0.100 mol/dm3` acid into each of three flasks

A `Handling` is one such amount. Only what a sentence plainly says is read: an
amount belongs to the chemical that follows it (or that it follows in brackets
or after a comma), and goes into the vessel that *into*, *in* or *to* names.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from manualgen.knowledge import ApparatusMention
from manualgen.model.place import Place
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import PURE, is_amount, is_strength, kind_of
from manualgen.working.method import Voice
from manualgen.working.naming import Named, NamedInPassage, is_vague_name
from manualgen.working.until import is_left_to_result

_ADJECTIVES: Final = (
    r"(?:(?:the|a|an|this|each|more|fresh|same|dilute|aqueous|concentrated|powdered|"
    r"anhydrous|hydrated|hot|cold|warm|remaining|clean|small|coarse|fine|dry|pure|solid|"
    r"distilled|deionised|ice-cold|acidified|standard|stock|unknown|first|second)\s+)*"
)
_AFTER = re.compile(
    r"\s*(?:(?:portions?|samples?|aliquots?|lots?|lengths?|pieces?|strips?)\s+)?"
    rf"(?:of\s+)?{_ADJECTIVES}(?:\x02+\s+(?:of\s+)?{_ADJECTIVES})?"
)
_BEFORE = re.compile(
    r"\s*(?:[,(:]|\s[–-]\s)?\s*(?:about |approximately )?(?:\x02+,\s*)?"
)
_STRENGTH_AFTER = re.compile(rf"\s*(?:of\s+)?{_ADJECTIVES}")
_STRENGTH_BEFORE = re.compile(r"\s*(?:[,(]\s*|of (?:concentration )?)?")
_OPEN = re.compile(
    r"\b(?:repeat|repeated|choose|chosen|choice|var(?:y|ied|ious|ying)|different|"
    r"between|up to|in turn|as in the table|from the table|in the table|each run|"
    r"if necessary|if needed|or more|at least|enough|further|any)\b",
    re.IGNORECASE,
)
_BACK = re.compile(r"\b(?:the|this|these|all|all of the|your)\s*$", re.IGNORECASE)
_NUMBERS: Final = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "twelve": 12,
}  # fmt: skip
_NUMBER: Final = rf"(?P<n>\d{{1,2}}|{'|'.join(_NUMBERS)})"
_EACH_OF = re.compile(rf"\beach of (?:the |your |these )?(?:other )?{_NUMBER}\b", re.I)
_PORTIONS = re.compile(rf"\b{_NUMBER}\s*$", re.IGNORECASE)
_INTO = re.compile(
    r"\b(?:into|in|to|onto|inside)\s+(?:each\s+(?:of\s+)?)?(?:[\w-]+\s+){0,3}$", re.I
)
_FILL = re.compile(r"\b(?:fill|charge|top up)\s+(?:[\w-]+\s+){0,3}$", re.IGNORECASE)
_WITH = re.compile(
    r"\b(?:in|into|with|using|by|from|out of)\s+(?:[\w-]+\s+){0,3}$", re.IGNORECASE
)
_MEASURE = re.compile(
    r"\b(?:measure|weigh|pipette|draw up|run|collect)\b", re.IGNORECASE
)
_NEW = re.compile(
    r"\b(?:another|second|third|other|clean|new|fresh|each|separate)\s+(?:\w+\s+)?$",
    re.I,
)


@dataclass(frozen=True, slots=True)
class VesselUse:
    """A piece that an amount goes into or is measured with."""

    mention: ApparatusMention
    instrument: bool
    """Whether it only measures the amount."""
    another: bool = False
    """*another*, *a clean*, *each*: not the one spoken of before."""


@dataclass(frozen=True, slots=True)
class Handling:
    """An amount of a chemical that a step uses."""

    named: Named
    amount: Quantity
    amount_place: Place
    strength: Quantity | None
    times: int
    """How many such amounts, where the step says the number."""
    back: bool
    """*the 25 cm³*: an amount spoken of before."""
    open_ended: bool
    """How often or how much is left to the student."""
    vessels: tuple[VesselUse, ...]
    measured: bool
    """Whether the sentence measures it out, so that a later one may pour it."""
    passage: int
    sentence: tuple[int, int]
    part: int


@dataclass(frozen=True, slots=True)
class StrengthSaid:
    """A strength that the text gives a chemical."""

    named: Named
    strength: Quantity
    place: Place
    sentence: str


@dataclass(frozen=True, slots=True)
class _Sentence:
    """A sentence with its quantities masked, as offsets into the passage."""

    start: int
    masked: str
    """Amounts as \\x01, strengths as \\x02, other quantities as \\x03."""
    amounts: tuple[tuple[int, int, Quantity], ...]
    strengths: tuple[tuple[int, int, Quantity], ...]
    chemicals: tuple[Named, ...]
    apparatus: tuple[ApparatusMention, ...]

    @property
    def end(self) -> int:
        return self.start + len(self.masked)

    def between(self, start: int, end: int) -> str:
        return self.masked[start - self.start : end - self.start]


def handlings(passages: Sequence[NamedInPassage]) -> Iterator[Handling]:
    """Every amount of a chemical that the steps use, in order."""
    for number, named in enumerate(passages):
        if named.passage.voice is not Voice.STEP:
            continue
        for sentence in _sentences(named):
            if sentence.amounts:
                yield from _of_sentence(named, number, sentence)


def strengths_said(passages: Sequence[NamedInPassage]) -> Iterator[StrengthSaid]:
    """Every strength that a step gives a chemical."""
    for named in passages:
        for sentence in _sentences(named):
            for start, end, quantity in sentence.strengths:
                whose = _whose_strength(sentence, start, end)
                if whose is not None:
                    place = named.passage.prose.place(start, end)
                    said = named.text[sentence.start : sentence.end]
                    yield StrengthSaid(whose, quantity, place, said)


def _sentences(named: NamedInPassage) -> Iterator[_Sentence]:
    """The sentences of a passage that has quantities, with what each names."""
    prose = named.passage.prose
    spans = [
        (s, e, span.quantity, _mask(span.quantity)) for s, e, span in prose.quantities()
    ]
    if not spans:
        return
    masked = list(prose.text)
    for start, end, _, mask in spans:
        masked[start:end] = mask * (end - start)
    flat = "".join(masked)
    for start, end in prose.sentences:
        here = [span for span in spans if start <= span[0] < end]
        yield _Sentence(
            start,
            flat[start:end],
            tuple((s, e, q) for s, e, q, mask in here if mask == "\x01"),
            tuple((s, e, q) for s, e, q, mask in here if mask == "\x02"),
            tuple(c for c in named.chemicals if start <= c.start < end),
            tuple(a for a in named.apparatus if start <= a.start < end),
        )


def _mask(quantity: Quantity) -> str:
    if is_strength(quantity.unit):
        return "\x02"
    is_amount_of_something = is_amount(quantity.unit) and kind_of(quantity.unit) != PURE
    return "\x01" if is_amount_of_something else "\x03"


def _of_sentence(
    named: NamedInPassage, number: int, sentence: _Sentence
) -> Iterator[Handling]:
    is_open = bool(_OPEN.search(sentence.masked))
    for start, end, quantity in sentence.amounts:
        whose = _whose_amount(sentence, start, end, named.text)
        if whose is None or whose.negated:
            continue
        before = sentence.masked[: start - sentence.start]
        yield Handling(
            whose,
            quantity,
            named.passage.prose.place(start, end),
            _strength_of(sentence, whose),
            _times(sentence, start, max(end, whose.end), before),
            bool(_BACK.search(before)),
            is_open
            or quantity.upper is not None
            or is_left_to_result(
                sentence.masked, start - sentence.start, end - sentence.start
            ),
            tuple(_vessels(sentence, start, max(end, whose.end))),
            bool(_MEASURE.search(before)),
            number,
            (sentence.start, sentence.end),
            named.passage.part,
        )


def _whose_amount(sentence: _Sentence, start: int, end: int, text: str) -> Named | None:
    """The chemical that an amount is of."""
    for named in sentence.chemicals:
        if is_vague_name(text, named):
            continue
        if named.start >= end and _AFTER.fullmatch(sentence.between(end, named.start)):
            return named
    for named in sentence.chemicals:
        gap = sentence.between(named.end, start)
        if named.end <= start and _BEFORE.fullmatch(gap):
            follows = any(a[0] >= end for a in sentence.amounts)
            return None if follows and "," in gap else named
    return None


def _whose_strength(sentence: _Sentence, start: int, end: int) -> Named | None:
    for named in sentence.chemicals:
        gap = sentence.between(end, named.start)
        if named.start >= end and _STRENGTH_AFTER.fullmatch(gap):
            return named
    for named in sentence.chemicals:
        gap = sentence.between(named.end, start)
        if named.end <= start and _STRENGTH_BEFORE.fullmatch(gap):
            return named
    return None


def _strength_of(sentence: _Sentence, whose: Named) -> Quantity | None:
    for start, end, quantity in sentence.strengths:
        if _whose_strength(sentence, start, end) == whose:
            return quantity
    return None


def _times(sentence: _Sentence, start: int, end: int, before: str) -> int:
    behind = sentence.masked[end - sentence.start :]
    if (each := _EACH_OF.search(behind)) is not None:
        return _number(each["n"])
    is_portions = re.match(r"\s*(?:portions|samples|aliquots|lots)\b", behind)
    counted = _PORTIONS.search(before)
    after = sentence.masked[start - sentence.start :]
    is_portions = is_portions or re.match(r"\x01+\s*(?:portions|samples|lots)\b", after)
    return _number(counted["n"]) if counted and is_portions else 1


def _number(word: str) -> int:
    return _NUMBERS.get(word.casefold()) or int(word)


INSTRUMENTS: Final = frozenset(
    {"measuring cylinder", "graduated pipette", "volumetric pipette", "pipette",
     "teat pipette", "syringe", "burette", "micropipette", "bottle-top dispenser",
     "balance", "weighing boat", "weighing bottle"}
)  # fmt: skip
"""Pieces that measure an amount and hold each by itself."""


def _vessels(sentence: _Sentence, start: int, end: int) -> Iterator[VesselUse]:
    """The pieces of the sentence that the amount goes into or is measured with."""
    target_found = False
    for mention in sentence.apparatus:
        before = sentence.masked[: mention.start - sentence.start]
        another = bool(_NEW.search(before))
        names = {p.name for p in mention.pieces}
        if names <= INSTRUMENTS:
            if _WITH.search(before) or _FILL.search(before):
                yield VesselUse(mention, instrument=True, another=another)
            continue
        is_behind = mention.start >= end
        between = sentence.between(end, mention.start) if is_behind else ""
        is_own = is_behind and "\x01" not in between and bool(_INTO.search(before))
        is_before = mention.end <= start and bool(
            _INTO.search(before) or _FILL.search(before)
        )
        if (is_own or is_before) and not target_found:
            target_found = True
            yield VesselUse(mention, instrument=False, another=another)
