"""What is needed: a list in prose or by lines, parted into its things."""

from __future__ import annotations

import re
from collections.abc import Iterator

from manualgen.adopting.spans import quantities_in
from manualgen.adopting.thing import (
    Needed,
    bare_name,
    is_detail,
    known_thing,
    name_in,
    needed,
    own_sort,
    quantities_of,
)
from manualgen.adopting.unsure import SERIES, follows_letter, is_share, is_unsure
from manualgen.adopting.vocabulary import Part
from manualgen.knowledge import (
    builtin_vocabulary,
    find_apparatus,
    find_chemical,
    mentions,
)


def needed_in(text: str, part: Part | None = None) -> tuple[Needed, ...]:
    """The things that a list names, in order."""
    said = list(items_in(details_parted(_SAID_BESIDE.sub("", text))))
    items = _in_full_names(_each_with_details(said))
    return tuple(needed(thing, part) for item in items for thing in _filled(item))


def things_in(text: str) -> tuple[str, ...]:
    """The items of a short list in their full names: *filter funnel and paper*."""
    return tuple(_in_full_names(list(items_in(text))))


_SAID_BESIDE = re.compile(r",?\s*\b(?:of course|obviously)\b,?", re.I)


_SHARED = re.compile(
    r"(?P<who>both|all|each)\s+(?:are\s+|of them\s+)?(?=\d|\w+ molar)", re.IGNORECASE
)
_OF_EACH = re.compile(
    r"(?P<item>.+?)(?:,\s+|\s*\()(?P<share>[^,()]+?)\s+(?:of\s+)?each\)?", re.IGNORECASE
)


def _each_with_details(items: list[str]) -> list[str]:
    """*Acid and alkali, both 0.5 M* as *acid, 0.5 M* and *alkali, 0.5 M*."""
    found: list[str] = []
    for item in items:
        shared = _SHARED.match(item)
        if shared and len(found) > 1:
            first = -2 if shared["who"].casefold() == "both" else 0
            details = item[shared.end() :]
            found[first:] = [_with(one, details) for one in found[first:]]
        else:
            found.append(item)
    return found


def _with_share(items: list[str]) -> list[str]:
    """*Zinc, copper and tin, 2 g of each* with the amount behind each of them."""
    found: list[str] = []
    for item in items:
        last = _OF_EACH.fullmatch(item) if found else None
        if last and not is_unsure(last["item"]) and is_detail(last["share"]):
            found = [_with(one, last["share"]) for one in found]
        found.append(item)
    return found


def _with(item: str, details: str) -> str:
    """A substance with what is said of each and it has not itself; a thing as it is."""
    if _is_apparatus(item):
        return item
    own, told = quantities_of(item), quantities_of(details)
    added = [q for n in (0, 1) if not own[n] for q in told[n]]
    return ", ".join([item, *added])


def _is_apparatus(item: str) -> bool:
    return own_sort(name_in(item)) is Part.APPARATUS


def _in_full_names(items: list[str]) -> Iterator[str]:
    """*Filter funnel and paper* as *filter funnel* and *filter paper*, known both."""
    before = ""
    for item in items:
        name = name_in(item)
        shared = [before, before.rpartition(" ")[0]] if item.strip() == name else []
        full = (f"{lead} {name}" for lead in shared if lead)
        yield next((f for f in full if _is_short_for(name, f)), item)
        before = name


def _is_short_for(name: str, full: str) -> bool:
    piece = find_apparatus(full)
    return piece is not None and name.casefold() in piece.short


_SAID_OF_IT = re.compile(
    r",?\s+(?:and\s+)?(?:that's|that is|it's|it is|which is|and it's|of which|it says|is|are)\s+(?=(\S+(?:\s+\S+){0,4}))",
    re.IGNORECASE,
)


_THERE_IS = re.compile(r",?\s+and\s+there(?:['’]s|\s+is|\s+are)\s+(?:also\s+)?", re.I)


def details_parted(text: str) -> str:
    """*Acid which is half molar* as *acid, half molar*."""

    def joint(found: re.Match[str]) -> str:
        first = next(quantities_in(found[1]), None)
        return ", " if first and first[0] == 0 else found.group()

    return _SAID_OF_IT.sub(joint, _THERE_IS.sub(", ", text))


def tells_details(text: str) -> bool:
    """Whether a line of talk tells only how much of the last thing, or how strong."""
    bare = re.sub(r"^(?:that's|that is|it's|it is|which is)\s+", "", text, flags=re.I)
    head = re.split(r",|\s+and\s+(?:an?|some)\b", bare, maxsplit=1)[0]
    return is_detail(head)


_HOLDING = re.compile(r"(.+?)\s+(with|containing)\s+(.+)", re.IGNORECASE)


def _filled(item: str) -> tuple[str, ...]:
    """A vessel and what is in it: *a kettle of hot water* is two things."""
    vessel, of, content = item.partition(" of ")
    if found := _HOLDING.fullmatch(item):
        vessel, of, content = found.groups()
        content = content if next(quantities_in(content), None) else ""
    piece = find_apparatus(bare_name(vessel)) if of else None
    if piece and piece.holds and find_chemical(name_in(content)):
        return vessel, content
    return (item,)


_JOINT = re.compile(
    r"\s*,\s+(?:and\s+)?(?:then\s+)?|\s+\+\s+|\s+and\s+(?:then\s+)?|\s+(?:fitted\s+)?with\s+|\s+(?:standing\s+)?in\s+(?=an?\s)|\s+standing in\s+|"
    r"(?<!\bhalf)\s+(?=(?:an?|some|two|three|four|five|six)\s+\w)",
    re.IGNORECASE,
)


_HELD = re.compile(r"[^,;]*\bin (?:it|them)\b", re.IGNORECASE)
_MIXTURE = re.compile(r"\bmixture of [^,]*$", re.IGNORECASE)


def items_in(text: str) -> Iterator[str]:
    """The items of a list: parted by commas, semicolons and *and*, but not inside a name."""
    bare = text.strip().rstrip(".?!")
    pieces = re.split(r"\s*;\s*(?:and\s+)?|:\s+", bare)
    for piece in pieces:
        yield from _with_share(list(_with_details(list(_by_comma(piece)))))


def _by_comma(text: str) -> Iterator[str]:
    named = mentions(text)
    spans = [(m.start, m.end) for m in named.apparatus]
    spans += [(m.start, m.end) for m in named.chemicals]
    spans += [(start, end) for start, end, _ in quantities_in(text)]
    begin = 0
    for joint in _JOINT.finditer(text):
        inside = any(s < joint.start() and joint.end() < e for s, e in spans)
        if inside or _is_in_brackets(text, joint.start()):
            continue
        if follows_letter(text, joint.start(), joint.end()):
            continue
        if SERIES.search(text[begin : joint.start()]):
            continue
        if _MIXTURE.search(text[begin : joint.start()]) and "," not in joint.group():
            continue
        if "+" in joint.group() and not _both_pieces(
            text[begin : joint.start()], text[joint.end() :]
        ):
            continue
        is_sure = (
            "," in joint.group()
            or joint.group().split()[:1] == ["and"]
            or "+" in joint.group()
        )
        before, after = text[begin : joint.start()], text[joint.end() :]
        is_held = "with" in joint.group() and _HELD.match(after)
        if is_held and not find_apparatus(name_in(before)):
            continue
        if not is_sure and not _both_known(before, after):
            continue
        yield text[begin : joint.start()]
        begin = joint.end()
    yield text[begin:]


def _both_pieces(before: str, after: str) -> bool:
    """*Boiling tube + holder* are two; two chemicals may be one solution."""
    pieces = (name_in(before), name_in(_JOINT.split(after, maxsplit=1)[0]))
    return all(own_sort(piece) is Part.APPARATUS for piece in pieces)


_STRONG = re.compile(r"^(?:(?:conc|dil)\w*\.?|dilute)\s+", re.IGNORECASE)


def _both_known(before: str, after: str) -> bool:
    following = _JOINT.split(after, maxsplit=1)[0]
    left, right = (name_in(_STRONG.sub("", t)) for t in (before, following))
    if find_apparatus(f"{left} with {right}") and "clip" in right:
        return False
    is_left = _is_known(left) or own_sort(left) is Part.APPARATUS
    return is_left and known_thing(right)


def _is_known(name: str) -> bool:
    """Whether a table knows a thing by all of its words."""
    if builtin_vocabulary().phrases.exactly(name):
        return True
    spans = (m.end - m.start for m in mentions(name).chemicals)
    return max(spans, default=0) >= len(name) > 0


def _is_in_brackets(text: str, at: int) -> bool:
    return text.count("(", 0, at) > text.count(")", 0, at)


def _with_details(parts: list[str]) -> Iterator[str]:
    """Items, each with the quantities and qualities that a comma parted from it."""
    item = ""
    for part in parts:
        if item and (is_detail(part) or (is_unsure(item) and is_share(part))):
            item += f", {part.strip()}"
            continue
        if item.strip():
            yield item
        item = part
    if item.strip():
        yield item
