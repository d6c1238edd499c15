"""Where manual.yaml says what it says: the model keeps the values alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from manualgen.model.place import Place
from manualgen.reading.faults import Faults
from manualgen.reading.manual import MAIN, Lines
from manualgen.reading.stretch import joined_lines
from manualgen.reading.yaml_tree import Mapping as Keys
from manualgen.reading.yaml_tree import Node, Scalar, Sequence, compose

CONTROLS = "standing_controls"


@dataclass(frozen=True, slots=True)
class SettingPlaces:
    """The places of what a manual's files set."""

    of: Mapping[str, Place]
    """By the setting's name: ``title``, ``class, groups``, ``house style, units``."""
    controls: tuple[Place, ...]
    """Of each standing control, in order."""

    def control(self, index: int) -> Place | None:
        """The place of a standing control, None where it is not known."""
        return self.controls[index] if index < len(self.controls) else None


def setting_places(file: str, lines: Lines) -> SettingPlaces:
    """The places in a manual's file; what it leaves out stands in manual.yaml."""
    main = str(PurePosixPath(file).with_name(MAIN))
    of: dict[str, Place] = {}
    controls: tuple[Place, ...] = ()
    for name in dict.fromkeys((main, file)):
        root = compose(joined_lines(name, lines.get(name, ()), 1), Faults()).root
        of.update(_keys(root, ""))
        controls = tuple(_controls(root)) or controls
    return SettingPlaces(of, controls)


def _keys(node: Node | None, above: str) -> Iterator[tuple[str, Place]]:
    for key, value in node.pairs if isinstance(node, Keys) else ():
        name = above + key.text.replace("_", " ")
        if isinstance(value, Keys):
            yield from _keys(value, f"{name}, ")
        elif not isinstance(value, Scalar) or value.text:
            yield name, key.place


def _controls(root: Node | None) -> Iterator[Place]:
    for key, value in root.pairs if isinstance(root, Keys) else ():
        if key.text == CONTROLS:
            items = value.items if isinstance(value, Sequence) else (value,)
            yield from (item.place for item in items if isinstance(item, Scalar))
