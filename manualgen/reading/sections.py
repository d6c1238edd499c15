"""Sections: what stands under each second-level heading."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from manualgen.model.blocks import Blocks, ListBlock, Step
from manualgen.model.experiment import Section, SectionKind
from manualgen.model.nearest import nearest
from manualgen.model.place import Place
from manualgen.model.walk import plain
from manualgen.reading.blocks import BlockReader
from manualgen.reading.method import read_method
from manualgen.reading.questions import read_questions
from manualgen.reading.tree import Node

_ALSO = {
    "results": SectionKind.OBSERVATIONS,
    "teacher notes": SectionKind.TEACHER,
    "technician notes": SectionKind.TECHNICIAN,
}
KINDS = _ALSO | {
    kind.value.casefold(): kind for kind in SectionKind if kind is not SectionKind.OTHER
}
_METHODS = frozenset(
    {
        "procedure",
        "procedures",
        "instructions",
        "experimental",
        "experimental procedure",
    }
    | {"practical", "practical work", "practical procedure", "what to do", "steps"}
)
"""Headings under which other manuals have their steps; common practice, no source."""
_QUESTIONS = frozenset({"question", "qs", "follow-up questions", "follow-up question"})
"""Headings that were meant to be *Questions*; common practice, no source."""
_METHOD = re.compile(r"\s*(?:#{1,6}\s*|\*\*)?Method:?(?:\*\*)?:?\s*", re.IGNORECASE)
"""The heading of the Method on another level, in bold, or as a line of its own."""
_TEXTS = ("heading", "paragraph")
_STAFF = re.compile(
    r"(?:notes? )?(?:for|to) (?:the )?(?P<whom>teacher|technician|prep(?:aration)? room)s?"
    r"|(?:the )?(?P<whose>teacher|technician)(?:['’]?s?['’]?)?(?: notes?)?",
    re.IGNORECASE,
)


def read_sections(nodes: Sequence[Node], reader: BlockReader) -> Iterator[Section]:
    """The sections in order; what stands before the first heading is one too."""
    seen: set[SectionKind] = set()
    misnamed = _misnamed_method(nodes, reader)
    for heading, inside in _parted(nodes, misnamed):
        is_method = heading is not None and heading is misnamed
        section = _section(heading, inside, reader, is_method=is_method)
        if section.kind in seen and section.kind in (
            SectionKind.METHOD,
            SectionKind.QUESTIONS,
        ):
            message = f"a second section {section.heading}"
            reader.faults.syntax(section.place, message, "put it under the first")
        seen.add(section.kind)
        yield section


def _parted(
    nodes: Sequence[Node], also: Node | None
) -> Iterator[tuple[Node | None, list[Node]]]:
    """The headings with what stands under each; ``also`` is one that looks otherwise."""
    heading: Node | None = None
    inside: list[Node] = []
    for node in nodes:
        if node is also or _heads_section(node):
            if heading or inside:
                yield heading, inside
            heading, inside = node, []
        else:
            inside.append(node)
    if heading or inside:
        yield heading, inside


def _heads_section(node: Node) -> bool:
    return node.kind == "heading" and node.token.tag in ("h1", "h2")


def _misnamed_method(nodes: Sequence[Node], reader: BlockReader) -> Node | None:
    """Where no heading is that of the Method, the one that was meant to be."""
    headings = [node for node in nodes if _heads_section(node)]
    titles = {reader.body.heading(h).text.strip().casefold(): h for h in headings}
    method = SectionKind.METHOD.value.casefold()
    if method in titles:
        return None
    if near := nearest(method, titles):
        return titles[near]
    otherwise = (
        n
        for n in nodes
        if n.kind in _TEXTS and _METHOD.fullmatch(reader.body.line(n.line))
    )
    named = (titles[title] for title in titles if title in _METHODS)
    return next(otherwise, None) or next(named, None)


def _section(
    heading: Node | None, inside: list[Node], reader: BlockReader, *, is_method: bool
) -> Section:
    if heading is None:
        place = reader.body.place(inside[0].line, 0)
        return Section(SectionKind.OTHER, "", reader.blocks(inside), place)
    text = reader.body.heading(heading)
    content = reader.bare_heading(text)
    title = plain(content)
    kind = KINDS.get(title.casefold(), SectionKind.OTHER)
    if is_method:
        kind = SectionKind.METHOD
        assert heading is not None
        written = reader.body.line(heading.line).strip().removeprefix("## ")
        message = f"there is no section ## Method; {written!r} is read as one"
        reader.faults.note("missing-section", text.place(), message, "## Method")
    if kind is SectionKind.OTHER and _asks(title, inside):
        kind = SectionKind.QUESTIONS
        message = f"{title!r} is read as the heading ## Questions"
        reader.faults.syntax(text.place(), message, SectionKind.QUESTIONS.value)
    if kind is SectionKind.OTHER:
        _note_staff_heading(title, text.place(), reader)
    blocks = _blocks(kind, inside, text.place(), reader)
    return Section(kind, title, blocks, text.place(), content)


def _asks(title: str, inside: Sequence[Node]) -> bool:
    """Whether a heading was meant to be that of the questions: a list is under it."""
    is_named = title.strip(" :").casefold() in _QUESTIONS
    return is_named and any(node.kind == "ordered_list" for node in inside)


def _blocks(
    kind: SectionKind, inside: list[Node], place: Place, reader: BlockReader
) -> Blocks:
    match kind:
        case SectionKind.METHOD:
            blocks = read_method(inside, reader)
            if not any(isinstance(block, Step) for block in blocks):
                message = "the Method has no steps"
                mend = "write them as a numbered list: 1. …"
                reader.faults.note("missing-section", place, message, mend)
            return blocks
        case SectionKind.QUESTIONS:
            return read_questions(inside, reader)
        case _:
            return reader.blocks(inside)


def _note_staff_heading(title: str, place: Place, reader: BlockReader) -> None:
    """A heading that nearly names the teacher's section would print it for students."""
    found = _STAFF.fullmatch(title)
    if found:
        whose = (found["whom"] or found["whose"]).casefold()
        right = SectionKind.TEACHER if whose == "teacher" else SectionKind.TECHNICIAN
        near: str | None = right.value
    else:
        staff = [name for name, kind in KINDS.items() if kind in _FOR_STAFF]
        guess = nearest(title, staff)
        near = KINDS[guess].value if guess else None
    if near:
        message = f"{title!r} is an ordinary section, which students see"
        reader.faults.syntax(place, message, f"## {near}")


_FOR_STAFF = (SectionKind.TEACHER, SectionKind.TECHNICIAN)


def _numbered(sections: Sequence[Section]) -> str | None:
    """The heading over the first numbered list: steps under another name."""
    return next(
        (
            section.heading
            for section in sections
            if section.kind is SectionKind.OTHER
            and any(isinstance(b, ListBlock) and b.ordered for b in section.blocks)
        ),
        None,
    )


def note_missing_method(
    sections: Sequence[Section], place: Place, reader: BlockReader
) -> None:
    """Note an experiment without a Method."""
    if any(section.kind is SectionKind.METHOD for section in sections):
        return
    titles = {s.heading: s.place for s in sections if s.kind is SectionKind.OTHER}
    near = nearest(SectionKind.METHOD.value, titles) or _numbered(sections)
    reader.faults.note(
        "missing-section",
        titles[near] if near else place,
        f"there is no section ## Method; {near!r} is an ordinary one"
        if near
        else "there is no section ## Method",
        "## Method",
    )
