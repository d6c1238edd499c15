"""A comparison as text, JSON and Markdown."""

from __future__ import annotations

import difflib
import json
from collections.abc import Iterable, Iterator

from manualgen.review.changes import Change, Comparison, ExperimentChange


def comparison_as_json(comparison: Comparison) -> str:
    """The report of ``manualgen compare --format json``, version 1."""
    report = {
        "version": 1,
        "base": comparison.base,
        "head": comparison.head,
        "manual": [_change(c) for c in comparison.manual],
        "experiments": [
            {
                "id": e.id,
                "status": e.status.value,
                "reprint": list(e.reprint),
                "changes": [_change(c) for c in e.changes],
            }
            for e in comparison.experiments
        ],
        "unread": list(comparison.unread),
    }
    return json.dumps(report, ensure_ascii=False, indent=2) + "\n"


def _change(change: Change) -> dict[str, object]:
    return {
        "kind": change.kind,
        "what": change.what,
        "before": change.before,
        "after": change.after,
        "line": change.line,
        "consequence": change.consequence,
    }


def comparison_as_text(comparison: Comparison) -> str:
    """For a terminal: an experiment a paragraph, a change a line or two."""
    return "\n".join(_text(comparison)) + "\n"


def _text(comparison: Comparison) -> Iterator[str]:
    yield f"from {comparison.base} to {comparison.head}"
    for sentence in comparison.unread:
        yield f"not read: {sentence}"
    if not comparison.manual and not comparison.experiments:
        yield "nothing that the manual says has changed"
    if comparison.manual:
        yield ""
        yield "the manual"
        for change in comparison.manual:
            yield from _lines(change, "  ")
    for experiment in comparison.experiments:
        yield ""
        yield _headline(experiment)
        for change in experiment.changes:
            yield from _lines(change, "  ")


def _headline(experiment: ExperimentChange) -> str:
    again = ", ".join(experiment.reprint)
    tail = f"; print again: {again}" if again else ""
    return f"{experiment.id} ({experiment.title}): {experiment.status.value}{tail}"


def _lines(change: Change, indent: str) -> Iterator[str]:
    where = f" (line {change.line})" if change.line else ""
    yield f"{indent}{_sentence(change)}{where}"
    if change.consequence:
        yield f"{indent}    {change.consequence}"


def _sentence(change: Change) -> str:
    named = (
        change.what
        if change.what.startswith(change.kind)
        else (f"{change.kind} {change.what}")
    )
    if change.before is None:
        return f"{named}, new: {change.after}"
    if change.after is None:
        return f"{named}, gone: {change.before}"
    if max(len(change.before), len(change.after)) <= SHORT:
        return f"{named}: {change.before} → {change.after}"
    return f"{named}: {marked(change.before, change.after)}"


SHORT = 40
"""Up to this length a change is shown as before and after."""


def marked(
    before: str, after: str, marks: tuple[str, str, str, str] = ("[-", "-]", "{+", "+}")
) -> str:
    """The new words with those that went and came marked, word by word."""
    old, new = before.split(), after.split()
    matcher = difflib.SequenceMatcher(None, old, new, autojunk=False)
    parts: list[str] = []
    for tag, i1, i2, j1, j2 in matcher.get_opcodes():
        if tag == "equal":
            parts.append(" ".join(new[j1:j2]))
            continue
        if i2 > i1:
            parts.append(f"{marks[0]}{' '.join(old[i1:i2])}{marks[1]}")
        if j2 > j1:
            parts.append(f"{marks[2]}{' '.join(new[j1:j2])}{marks[3]}")
    return " ".join(parts)


MARKDOWN_MARKS = ("~~", "~~", "**", "**")


def comparison_as_markdown(comparison: Comparison) -> str:
    """To paste under a change request."""
    return "\n".join(_markdown(comparison)) + "\n"


def _markdown(comparison: Comparison) -> Iterator[str]:
    yield f"### Changes from `{comparison.base}` to `{comparison.head}`"
    for sentence in comparison.unread:
        yield f"\nNot read: {_escaped(sentence)}"
    if comparison.manual:
        yield "\n#### The manual\n"
        yield from _table(comparison.manual)
    for experiment in comparison.experiments:
        yield f"\n#### {_escaped(_headline(experiment))}\n"
        if experiment.changes:
            yield from _table(experiment.changes)


def _table(changes: Iterable[Change]) -> Iterator[str]:
    yield "| line | what | change | so |"
    yield "| --- | --- | --- | --- |"
    for change in changes:
        cells = (
            str(change.line or ""),
            f"{change.kind} {change.what}",
            _in_markdown(change),
            change.consequence or "",
        )
        yield (
            "| "
            + " | ".join(_escaped(c) if n != 2 else c for n, c in enumerate(cells))
            + " |"
        )


def _in_markdown(change: Change) -> str:
    before, after = (_escaped(t) if t else "" for t in (change.before, change.after))
    if not before:
        return f"new: **{after}**"
    return marked(before, after, MARKDOWN_MARKS) if after else f"gone: ~~{before}~~"


def _escaped(text: str) -> str:
    return "".join("\\" + c if c in "|*_~`<>[]" else c for c in text)
