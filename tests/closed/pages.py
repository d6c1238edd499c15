"""Everything that would be shown of a manual, whether or not a build would allow it."""

from __future__ import annotations

import re

from manualgen.build.edition import EditionName, files_of, lay_out_edition
from manualgen.working.worked import Worked
from tests.closed.inspection import reaching_out
from tests.pages.reading_html import read

SPOKEN_SCRIPT = re.compile(r"</script|<!--", re.IGNORECASE)
WORKED_OUT = "1337"
"""What `{{ 7 * 191 }}` would come to."""


def shown_of(worked: Worked) -> dict[str, str]:
    """The pages and the search of both editions, as a preview shows them too."""
    return {
        f"{name.value}/{path}": make().decode()
        for name in EditionName
        for path, make in files_of(
            lay_out_edition(worked, name, pdf=False), lambda _: b""
        ).items()
        if path.endswith((".html", "search-index.js"))
    }


def open_doors(pages: dict[str, str]) -> list[str]:
    """What in the pages runs, reaches outside, or is not the page that was meant."""
    found: list[str] = []
    for path, text in pages.items():
        if path.endswith(".js"):
            found += [f"{path}: {m[0]}" for m in SPOKEN_SCRIPT.finditer(text)]
            continue
        page = read(text)
        found += [f"{path}: {each}" for each in (*reaching_out(text), *page.faults)]
        found += [f"{path}: two #{i}" for i, times in page.ids.items() if times > 1]
        if WORKED_OUT in "".join(page.words):
            found.append(f"{path}: a template worked out what an author wrote")
    return found
