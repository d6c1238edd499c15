"""`check --fix` leaves every byte but those it mends, however the file was written."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from manualgen.cli import main

MANUAL = "title: T\nparts:\n  - title: All\n    experiments: [salt]\n"
MENDS = {
    "sulphate": "sulfate",
    "Sulphur": "Sulfur",
    "12 gms": "12 g",
    "Fe2+": "Fe^2+",
    "SO42-": "SO4^2-",
}
"""Writings that are mended, and what they become."""

ENDS = ("\n", "\r\n", "\r")
FILLERS = [
    "a",
    "the salt",
    "œ",
    "𝛥",
    "Ω",
    "  ",
    "\t",
    "&amp;",
    "&#8594;",
    "\\*",
    "\\_",
    "it's",
    "*and*",
    "**so**",
    "[_white_]",
    "`NaCl`",
    "`12 gms`",
    "`Fe2+`",
    "`SO42-`",
    "“”",
    "é",
    "é",
    "\xa0",
    "1 < 2",
]
WORDS = st.lists(
    st.sampled_from(("sulphate", "Sulphur", *FILLERS)), min_size=1, max_size=8
).map(" ".join)
TITLES = st.sampled_from(
    (
        "title: Sulphates and others",
        'title: "A \\"sulphate\\" \\u00e9 sulphate"',
        "title: 'It''s sulphate'",
        "title: >-{end}  Of sulphate{end}  and Sulphur",
        "title:   sulphate   # of sulphate",
    )
)
LISTED = st.sampled_from(
    (
        "  - sodium sulphate, 12 gms",
        '  - "sodium sulphate, 12 gms"',
        "  - {{name: sodium sulphate, amount: 12 gms}}",
        "  - 'sodium ''sulphate'', 12 gms'",
    )
)


@st.composite
def files(draw: st.DrawFn) -> str:
    """An experiment's file, its line ends of one kind or mixed."""
    end = draw(st.sampled_from(ENDS))
    lines = [
        "---",
        draw(TITLES),
        "chemicals:",
        draw(LISTED),
        "---",
        "",
        "## Theory",
        "",
    ]
    for paragraph in draw(st.lists(WORDS, max_size=3)):
        lines += [paragraph, ""]
    lines += ["## Method", "", "1. " + draw(WORDS), "", "> **Note:** " + draw(WORDS)]
    is_mixed = draw(st.booleans())
    ends = [draw(st.sampled_from(ENDS)) if is_mixed else end for _ in lines]
    if not draw(st.booleans()):
        ends[-1] = ""
    text = "".join(line + e for line, e in zip(lines, ends, strict=True))
    bom = "\ufeff" if draw(st.booleans()) else ""
    return bom + text.replace("{end}", end).replace("{{", "{").replace("}}", "}")


TOKEN = re.compile("|".join(map(re.escape, MENDS)), re.IGNORECASE)


def only_mends(before: str, after: str) -> bool:
    """Whether each writing was mended or left, and nothing else was touched."""
    pattern = []
    position = 0
    for found in TOKEN.finditer(before):
        pattern.append(re.escape(before[position : found.start()]))
        mend = mended(found[0])
        pattern.append(f"(?:{re.escape(found[0])}|{re.escape(mend)})")
        position = found.end()
    pattern.append(re.escape(before[position:]))
    return re.fullmatch("".join(pattern), after, re.DOTALL) is not None


def mended(word: str) -> str:
    for other, house in (("sulph", "sulf"), ("Sulph", "Sulf")):
        word = word.replace(other, house)
    return MENDS.get(word, word)


@settings(max_examples=60)
@given(files())
@example(
    "---\rtitle: Sulphates\r---\r\r## Method\r\r1. Look at `12 gms` of sulphate.\r"
)
@example(
    "\ufeff---\r\ntitle: 'It''s sulphate'\r\n---\r\n\r\n## Method\r\n\r\n1. A &amp; sulphate"
)
def test_nothing_but_the_mends_is_touched_and_a_second_time_nothing(text: str) -> None:
    with tempfile.TemporaryDirectory() as folder:
        content = Path(folder)
        (content / "manual.yaml").write_bytes(MANUAL.encode())
        path = content / "salt.md"
        path.write_bytes(text.encode())
        main(["check", str(content), "--fix", "--jobs", "1"])
        once = path.read_bytes()
        assert only_mends(text, once.decode()), (text, once.decode())
        main(["check", str(content), "--fix", "--jobs", "1"])
        assert path.read_bytes() == once
        assert sorted(p.name for p in content.iterdir()) == ["manual.yaml", "salt.md"]


def test_a_link_to_the_file_stays_a_link(tmp_path: Path) -> None:
    content = tmp_path / "content"
    (content / "kept").mkdir(parents=True)
    (content / "manual.yaml").write_text(MANUAL)
    kept = content / "kept" / "salt.txt"
    kept.write_text("---\ntitle: Sulphates\n---\n\n## Method\n\n1. Look.\n")
    (content / "salt.md").symlink_to("kept/salt.txt")
    main(["check", str(content), "--fix"])
    assert (content / "salt.md").is_symlink()
    assert "title: Sulfates" in kept.read_text()
