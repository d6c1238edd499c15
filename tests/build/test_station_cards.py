"""The stations of the demonstration manual, a card each."""

from __future__ import annotations

import re

import pytest

from tests.build.printed import Demo
from tests.press.readback import links, page_texts

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("edition", ["student", "teacher"])
def test_each_station_has_a_card_of_one_page_beside_the_sheet(
    demo: Demo, edition: str
) -> None:
    with_stations = [
        w.experiment.id
        for w in demo.worked.experiments
        if _labels(demo, w.experiment.id)
    ]
    assert with_stations
    for experiment in with_stations:
        address = f"pdf/{experiment}.stations.pdf"
        assert f'href="{address}"' in demo.html(edition, experiment)
        cards = demo.site / edition / address
        told = [re.findall(r"Station (\w+)", text)[:1] for text in page_texts(cards)]
        assert told == [[label] for label in _labels(demo, experiment)]
        astray = {t for _, t in links(cards) if t.endswith(".html") or "file:" in t}
        assert astray == set()


def _labels(demo: Demo, experiment: str) -> list[str]:
    html = demo.html("student", experiment)
    return re.findall(r'class="part station">\s*<span>Station (\w+)', html)
