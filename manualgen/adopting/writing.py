"""A draft as a file in the format.

Under each block a comment says where its words stood, and what they were where
they were changed: a link definition of Markdown, which prints nothing.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache

from manualgen.adopting.draft import Block, Draft, Entry, Form, Place, Said
from manualgen.adopting.piece import tidy
from manualgen.adopting.spans import at_line_start, marked

_PLAIN_SCALAR = re.compile(r"[A-Za-z0-9][\w()/%°³².,'’ +-]*")
_YAML_WORDS = re.compile(r":\s|:$|\s#")
_WORD = re.compile(r"\w+")
_LONGEST = 4000
"""Characters of a paragraph, past which it is parted."""
_MOST_BRACKETS = 60


def written(draft: Draft, identity: str) -> str:
    """The text of a draft's file."""
    return "\n".join([*_front(draft), "", *_body(draft, identity)]).rstrip() + "\n"


def picture_name(identity: str, number: int, suffix: str) -> str:
    """Where a draft's picture is kept, from the content folder."""
    return f"images/{identity}-{number}{suffix}"


def _front(draft: Draft) -> Iterator[str]:
    yield "---"
    yield f"# A draft from {tidy(draft.source)}, from {draft.origin} on. A comment such as"
    yield '# [line 12]: # "…" tells where the words above it stood in the source, and what'
    yield "# they were where they were changed. No comment is printed; delete them at the end."
    if draft.opening:
        yield _yaml_comment(draft.opening)
    yield f"title: {_scalar(draft.title)}"
    for key, entry in (("time", draft.time), ("group", draft.group)):
        if entry:
            yield _yaml_comment(entry.said)
            yield f"{key}: {entry.text}"
    yield from _list("chemicals", draft.chemicals)
    yield from _list("apparatus", draft.apparatus)
    yield "---"


def _list(key: str, entries: tuple[Entry, ...]) -> Iterator[str]:
    if entries:
        yield f"{key}:"
    last: Said | None = None
    for entry in entries:
        if entry.said != last:
            yield f"  {_yaml_comment(entry.said)}"
        last = entry.said
        yield f"  - {_scalar(entry.text)}"


def _yaml_comment(said: Said) -> str:
    return f"# {said.origin}: {tidy(said.words)}"


def _scalar(text: str) -> str:
    """A value of YAML, in quotes where a sign in it means something there."""
    if _PLAIN_SCALAR.fullmatch(text) and not _YAML_WORDS.search(text):
        return text
    return json.dumps(text, ensure_ascii=False)


def _body(draft: Draft, identity: str) -> Iterator[str]:
    pictures = iter(range(1, len(draft.pictures) + 1))
    for place in Place:
        blocks = draft.section(place)
        if place is Place.UNPLACED and blocks and not draft.section(Place.TEACHER):
            yield from (f"## {Place.TEACHER.value}", "")
        if blocks or place is Place.METHOD:
            mark = "###" if place is Place.UNPLACED else "##"
            yield from (f"{mark} {place.value}", "")
        yield from _section(blocks, identity, pictures)


def _section(
    blocks: tuple[Block, ...], identity: str, pictures: Iterator[int]
) -> Iterator[str]:
    number = 0
    for at, block in enumerate(blocks):
        number += block.form in (Form.STEP, Form.QUESTION)
        indent = _indent(block.form, number)
        lines = list(_lines(block, number, identity, pictures))
        following = blocks[at + 1] if at + 1 < len(blocks) else None
        yield from lines
        yield ""
        if _owes_comment(block, following):
            yield from (f"{indent}{line}" for line in _comments(block, lines))
            yield ""


def _indent(form: Form, number: int) -> str:
    match form:
        case Form.STEP | Form.QUESTION:
            return " " * (len(str(number)) + 2)
        case Form.SAFETY | Form.ANSWER if number:
            return " " * (len(str(number)) + 2)
        case Form.BULLET:
            return "  "
        case _:
            return ""


def _lines(
    block: Block, number: int, identity: str, pictures: Iterator[int]
) -> Iterator[str]:
    indent = _indent(block.form, number)
    match block.form:
        case Form.STEP | Form.QUESTION:
            yield f"{number}. {at_line_start(block.text)}"
        case Form.BULLET:
            yield f"- {at_line_start(block.text)}"
        case Form.SAFETY:
            yield f"{indent}> **Safety:** {block.text}"
        case Form.ANSWER:
            yield f"{indent}> **Answer:** {block.text}"
        case Form.EQUATION:
            yield from ("```equation", block.text, "```")
        case Form.TABLE:
            yield from _table(block.rows)
        case Form.PICTURE:
            yield _picture(block, identity, next(pictures))
        case Form.PARAGRAPH:
            yield from _paragraphs(block.text)


def _picture(block: Block, identity: str, number: int) -> str:
    assert block.picture is not None
    name = picture_name(identity, number, block.picture.suffix)
    words = re.sub(r"[\[\]\\`*_<>]", " ", tidy(block.picture.description))
    return f"![{' '.join(words.split()) or f'Picture {number}'}]({name})"


def _table(rows: tuple[tuple[str, ...], ...]) -> Iterator[str]:
    width = max(map(len, rows))
    for at, row in enumerate(rows):
        cells = [marked(cell) for cell in row] + [""] * (width - len(row))
        yield f"| {' | '.join(cells)} |"
        if at == 0:
            yield f"|{' --- |' * width}"


def _paragraphs(text: str) -> Iterator[str]:
    """A paragraph, parted between words where it is longer than the format reads."""
    begin, brackets, space = 0, 0, 0
    parts: list[str] = []
    for at, sign in enumerate(text):
        brackets += sign == "["
        space = at if sign == " " and text.count("`", begin, at) % 2 == 0 else space
        full = at - begin > _LONGEST or brackets > _MOST_BRACKETS
        if full and space > begin:
            parts.append(text[begin:space])
            begin, brackets = space + 1, text.count("[", space + 1, at + 1)
    parts.append(text[begin:])
    for n, part in enumerate(parts):
        yield from ([""] if n else [])
        yield at_line_start(part.strip())


def _owes_comment(block: Block, following: Block | None) -> bool:
    """The last of the blocks that one sentence became tells of it."""
    return following is None or following.said != block.said


def _comments(block: Block, lines: list[str]) -> Iterator[str]:
    kept = (block.text, " ".join(lines))
    for said in block.said:
        is_kept = any(holds(text, said.words) for text in kept)
        yield comment(said, changed=not is_kept)


def comment(said: Said, *, changed: bool) -> str:
    """A definition that nothing uses, which Markdown reads and does not print."""
    if not changed:
        return f"[{said.origin}]: #"
    words = tidy(said.words).replace("\\", "\\\\").replace('"', '\\"')
    return f'[{said.origin}]: # "{words}"'


def holds(markdown: str, words: str) -> bool:
    """Whether some Markdown has the words of a sentence, one behind the other."""
    return word_row(words) in word_row(unmarked(markdown))


def unmarked(markdown: str) -> str:
    """Markdown without the signs that mark it up."""
    bare = re.sub(r"\[_|_\]|`", "", markdown)
    return re.sub(r"\\(?=[^\w\s])", "", bare)


@lru_cache(maxsize=4096)
def word_row(text: str) -> str:
    """The words of a text in small letters, a blank before and behind each."""
    folded = unicodedata.normalize("NFKC", text).casefold()
    return f" {' '.join(_WORD.findall(folded))} "
