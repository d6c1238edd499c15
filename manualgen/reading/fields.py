"""The keys of a mapping: known ones, unknown ones, and those that stand twice."""

from __future__ import annotations

from collections.abc import Collection

from manualgen.reading.faults import Faults
from manualgen.reading.stretch import Stretch
from manualgen.reading.yaml_tree import Mapping, Node, Scalar, Sequence


class Fields:
    """A mapping whose keys have been looked over.

    A key without a value counts as left out.
    """

    def __init__(
        self, mapping: Mapping, known: Collection[str], faults: Faults, what: str
    ) -> None:
        self.place = mapping.place
        self._faults = faults
        self._values: dict[str, Node] = {}
        self._misspelt: set[str | None] = set()
        seen: set[str] = set()
        for key, value in mapping.pairs:
            if key.text not in known:
                near = faults.unknown(key.place, f"key {what}", key.text, known)
                self._misspelt.add(near)
            elif key.text in seen:
                faults.syntax(key.place, f"the key {key.text} stands here twice")
            elif not (isinstance(value, Scalar) and not value.text):
                self._values[key.text] = value
            seen.add(key.text)

    def lacks(self, key: str) -> bool:
        """Whether a key is left out, and not merely misspelt, which is noted."""
        return key not in self._values and key not in self._misspelt

    def node(self, key: str) -> Node | None:
        """The value of a key, whatever it is."""
        return self._values.get(key)

    def text(self, key: str) -> Stretch | None:
        """The value of a key that has to be a word or a phrase."""
        match self._values.get(key):
            case None:
                return None
            case Scalar(stretch=stretch):
                return stretch
            case node:
                self._faults.syntax(node.place, f"{key} is one value, not a list")
                return None

    def string(self, key: str) -> str | None:
        """The same as a mere string."""
        text = self.text(key)
        return text.text if text else None

    def items(self, key: str) -> tuple[Node, ...]:
        """The values of a key that is a list; one alone may stand without its dash."""
        match self._values.get(key):
            case None:
                return ()
            case Sequence(items=items):
                return items
            case node:
                return (node,)

    def texts(self, key: str) -> tuple[Stretch, ...]:
        """The values of a key that is a list of words or phrases."""
        found = []
        for item in self.items(key):
            if isinstance(item, Scalar):
                found.append(item.stretch)
            else:
                message = f"{key} is a list of words; put quotes around this one"
                self._faults.syntax(item.place, message)
        return tuple(found)

    def fields(self, key: str, known: Collection[str]) -> Fields | None:
        """The value of a key that is a mapping itself."""
        match self._values.get(key):
            case None:
                return None
            case Mapping() as mapping:
                return Fields(mapping, known, self._faults, f"of {key}")
            case node:
                message = f"{key} has keys of its own: {', '.join(known)}"
                self._faults.syntax(node.place, message)
                return None

    def flag(self, key: str, *, default: bool = False) -> bool:
        """The value of a key that is true or false."""
        text = self.text(key)
        if text is None:
            return default
        if text.text.casefold() in ("true", "yes"):
            return True
        if text.text.casefold() not in ("false", "no"):
            self._faults.syntax(text.place(), f"{key} is true or false")
        return False
