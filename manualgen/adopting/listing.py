"""Drafts put on the manual's list, as lines added to manual.yaml and none changed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import yaml

Data: TypeAlias = "str | list[Data] | dict[str, Data] | None"

PART = "Drafts"
NEW_MANUAL = """# yaml-language-server: $schema=../.schemas/manual.json
title: Practical chemistry
institution: The name of your school
edition: ""
language: en-GB
paper: A4
class: {groups: 12, spare: 10 %}
"""


def with_drafts(text: str, identities: Sequence[str]) -> str | None:
    """A manual's settings with drafts listed in a part of their own at the end.

    None where they cannot be put there by adding lines alone.
    """
    added = _added(text, list(identities))
    return added if added is not None and _only_added(text, added, identities) else None


def _added(text: str, identities: list[str]) -> str | None:
    root = _composed(text)
    if not isinstance(root, yaml.MappingNode):
        return None if root else text + _part(identities, "  ", "parts:\n")
    for key, value in root.value:
        if key.value == "parts":
            return _in_parts(text, key, value, identities)
    if root.flow_style:
        return None
    ended = text if text.endswith("\n") else text + "\n"
    return ended + _part(identities, "  ", "parts:\n")


def _in_parts(
    text: str, key: yaml.Node, parts: yaml.Node, identities: list[str]
) -> str | None:
    if isinstance(parts, yaml.ScalarNode) and parts.value in ("", "~", "null"):
        return _inserted(text, key.end_mark.line, _part(identities, "  "))
    if not isinstance(parts, yaml.SequenceNode) or parts.flow_style or not parts.value:
        return None
    last = parts.value[-1]
    drafts = _draft_list(last)
    if drafts is not None:
        indent = " " * drafts.start_mark.column
        lines = "".join(f"{indent}- {identity}\n" for identity in identities)
        return _inserted(text, _last_line(last), lines)
    indent = " " * parts.start_mark.column
    return _inserted(text, _last_line(last), _part(identities, indent))


def _draft_list(part: yaml.Node) -> yaml.SequenceNode | None:
    """The list of the part for drafts, where there is one already, one a line."""
    if not isinstance(part, yaml.MappingNode) or part.flow_style:
        return None
    found = {key.value: value for key, value in part.value}
    title, listed = found.get("title"), found.get("experiments")
    if title is None or title.value != PART or part.value[-1][1] is not listed:
        return None
    is_block = isinstance(listed, yaml.SequenceNode) and not listed.flow_style
    return listed if is_block else None


def _part(identities: list[str], indent: str, head: str = "") -> str:
    lines = "".join(f"{indent}    - {identity}\n" for identity in identities)
    return f"{head}{indent}- title: {PART}\n{indent}  experiments:\n{lines}"


def _inserted(text: str, after: int, lines: str) -> str:
    rows = text.splitlines(keepends=True)
    end = "\r\n" if rows and rows[0].endswith("\r\n") else "\n"
    if rows and not rows[after].endswith("\n"):
        rows[after] += end
    rows.insert(after + 1, lines.replace("\n", end))
    return "".join(rows)


def _last_line(node: yaml.Node) -> int:
    """The line on which the last value of a node stands."""
    if isinstance(node, yaml.ScalarNode) or getattr(node, "flow_style", False):
        mark = node.end_mark
        return int(
            mark.line if mark.column else max(node.start_mark.line, mark.line - 1)
        )
    inner = [
        v for pair in node.value for v in (pair if isinstance(pair, tuple) else (pair,))
    ]
    return max(map(_last_line, inner), default=int(node.start_mark.line))


def _composed(text: str) -> yaml.Node | None:
    try:
        return yaml.compose(text, Loader=yaml.CBaseLoader)
    except yaml.YAMLError:
        return yaml.ScalarNode("", "unreadable")


def _only_added(before: str, after: str, identities: Sequence[str]) -> bool:
    """Whether nothing but the drafts is new."""
    try:
        old: Data = yaml.load(before, Loader=yaml.CBaseLoader)
        new: Data = yaml.load(after, Loader=yaml.CBaseLoader)
    except (yaml.YAMLError, RecursionError):
        return False
    if not isinstance(new, dict):
        return False
    kept = old if isinstance(old, dict) else {}
    if {k: v for k, v in new.items() if k != "parts"} != {
        k: v for k, v in kept.items() if k != "parts"
    }:
        return False
    return _listed(new)[: len(_listed(kept))] == _listed(kept) and (
        _listed(new)[len(_listed(kept)) :] == list(identities)
    )


def _listed(data: dict[str, Data]) -> list[Data]:
    parts = data.get("parts")
    found: list[Data] = []
    for part in parts if isinstance(parts, list) else []:
        listed = part.get("experiments") if isinstance(part, dict) else None
        found += listed if isinstance(listed, list) else []
    return found
