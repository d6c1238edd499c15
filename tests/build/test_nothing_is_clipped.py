"""What the teacher's edition writes into its places is all to be seen.

The places have fixed sizes, so that both editions break alike, and cut off what
does not fit: measured in the browser, as the press lays the pages out.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright

from manualgen.build.edition import EditionName, files_of, lay_out_edition, write_files
from manualgen.build.site import picture_from
from manualgen.press.browser import is_root
from manualgen.press.chromium import find_chromium
from manualgen.sources import Folder
from tests.build.printed import Demo

PAGE_PX = 178 / 25.4 * 96
"""The width of a page's text on A4."""

OVER_PX = """() => {
  const inside = element => {
    const range = document.createRange();
    range.selectNodeContents(element);
    return range.getBoundingClientRect();
  };
  const found = [];
  let looked = 0;
  const look = (where, over) => {
    for (const element of document.querySelectorAll(where)) {
      if (!element.textContent.trim()) continue;
      looked += 1;
      const px = over(inside(element), element.getBoundingClientRect());
      if (px > 1.5) found.push(`${where} ${element.textContent.trim()}: ${px}`);
    }
  };
  const sideways = (text, place) => Math.max(text.right - place.right, place.left - text.left);
  const below = (text, place) => text.bottom - place.bottom;
  look(".gap", sideways);
  look(".result", sideways);
  look(".working", sideways);
  look(".readings .filled", sideways);
  look(".working", below);
  look(".frame", below);
  return [looked, found];
}"""


@pytest.mark.browser
@pytest.mark.parametrize("large", [False, True])
def test_nothing_that_is_filled_in_is_cut_off(
    demo: Demo, tmp_path: Path, large: bool
) -> None:
    edition = replace(
        lay_out_edition(demo.worked, EditionName.TEACHER, pdf=False), large=large
    )
    content = demo.site.parent / "content"
    write_files(tmp_path / "pages", files_of(edition, picture_from(Folder(content))))
    cut: dict[str, list[str]] = {}
    looked_at = 0
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=find_chromium(), chromium_sandbox=not is_root()
        )
        page = browser.new_page(viewport={"width": round(PAGE_PX), "height": 900})
        page.emulate_media(media="print")
        for experiment in demo.experiments:
            page.goto((tmp_path / "pages" / f"{experiment}.html").as_uri())
            page.evaluate(
                "Promise.all([...document.fonts].map(f => f.load())).then(() => 0)"
            )
            looked, cut[experiment] = page.evaluate(OVER_PX)
            looked_at += looked
        browser.close()
    assert looked_at > 500
    assert {name: found for name, found in cut.items() if found} == {}
