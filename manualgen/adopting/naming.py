"""Formulas beside names, once in a draft, where the tables are sure of them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from manualgen.adopting.draft import Block, Draft, Form, Place
from manualgen.chemistry import Formula, formula_of, without_form
from manualgen.knowledge import Chemical, ChemicalMention, mentions
from manualgen.knowledge import Form as State

_PROSE = (Place.THEORY, Place.AIM, Place.CONCLUSION, Place.METHOD)
_FORMS = (Form.PARAGRAPH, Form.STEP)
_HELD = re.compile(r"`[^`]*`|\[_.*?_\]")
_ENDED = re.compile(
    r"\s*(?:$|[.,;:?!)]|(?:in|into|onto|on|to|and|or|with|from|is|are|was|were|until|for|at|by|"
    r"of|turns|goes|becomes|takes|does|gives|has|can|will|slowly|drop|through|over|has|dissolves|"
    r"reacts|burns|decomposes|while|when|which|that|as|so|using|solution|away|if|but)\b)"
)
_BESIDE = re.compile(r"\s*[,(]?\s*`")


def with_formulas(draft: Draft) -> Draft:
    """The draft with the formula behind the first mention of each sure name."""
    told = {s for _, blocks in draft.blocks for b in blocks for s in _formulas(b.text)}
    named = dict(draft.blocks)
    for place in _PROSE:
        if place in named:
            named[place] = tuple(_named(b, told) for b in named[place])
    return replace(draft, blocks=tuple((p, named[p]) for p, _ in draft.blocks))


def _formulas(text: str) -> Iterable[str]:
    return re.findall(r"`([^`]+)`", text)


def _named(block: Block, told: set[str]) -> Block:
    if block.form not in _FORMS:
        return block
    text, done, at = block.text, "", 0
    for mention, formula in _sure(text):
        if formula in told or mention.start < at:
            continue
        told.add(formula)
        done += f"{text[at : mention.end]} (`{formula}`)"
        at = mention.end
    return replace(block, text=done + text[at:])


def _sure(text: str) -> Iterator[tuple[ChemicalMention, str]]:
    held = [(m.start(), m.end()) for m in _HELD.finditer(text)]
    for mention in mentions(text).chemicals:
        inside = any(s < mention.end and mention.start < e for s, e in held)
        if inside or _BESIDE.match(text, mention.end):
            continue
        if not _ENDED.match(text, mention.end):
            continue
        words = text[mention.start : mention.end]
        formula = _sure_formula(mention.chemical, words)
        if formula is not None:
            yield mention, str(formula)


def _sure_formula(chemical: Chemical, words: str) -> Formula | None:
    """The formula that both tables give this very name; none of mixtures and elements."""
    formula = chemical.formula
    if formula is None or chemical.ingredients or len(formula.atoms) < 2:
        return None
    bare, _ = without_form(words)
    said = formula_of(bare)
    if said is None or said != formula or chemical.substance == "water":
        return None
    is_dissolved = (
        bare.casefold() != words.casefold() or chemical.form is State.SOLUTION
    )
    return formula if is_dissolved or not chemical.hydrates else None
