"""The pieces by name, and the names under which an author may ask for them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Final, TypeAlias

import yaml

from manualgen.drawing.apparatus import (
    distilling,
    electrical,
    funnels,
    glass,
    heating,
    holding,
    lines,
    measuring,
    open_ware,
)
from manualgen.drawing.contents import UNKNOWN, Kind
from manualgen.drawing.shape import Shape

Draw: TypeAlias = Callable[[float], Shape]

SMALLEST: Final = 0.74
LARGEST: Final = 1.3
BATH: Final = 0.6
"""A drawing shows that one beaker is larger than another, not by how much."""


@dataclass(frozen=True, slots=True)
class Drawable:
    """How a piece is drawn, and the capacity that it is drawn for."""

    draw: Draw
    usual_cm3: float | None = None
    level: float = UNKNOWN
    """How full it is where nobody says."""

    def of(self, capacity_cm3: float | None) -> Shape:
        """The piece at a size that tells its capacity from another's."""
        if capacity_cm3 is None or self.usual_cm3 is None:
            return self.draw(1.0)
        scale = float((capacity_cm3 / self.usual_cm3) ** (1 / 3))
        return self.draw(min(LARGEST, max(SMALLEST, scale)))


PIECES: Final[Mapping[str, Drawable]] = MappingProxyType(
    {
        "beaker": Drawable(glass.beaker, 250),
        "conical flask": Drawable(glass.conical_flask, 250),
        "round-bottomed flask": Drawable(glass.round_bottomed_flask, 100),
        "flat-bottomed flask": Drawable(glass.flat_bottomed_flask, 250),
        "pear-shaped flask": Drawable(glass.pear_shaped_flask, 50),
        "volumetric flask": Drawable(glass.volumetric_flask, 250),
        "filter flask": Drawable(glass.filter_flask, 250),
        "boiling tube": Drawable(glass.boiling_tube, 40),
        "test-tube": Drawable(glass.test_tube, 15),
        "ignition tube": Drawable(glass.ignition_tube),
        "side-arm test-tube": Drawable(glass.side_arm_tube, 40),
        "U-tube": Drawable(glass.u_tube),
        "measuring cylinder": Drawable(glass.measuring_cylinder, 50),
        "gas jar": Drawable(glass.gas_jar),
        "reagent bottle": Drawable(glass.reagent_bottle, 250),
        "weighing bottle": Drawable(glass.weighing_bottle),
        "weighing boat": Drawable(open_ware.weighing_boat),
        "trough": Drawable(open_ware.trough, level=BATH),
        "crystallising dish": Drawable(open_ware.crystallising_dish),
        "Petri dish": Drawable(open_ware.petri_dish),
        "evaporating basin": Drawable(open_ware.evaporating_basin, 100),
        "crucible": Drawable(open_ware.crucible, 25),
        "crucible lid": Drawable(open_ware.crucible_lid),
        "watch glass": Drawable(open_ware.watch_glass),
        "mortar": Drawable(open_ware.mortar),
        "pestle": Drawable(funnels.pestle),
        "polystyrene cup": Drawable(open_ware.polystyrene_cup, 200),
        "calorimeter": Drawable(open_ware.calorimeter),
        "metal can": Drawable(open_ware.metal_can),
        "water bath": Drawable(open_ware.water_bath, level=BATH),
        "ice bath": Drawable(open_ware.ice_bath, level=BATH),
        "desiccator": Drawable(open_ware.desiccator),
        "chromatography tank": Drawable(open_ware.chromatography_tank, level=0.14),
        "burette": Drawable(measuring.burette),
        "pipette": Drawable(measuring.pipette),
        "dropping pipette": Drawable(measuring.dropping_pipette),
        "syringe": Drawable(measuring.syringe),
        "gas syringe": Drawable(measuring.gas_syringe),
        "thermometer": Drawable(measuring.thermometer),
        "probe": Drawable(measuring.probe),
        "balance": Drawable(measuring.balance),
        "meter": Drawable(measuring.meter),
        "colorimeter": Drawable(measuring.colorimeter),
        "filter funnel": Drawable(funnels.filter_funnel),
        "filter funnel with filter paper": Drawable(funnels.with_filter_paper),
        "separating funnel": Drawable(funnels.separating_funnel),
        "dropping funnel": Drawable(funnels.dropping_funnel),
        "thistle funnel": Drawable(funnels.thistle_funnel),
        "Büchner funnel": Drawable(funnels.buchner_funnel),
        "drying tube": Drawable(lines.drying_tube),
        "filter pump": Drawable(lines.filter_pump),
        "rubber tubing": Drawable(lines.rubber_tubing),
        "hard-glass tube": Drawable(lines.hard_glass_tube),
        "glass rod": Drawable(funnels.glass_rod),
        "stirrer": Drawable(funnels.stirrer),
        "condenser": Drawable(distilling.condenser),
        "air condenser": Drawable(distilling.air_condenser),
        "still head": Drawable(distilling.still_head),
        "receiver adapter": Drawable(distilling.receiver_adapter),
        "fractionating column": Drawable(distilling.fractionating_column),
        "burner": Drawable(heating.burner),
        "spirit burner": Drawable(heating.spirit_burner),
        "tripod": Drawable(heating.tripod),
        "gauze": Drawable(heating.gauze),
        "pipeclay triangle": Drawable(heating.pipeclay_triangle),
        "hot plate": Drawable(heating.hot_plate),
        "magnetic stirrer": Drawable(heating.magnetic_stirrer),
        "heating mantle": Drawable(heating.heating_mantle),
        "heat-resistant mat": Drawable(heating.heat_resistant_mat),
        "splint": Drawable(heating.splint),
        "clamp stand": Drawable(holding.clamp_stand),
        "test-tube rack": Drawable(holding.tube_rack),
        "white tile": Drawable(holding.white_tile),
        "wooden block": Drawable(holding.wooden_block),
        "bung": Drawable(holding.loose_bung),
        "filter paper": Drawable(holding.paper_disc),
        "plug": Drawable(holding.plug),
        "lid": Drawable(holding.lid),
        "thread": Drawable(holding.thread),
        "wire": Drawable(holding.wire),
        "electrode": Drawable(electrical.electrode),
        "metal strip": Drawable(electrical.strip),
        "electrodes": Drawable(electrical.electrodes),
        "salt bridge": Drawable(electrical.salt_bridge),
        "power pack": Drawable(electrical.power_pack),
        "battery": Drawable(electrical.battery),
        "ammeter": Drawable(electrical.ammeter),
        "voltmeter": Drawable(electrical.voltmeter),
        "lamp": Drawable(electrical.lamp),
    }
)


_SAYS_MORE: Final = ("with", "and", "containing", "avec", "et")
"""A word before which a piece stands that is not passed over."""


def piece_named(words: str) -> str | None:
    """The piece that an author's words mean, or None; words before it are passed over."""
    return _named(words, _names("pieces"))


def joint_named(words: str) -> str | None:
    """The way of joining that an author's words mean, or None."""
    return _named(words, _names("joints"))


def nearest_pieces(words: str) -> tuple[str, ...]:
    """Up to three names of pieces that are written nearly so."""
    names = _names("pieces")
    head = _plain(words).partition(" with ")[0]
    close = get_close_matches(head, names, n=6, cutoff=0.7)
    return tuple(dict.fromkeys(names[name] for name in close))[:3]


def kind_named(words: str) -> Kind:
    """What a content of this name looks like: a solid where no word tells."""
    plain = f" {_plain(words)} "
    for kind, key in ((Kind.ICE, "ice"), (Kind.LIQUID, "liquids"), (Kind.GAS, "gases")):
        if any(f" {word} " in plain for word in _words(key)):
            return kind
    return Kind.SOLID


def _named(words: str, names: Mapping[str, str]) -> str | None:
    parts = _plain(words).split()
    for start in range(len(parts)):
        if start and parts[start - 1] in _SAYS_MORE:
            return None
        for tail in _singulars(" ".join(parts[start:])):
            if tail in names:
                return names[tail]
    return None


def _singulars(words: str) -> Iterator[str]:
    yield words
    if words.endswith("es"):
        yield words[:-2]
    if words.endswith("s"):
        yield words[:-1]


def _plain(words: str) -> str:
    return " ".join(words.casefold().replace("-", " ").split())


@cache
def _names(table: str) -> Mapping[str, str]:
    """Every name and other name, in plain writing, to the piece's own name."""
    rows: list[dict[str, Any]] = _table()[table]
    return {
        _plain(name): row["name"]
        for row in rows
        for name in (row["name"], *row["also"], *row.get("fr", ()))
    }


@cache
def _words(key: str) -> tuple[str, ...]:
    return tuple(_table()[key])


@cache
def _table() -> Mapping[str, Any]:
    text = (files("manualgen") / "data" / "drawings.yaml").read_text(encoding="utf-8")
    table: dict[str, Any] = yaml.load(text, Loader=yaml.CBaseLoader)
    return table
