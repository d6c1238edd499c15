"""Reading a draft before it is written, so that what is written can be read.

Where the format finds fault with the form of a block, its words go to the
unplaced ones as they stood in the source, without anything marked in them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from manualgen.adopting.draft import Block, Draft, Entry, Form, Place
from manualgen.adopting.spans import escaped
from manualgen.adopting.writing import picture_name, written
from manualgen.reading import read_manual
from manualgen.sources import SourceError
from manualgen.sources.source import TEXT_LIMIT

_MANUAL = "title: Draft\nparts:\n  - title: Drafts\n    experiments: [{identity}]\n"
_NOT_FORM = frozenset({"missing-section", "formula-charge"})
"""Faults that only the author can mend."""


class Proof:
    """A content folder in memory that holds one draft."""

    name = ""

    def __init__(self, identity: str, text: str, pictures: tuple[str, ...]) -> None:
        self._files = {
            "manual.yaml": _MANUAL.format(identity=identity).encode(),
            f"{identity}.md": text.encode("utf-8", "replace"),
            **dict.fromkeys(pictures, b""),
        }

    def files(self) -> tuple[str, ...]:
        """The manual, the draft and its pictures."""
        return tuple(sorted(self._files))

    def read(self, path: str, limit: int = TEXT_LIMIT) -> bytes:
        """The bytes of one of them."""
        if path not in self._files:
            raise SourceError("is not there", missing=True)
        if len(self._files[path]) > limit:
            raise SourceError("is too long")
        return self._files[path]

    def exists(self, path: str) -> bool:
        """Whether it is one of them."""
        return path in self._files


def faults(text: str, identity: str, draft: Draft) -> tuple[tuple[int, str], ...]:
    """What reading finds wrong with the form of a draft: line and message."""
    pictures = tuple(
        picture_name(identity, n, p.suffix) for n, p in enumerate(draft.pictures, 1)
    )
    manual, _ = read_manual(Proof(identity, text, pictures))
    return tuple(
        (noted.fault.place.line, noted.fault.message)
        for experiment in manual.experiments
        for noted in experiment.noted
        if noted.check not in _NOT_FORM
    )


def proved(draft: Draft, identity: str) -> tuple[Draft, str]:
    """The draft in a form without fault, and its text."""
    text = written(draft, identity)
    if not faults(text, identity, draft):
        return draft, text
    careful = _without_faulty_parts(draft, identity)
    text = written(careful, identity)
    if faults(text, identity, careful):
        careful = all_unplaced(draft)
        text = written(careful, identity)
    return careful, text


def _without_faulty_parts(draft: Draft, identity: str) -> Draft:
    """The draft with each faulty entry and block among the unplaced."""
    moved: list[Block] = []
    bare = replace(draft, chemicals=(), apparatus=(), blocks=())
    chemicals = _sound_entries(draft, bare, "chemicals", identity, moved)
    apparatus = _sound_entries(draft, bare, "apparatus", identity, moved)
    kept: dict[Place, tuple[Block, ...]] = {}
    for place, blocks in draft.blocks:
        sound = []
        for block in blocks:
            alone = replace(bare, blocks=((place, (block,)),))
            if faults(written(alone, identity), identity, alone):
                moved += _plain(block)
            else:
                sound.append(block)
        kept[place] = tuple(sound)
    kept[Place.UNPLACED] = (*kept.get(Place.UNPLACED, ()), *moved)
    return replace(
        bare,
        chemicals=chemicals,
        apparatus=apparatus,
        blocks=tuple((p, kept[p]) for p in Place if kept.get(p)),
    )


def _sound_entries(
    draft: Draft, bare: Draft, key: str, identity: str, moved: list[Block]
) -> tuple[Entry, ...]:
    sound = []
    entries: tuple[Entry, ...] = getattr(draft, key)
    for entry in entries:
        alone = (
            replace(bare, chemicals=(entry,))
            if key == "chemicals"
            else replace(bare, apparatus=(entry,))
        )
        if faults(written(alone, identity), identity, alone):
            words = escaped(entry.said.words)
            moved.append(Block(Form.PARAGRAPH, words, (entry.said,)))
        else:
            sound.append(entry)
    return tuple(sound)


def _plain(block: Block) -> Iterator[Block]:
    for said in block.said:
        words = said.words or " ".join(" ".join(row) for row in block.rows)
        yield Block(Form.PARAGRAPH, escaped(words), (said,))


def all_unplaced(draft: Draft) -> Draft:
    """Every word of a draft as it stood, none of it placed."""
    entries = (draft.time, draft.group, *draft.chemicals, *draft.apparatus)
    saids = [e.said for e in entries if e]
    blocks = [
        Block(Form.PARAGRAPH, escaped(s.words), (s,)) for s in dict.fromkeys(saids)
    ]
    blocks += [p for _, row in draft.blocks for b in row for p in _plain(b)]
    return replace(
        draft,
        time=None,
        group=None,
        chemicals=(),
        apparatus=(),
        blocks=((Place.UNPLACED, tuple(blocks)),),
    )
