"""What is painted outside the tags is marked, and nothing else is changed."""

import pytest

from manualgen.press.artefacts import Content


def lines(text: str) -> bytes:
    return "\n".join(line.strip() for line in text.strip().splitlines()).encode()


# What is before the first clip is a margin box's, as Chromium draws them.
HEAD = "q\nBT\n/F4 12 Tf\n<14> Tj\nET\nQ\nq\n0 0 9 9 re\nW* n"


def test_a_margin_box_is_an_artefact_of_pagination() -> None:
    marked = Content(HEAD.encode()).with_artefacts()
    assert marked.startswith(b"q\n/Artifact <</Type /Pagination>> BDC\nBT\n")
    assert marked.endswith(b"ET\nEMC\nQ\nq\n0 0 9 9 re\nW* n")


@pytest.mark.parametrize(
    "painted",
    ["0 0 5 1 re\nf", "0 0 m\n5 0 l\nS", "/X5 Do", "BT\n<14> Tj\nET"],
    ids=["filled", "stroked", "an image", "text"],
)
def test_what_is_painted_after_it_is_an_artefact_of_layout(painted: str) -> None:
    marked = Content(f"0 0 9 9 re\nW* n\n{painted}\nQ".encode()).with_artefacts()
    assert marked.decode() == (
        f"0 0 9 9 re\nW* n\n/Artifact <</Type /Layout>> BDC\n{painted}\nEMC\nQ"
    )


@pytest.mark.parametrize(
    "stream",
    [
        "0 0 9 9 re\nW* n",
        "/P <</MCID 0 >>BDC\nBT\n<14> Tj\nET\nEMC",
        "BT\n/P <</MCID 0 >>BDC\n<14> Tj\nEMC\nET",
        "/P <</MCID 0 >>BDC\nBT\n/Span<</ActualText (fi) >> BDC\n<9F> Tj\nEMC\nET\nEMC",
        "/P <</MCID 0 >>BDC\n0 0 5 1 re\nf\nQ\nQ\nEMC",
        "/Artifact <</Type /Layout>> BDC\n0 0 5 1 re\nf\nEMC",
        "",
    ],
    ids=[
        "a clip",
        "tagged",
        "tagged within",
        "a ligature",
        "across Q",
        "marked",
        "empty",
    ],
)
def test_what_needs_no_mark_gets_none(stream: str) -> None:
    assert Content(stream.encode()).with_artefacts().decode() == stream


def test_text_with_a_ligature_outside_the_tags_is_marked_as_a_whole() -> None:
    text = "BT\n/Span<</ActualText (fi) >> BDC\n<9F> Tj\nEMC\nET"
    marked = Content(text.encode()).with_artefacts()
    assert marked.startswith(b"/Artifact")
    assert marked.endswith(b"ET\nEMC")


def test_marks_of_frames_and_rules_are_told_from_those_of_words() -> None:
    stream = lines(
        """
        /Table <</MCID 0 >>BDC
        0 0 5 1 re
        f
        EMC
        /P <</MCID 1 >>BDC
        BT
        <14> Tj
        ET
        EMC
        /Figure <</MCID 2 >>BDC
        /X5 Do
        EMC
        """
    )
    assert Content(stream).wordless_marks() == {0}


def test_a_wordless_mark_becomes_an_artefact() -> None:
    stream = b"/Table <</MCID 0 >>BDC\n0 0 5 1 re\nf\nEMC"
    assert Content(stream).with_artefacts({0}) == (
        b"/Artifact <</Type /Layout>> BDC\n0 0 5 1 re\nf\nEMC"
    )
