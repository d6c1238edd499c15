"""``labels.yaml``: the department's own words for those that the tool prints."""

from __future__ import annotations

from collections.abc import Iterator

from manualgen.model.manual import OwnLabel
from manualgen.reading.faults import Faults
from manualgen.reading.yaml_tree import Mapping, Node, Scalar

_FORM = "this file has words by key by language, as in fr: {step: Étape}"


def read_labels(root: Node | None, faults: Faults) -> Iterator[OwnLabel]:
    """The words of labels.yaml; whether a key means anything, a check says."""
    if root is None or (isinstance(root, Scalar) and not root.text):
        return
    if not isinstance(root, Mapping):
        faults.syntax(root.place, _FORM)
        return
    for language, words in root.pairs:
        if isinstance(words, Mapping):
            yield from _of_language(language.text, words, faults)
        else:
            faults.syntax(language.place, _FORM)


def _of_language(language: str, words: Mapping, faults: Faults) -> Iterator[OwnLabel]:
    seen: set[str] = set()
    for key, value in words.pairs:
        if key.text in seen:
            faults.syntax(key.place, f"the key {key.text} stands here twice")
        elif isinstance(value, Scalar) and value.text:
            yield OwnLabel(language, key.text, value.text, key.place)
        else:
            faults.syntax(key.place, f"{key.text} has no words")
        seen.add(key.text)
