"""The parts of a page that differ from another, marked on both.

Both trees are gone through side by side.  What is the same is left alone; what
differs is followed inwards as far as a paragraph, a row, a picture, and marked.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from dataclasses import dataclass, replace

from manualgen.reports.html_tree import Element, Node
from manualgen.review.prints import inked

DIFFERS = "differs"
"""The class of what is marked."""

WHOLE = frozenset(
    {"p", "li", "tr", "svg", "figure", "math", "caption", "summary", "img"}
    | {"h1", "h2", "h3", "h4", "h5", "h6"}
)
"""Elements that are marked as a whole, not somewhere inside."""


@dataclass(frozen=True, slots=True)
class _Child:
    node: Node
    ink: str


def marked(before: Element, after: Element) -> tuple[Element, Element]:
    """Both with the parts that print otherwise marked."""
    if inked(str(before)) == inked(str(after)):
        return before, after
    if _is_whole(before) or _is_whole(after):
        return _differing(before), _differing(after)
    old, new = _children(before), _children(after)
    matcher = difflib.SequenceMatcher(
        None, [c.ink for c in old], [c.ink for c in new], autojunk=False
    )
    left: list[Node] = []
    right: list[Node] = []
    for tag, i1, i2, j1, j2 in matcher.get_opcodes():
        if tag == "equal":
            left += [c.node for c in old[i1:i2]]
            right += [c.node for c in new[j1:j2]]
            continue
        for was, now in _paired(old[i1:i2], new[j1:j2]):
            left += [was] if was is not None else []
            right += [now] if now is not None else []
    return (
        replace(before, children=tuple(left)),
        replace(after, children=tuple(right)),
    )


def _is_whole(element: Element) -> bool:
    """Whether it is marked as it is: it holds words, or is a thing of its own."""
    words = (c for c in element.children if isinstance(c, str))
    return element.tag in WHOLE or any(text.strip() for text in words)


def _children(element: Element) -> list[_Child]:
    return [_Child(child, inked(str(child))) for child in element.children]


def _paired(
    old: list[_Child], new: list[_Child]
) -> Iterator[tuple[Node | None, Node | None]]:
    """Differing children side by side, those of one sort marked inside."""
    pending = [c.node for c in new]
    for child in old:
        node = child.node
        match = next((n for n in pending if _same_sort(node, n)), None)
        if match is None or isinstance(node, str) or isinstance(match, str):
            yield _mark(node), None
            continue
        while pending[0] is not match:
            yield None, _mark(pending.pop(0))
        pending.pop(0)
        yield marked(node, match)
    for left in pending:
        yield None, _mark(left)


def _same_sort(one: Node, other: Node) -> bool:
    if isinstance(one, str) or isinstance(other, str):
        return False
    return (one.tag, one.classes[:1]) == (other.tag, other.classes[:1])


def _mark(node: Node) -> Node:
    return node if isinstance(node, str) else _differing(node)


def _differing(element: Element) -> Element:
    return element.having(class_=" ".join((*element.classes, DIFFERS)))
