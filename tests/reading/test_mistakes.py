"""Many different mistakes in one experiment, one finding for each, at its words."""

from __future__ import annotations

from .shelf import read

TEXT = """\
---
title: Many mistakes
tmie: 70 min
group: two
chemicals:
  - sodium hydroxide, 0.1 mol/dm3, 50 cmn3
  - vinegar, 30 cm3, 5 cm3
apparatus:
  - burette, 50 cm3, clas B
accept:
  - {check: vague-quantity}
---

## Aim

To see what `NaOHx` and `25.0 cmm3` do, with ![a burette](burete.png).

> **Saftey:** Mind the acid.

> **Note:** Mind the tap.
and this line

## Method

1. Begin. [#start]
2. Go on. [#start]
4. End with [_pink.

   > **Note:** Look.
   > **Teacher:** Help here.

```equation ionik
2 H2 + O2 -> 2 H2O
```

```equation
H2 + Cl2 HCl
```

```calculation
m_1 = 2.5 gq
n_1 = m_1 * * 2 -> mol
```

```readings
rows: [1, 2]
columns:
  - {symbol: V, unit: cm3, sample: [1.0, 2.0, 3.0]}
mean: {of: Vt}
```

<center>The end</center>
"""

EXPECTED = [
    ("source-syntax", "tmie"),
    ("source-syntax", "two"),
    ("unit-unknown", "cmn"),
    ("source-syntax", "5 cm3\n"),
    ("source-syntax", "clas B"),
    ("source-syntax", "{check"),
    ("formula-invalid", "Hx` and"),
    ("unit-unknown", "cmm3"),
    ("unknown-reference", "![a"),
    ("source-syntax", "Saftey"),
    ("source-syntax", "and this line"),
    ("duplicate-id", "2. Go on"),
    ("source-syntax", "4. End"),
    ("source-syntax", "[_pink"),
    ("source-syntax", "**Teacher"),
    ("source-syntax", "ionik"),
    ("source-syntax", "H2 + Cl2 HCl"),
    ("unit-unknown", "gq"),
    ("source-syntax", "* 2 ->"),
    ("source-syntax", "1.0, 2.0"),
    ("calculation-undefined", "Vt}"),
    ("source-syntax", "<center>"),
]


def test_every_mistake_is_one_finding_at_its_own_words() -> None:
    page = read(TEXT)
    found = sorted((check, at) for check, at, _ in page.faults)
    assert found == sorted((check, page.at(words)) for check, words in EXPECTED)


def test_each_finding_says_what_is_wrong_in_a_sentence_without_type_names() -> None:
    for noted in read(TEXT).experiment.noted:
        message = noted.fault.message
        assert len(message.split()) >= 3
        assert "invalid" not in message
        assert "Error" not in message
        assert "None" not in message
