"""The Markdown parser: CommonMark with pipe tables, and the format's own rules."""

from __future__ import annotations

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markdown_it.utils import EnvType

from manualgen.reading.rules.blank import blank
from manualgen.reading.rules.bracketed import marks, name
from manualgen.reading.rules.emphasis import emphasis
from manualgen.reading.rules.placed import PlacedInline
from manualgen.reading.rules.raw_html import raw_html
from manualgen.reading.rules.table import table

DEEPEST = 20
"""Boxes, lists and brackets inside one another."""

_INLINE = [
    "text",
    "newline",
    "escape",
    "backticks",
    "emphasis",
    "blank",
    "marks",
    "name",
    "link",
    "image",
    "autolink",
    "raw_html",
    "entity",
]


def _parser() -> MarkdownIt:
    md = MarkdownIt("commonmark", {"html": False, "maxNesting": DEEPEST})
    md.inline = PlacedInline()
    md.block.ruler.at("table", table, {"alt": ["paragraph", "reference"]})
    md.enable("table").disable("html_block")
    ruler = md.inline.ruler
    ruler.at("emphasis", emphasis)
    ruler.before("link", "blank", blank)
    ruler.before("link", "marks", marks)
    ruler.before("link", "name", name)
    ruler.push("raw_html", raw_html)
    ruler.enableOnly(_INLINE)
    md.inline.ruler2.enableOnly(["balance_pairs", "emphasis"])
    md.core.ruler.enableOnly(["normalize", "block"])
    # Links are judged by `reading.links`, which sees the address as it was typed.
    md.validateLink = _as_typed  # type: ignore[method-assign]
    md.normalizeLink = str  # type: ignore[method-assign,assignment]
    md.normalizeLinkText = str  # type: ignore[method-assign,assignment]
    return md


def _as_typed(url: str) -> bool:
    return True


_MARKDOWN = _parser()


def parse_blocks(text: str, env: EnvType) -> list[Token]:
    """The block tokens of a text; their inline text is left as it is."""
    return _MARKDOWN.parse(text, env)


def parse_inline(text: str, env: EnvType) -> list[Token]:
    """The inline tokens of a block's text, each with its offsets."""
    return _MARKDOWN.inline.parse(text, _MARKDOWN, env, [])
