"""Inline tokens that know their place.

markdown-it-py gives lines to blocks only. Here every inline token carries, as
``meta["at"]`` and ``meta["end"]``, the offsets in the text of its block between
which it was written. Text stays unjoined, so that each piece is letter for
letter what the source has.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal

from markdown_it.main import MarkdownIt
from markdown_it.parser_inline import ParserInline, RuleFuncInlineType
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from markdown_it.utils import EnvType


class PlacedState(StateInline):
    """The state of the inline parser, which notes where tokens begin."""

    pending_at: int | None = None

    def append_pending(self, text: str) -> None:
        """Add plain text that starts at the present position."""
        if self.pending_at is None:
            self.pending_at = self.pos
        super().append_pending(text)

    def pushPending(self) -> Token:  # noqa: N802 - the library's name
        """Make a token of the plain text gathered so far."""
        token = super().pushPending()
        at = self.pending_at or 0
        token.meta = {"at": at, "end": at + len(token.content)}
        self.pending_at = None
        return token

    def push(self, ttype: str, tag: str, nesting: Literal[-1, 0, 1]) -> Token:
        """Make a token that begins at the present position."""
        token = super().push(ttype, tag, nesting)
        token.meta = {"at": self.pos, "end": self.pos}
        self.pending_at = None
        return token


class PlacedInline(ParserInline):
    """The inline parser, which notes where tokens end."""

    def __init__(self) -> None:
        super().__init__()
        self.terminator_re = re.compile(r"[\n!&<\[\]\\`*_]")

    def tokenize(self, state: StateInline) -> None:
        """Read the text from ``state.pos`` to ``state.posMax``."""
        rules = self.ruler.getRules("")
        bounded = state.level < state.md.options["maxNesting"]
        while state.pos < state.posMax:
            before = len(state.tokens)
            if not bounded or not _any_takes(rules, state):
                state.append_pending(state.src[state.pos])
                state.pos += 1
            elif len(state.tokens) > before and state.tokens[-1].type != "text":
                state.tokens[-1].meta["end"] = state.pos
        if state.pending:
            state.pushPending()

    def parse(
        self, src: str, md: MarkdownIt, env: EnvType, tokens: list[Token]
    ) -> list[Token]:
        """The tokens of a block's text."""
        state = PlacedState(src, md, env, tokens)
        self.tokenize(state)
        for rule in self.ruler2.getRules(""):
            rule(state)
        return state.tokens


def _any_takes(rules: Sequence[RuleFuncInlineType], state: StateInline) -> bool:
    """Whether a rule reads on; a loop, since it is run for every second letter."""
    for rule in rules:  # noqa: SIM110 - a generator would take a third longer
        if rule(state, False):
            return True
    return False
