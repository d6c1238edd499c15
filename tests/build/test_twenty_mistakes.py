"""A manual with twenty mistakes: each is found, at its line, and nothing is built."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from manualgen.cli import main

EXPERIMENT = """\
---
title: Twenty mistakes
time: 30 gms
chemicls:
  - water, 5 cm3
chemicals:
  - sodium chloride, 0.1 mool/dm3, 5 cm3
accept:
  - {check: equation-unbalanced}
---

## Theory

The formula is `Xy2O`, it is said.

It is `25 foos` that we need.

It weighs `12 gms` in all.

```equation #one
Al(s) + O2(g) -> Al2O3(s)
```

```equation #two
Fe^3+(aq) + Cu(s) -> Fe^2+(aq) + Cu^2+(aq)
```

```equation #three
Mg(s) + O2(g) -> MgCO3(s)
```

```equation #four
2 KOH(aq) + 2 HCl(aq) -> 2 KCl(aq) + 2 H2O(l)
```

```equation #one
Ca(s) + S(s) -> CaS(s)
```

```equation never-heard-of
Ca(s) + S(s) -> CaS(s)
```

```recipe
salt
```

See [Table](#nowhere) and [another](elsewhere.md).

![A flask](images/flask.png)

> **Safty:** Take care.

> **Safety:** Take care. **Teacher:** They never do.

A link [out](javascript:alert(1)) is refused.

<b>Raw</b> HTML is refused.

## Method

1. Look.

2. Look again.

4. Look a third time.
"""

EXPECTED = (
    ("unit-dimension", "time: 30 gms"),
    ("source-syntax", "chemicls:"),
    ("unit-unknown", "0.1 mool/dm3"),
    ("source-syntax", "{check: equation-unbalanced}"),
    ("formula-invalid", "`Xy2O`"),
    ("unit-unknown", "`25 foos`"),
    ("unit-style", "`12 gms`"),
    ("equation-unbalanced", "Al(s) + O2(g)"),
    ("equation-charge", "Fe^3+(aq)"),
    ("equation-impossible", "MgCO3(s)"),
    ("equation-coefficients", "2 KOH(aq)"),
    ("duplicate-id", "```equation #one"),
    ("source-syntax", "never-heard-of"),
    ("source-syntax", "```recipe"),
    ("unknown-reference", "[Table](#nowhere)"),
    ("unknown-reference", "[another](elsewhere.md)"),
    ("unknown-reference", "images/flask.png"),
    ("source-syntax", "**Safty:**"),
    ("source-syntax", "**Teacher:** They never do."),
    ("source-syntax", "javascript:"),
    ("source-syntax", "<b>Raw</b>"),
    ("source-syntax", "4. Look a third time."),
)


@pytest.fixture
def broken(content: Callable[[Mapping[str, str]], Path]) -> Path:
    return content({"twenty.md": EXPERIMENT})


def test_each_mistake_is_found_once_at_its_words(
    broken: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(broken), "--format", "json"]) == 1
    told = json.loads(capsys.readouterr().out)["findings"]
    ours = [f for f in told if f["check"] in {check for check, _ in EXPECTED}]
    found = [(f["check"], f["line"]) for f in ours]
    assert sorted(found) == sorted((c, _line_of(words)) for c, words in EXPECTED)


def _line_of(words: str) -> int:
    lines = EXPERIMENT.splitlines()
    found = [n for n, line in enumerate(lines, start=1) if words in line]
    return found[-1] if words.startswith("```equation #one") else found[0]


@pytest.mark.browser
def test_a_manual_with_mistakes_leaves_the_last_site_as_it_was(
    broken: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    site = tmp_path / "site"
    whole = tmp_path / "whole"
    whole.mkdir()
    (whole / "manual.yaml").write_text(
        "title: T\nparts:\n  - title: All\n    experiments: [look]\n"
    )
    (whole / "look.md").write_text("---\ntitle: Look\n---\n\n## Method\n\n1. Look.\n")
    assert main(["build", str(whole), "--out", str(site)]) == 0
    before = _bytes_in(site)

    assert main(["build", str(broken), "--out", str(site)]) == 1

    assert _bytes_in(site) == before
    assert "nothing was built" in capsys.readouterr().err


def _bytes_in(folder: Path) -> dict[str, bytes]:
    return {
        str(p.relative_to(folder)): p.read_bytes()
        for p in folder.rglob("*")
        if p.is_file()
    }
