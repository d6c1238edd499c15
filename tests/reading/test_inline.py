"""Running text, each piece of it at its own line and column."""

from __future__ import annotations

import pytest

from manualgen.chemistry import parse_formula
from manualgen.model.blocks import ListBlock, Paragraph, PipeTable
from manualgen.model.text import (
    Blank,
    Emphasis,
    EquationSpan,
    FormulaSpan,
    Inline,
    LineBreak,
    OutsideLink,
    Picture,
    QuantitySpan,
    Reference,
    UnreadSpan,
    ValueSpan,
    Words,
)
from manualgen.model.walk import inlines, plain
from manualgen.quantities import parse_quantity

from .shelf import (
    Page,
    Unreadable,
    read,
    read_body,
    read_method,
    read_questions,
    shown,
    where,
)


def content(page: Page) -> tuple[Inline, ...]:
    block = page.block
    assert isinstance(block, Paragraph)
    return block.content


@pytest.mark.parametrize(
    ("source", "formula", "state"),
    [
        ("H2SO4", "H2SO4", None),
        ("Na2CO3.10H2O", "Na2CO3·10H2O", None),
        ("Na2CO3·10H2O", "Na2CO3·10H2O", None),
        ("[Cu(NH3)4]^2+", "[Cu(NH3)4]^2+", None),
        ("SO₄²⁻", "SO4^2-", None),
        ("NH4+", "NH4^+", None),
        ("e-", "e^-", None),
        ("NaCl(aq)", "NaCl", "aq"),
        ("MgSO4·xH2O", "MgSO4·xH2O", None),
        ("HIn", "HIn", None),
    ],
)
def test_a_formula_in_backticks_is_read(
    source: str, formula: str, state: str | None
) -> None:
    (span,) = content(read_body(f"`{source}`"))
    assert isinstance(span, FormulaSpan)
    assert span.formula == parse_formula(formula)
    assert (span.state, span.source) == (state, source)


def test_an_equation_in_the_line_is_read() -> None:
    (span,) = content(read_body("`2 H2O2(aq) -> 2 H2O(l) + O2(g)`"))
    assert isinstance(span, EquationSpan)
    assert str(span.equation) == "2 H2O2(aq) -> 2 H2O(l) + O2(g)"


@pytest.mark.parametrize(
    "source",
    [
        "25.0 cm3",
        "0.100 mol/dm3",
        "25.00 ± 0.06 cm3",
        "20 to 25 °C",
        "4.29 × 10^-5 mol/dm3",
        "−75 kJ/mol",
    ],
)
def test_a_quantity_in_backticks_is_read(source: str) -> None:
    (span,) = content(read_body(f"`{source}`"))
    assert isinstance(span, QuantitySpan)
    assert span.quantity == parse_quantity(source)


def test_a_computed_value_is_named() -> None:
    (span,) = content(read_body("`value of c_acid`"))
    assert isinstance(span, ValueSpan)
    assert span.symbol == "c_acid"


def test_a_blank_holds_words_and_spans() -> None:
    page = read_body("It turns [_pale `Cu^2+` green_] here.")
    _, blank, _ = content(page)
    assert isinstance(blank, Blank)
    assert plain(blank.content) == "pale Cu^2+ green"
    assert shown(blank.place, page.text) == "[_pale `Cu^2+` green_]"
    assert shown(blank.content[1].place, page.text) == "Cu^2+"


@pytest.mark.parametrize(
    ("written", "experiment", "name"),
    [
        ("[Safety](#hot-flask)", None, "hot-flask"),
        ("[Vinegar](vinegar.md)", "vinegar", None),
        ("[Table](../tests/rates.md#titres)", "rates", "titres"),
    ],
)
def test_a_link_inside_the_manual_is_a_cross_reference(
    written: str, experiment: str | None, name: str | None
) -> None:
    others = {"acids/vinegar.md": "", "tests/rates.md": ""}
    page = read_body(written, others)
    (reference,) = content(page)
    assert isinstance(reference, Reference)
    assert (reference.experiment, reference.name) == (experiment, name)
    assert shown(reference.place, page.text) == written
    assert not page.faults


def test_links_outside_go_to_https() -> None:
    page = read_body("[data](https://example.org/a?b=c#d) and <https://example.org>")
    first, _, second = content(page)
    assert isinstance(first, OutsideLink)
    assert isinstance(second, OutsideLink)
    assert first.address == "https://example.org/a?b=c#d"
    assert shown(second.place, page.text) == "<https://example.org>"
    assert shown(second.content[0].place, page.text) == "https://example.org"


def test_emphasis_is_italic_or_bold_and_knows_its_signs() -> None:
    page = read_body("some *slow* and **very __bold__** words")
    italic, bold = (i for i in content(page) if isinstance(i, Emphasis))
    assert (italic.strong, shown(italic.place, page.text)) == (False, "*slow*")
    assert (bold.strong, shown(bold.place, page.text)) == (True, "**very __bold__**")
    inner = bold.content[1]
    assert shown(inner.place, page.text) == "__bold__"


def test_the_end_of_a_line_is_kept_apart_from_words() -> None:
    page = read_body("one\ntwo  \nthree")
    first, soft, second, hard, third = content(page)
    assert isinstance(soft, LineBreak)
    assert isinstance(hard, LineBreak)
    assert (soft.hard, hard.hard) == (False, True)
    words = [shown(w.place, page.text) for w in (first, second, third)]
    assert words == ["one", "two", "three"]


def test_an_escaped_sign_does_not_move_the_words_behind_it() -> None:
    page = read_body(r"a \* b &amp; c `NaCl`")
    assert plain(content(page)) == "a * b & c NaCl"
    for inline in content(page):
        if isinstance(inline, Words) and len(inline.text) > 1:
            assert shown(inline.place, page.text) == inline.text
    assert shown(content(page)[-1].place, page.text) == "NaCl"


def test_numbers_in_brackets_are_words_outside_questions() -> None:
    assert plain(content(read_body("as in reference [2]"))) == "as in reference [2]"


def test_a_picture_in_the_line_is_a_picture() -> None:
    page = read_body("see ![the burette](../images/b.png) here", {"images/b.png": b""})
    picture = content(page)[1]
    assert isinstance(picture, Picture)
    assert (picture.file, picture.description) == ("images/b.png", "the burette")


PLACED = [
    "Text with `Xx1` in it",
    "**bold `Xx1`** text",
    "two lines\nand then `Xx1` here",
    "two lines  \n   indented `Xx1` here",
    "a [_blank `Xx1` inside_] it",
    "[link `Xx1`](#x)",
    "an escape \\* before `Xx1`",
    "an entity &deg; before `Xx1`",
    "`` NaCl `` `Xx1`",
    "> **Note:** a box\n> with `Xx1` in it",
    "> **Note:** a box\n>\n> - a list\n>   with `Xx1` in it",
    "- item\n\n  more of it `Xx1`",
    "- item\n  - nested `Xx1`",
    "1. item\n\n   > **Note:** boxed `Xx1`",
    "\t- item `Xx1`".replace("\t", " "),
    "-\titem `Xx1`",
    "| a | b |\n| - | - |\n| `NaCl` | `Xx1` |",
    "| a | b |\n| - | - |\n| a \\| b | [_`Xx1`_] |",
    "| a | `Xx1` |\n| - | - |\n| c | d |",
    "a | b\n- | -\n  c | `Xx1`",
    "> **Note:** t\n>\n> | a | b |\n> | - | - |\n> | c | `Xx1` |",
    "- | a | b |\n  | - | - |\n  | c | `Xx1` |",
    "### A heading of `Xx1`",
    "A heading of `Xx1`\n---",
    "```calculation\nx = 2 g # from `Xx1`\n```",
    "- a\n\n  ```calculation\n  x = 2 g # from `Xx1`\n  ```",
    "> **Note:** t\n> ```calculation\n> x = 2 g # from `Xx1`\n> ```",
    "![p](p.png)\nits caption `Xx1`",
    "ünï°öde — `Xx1`",
    "𝛼 beyond the first plane `Xx1`",
]


@pytest.mark.parametrize("body", PLACED)
def test_a_span_is_found_at_its_own_column_wherever_it_stands(body: str) -> None:
    page = read_body(body, {"acids/p.png": b""})
    assert [(c, w) for c, w, _ in page.faults] == [("formula-invalid", page.at("Xx1"))]


@pytest.mark.parametrize(
    "body",
    [
        "1. a step with `Xx1`",
        "1. a step\n2. another\n\n   | a | b |\n   | - | - |\n   | c | `Xx1` |",
        "### Lesson 1\n\n1. step\n   goes on with `Xx1`",
    ],
)
def test_spans_in_steps_are_found_at_their_own_column(body: str) -> None:
    page = read_method(body)
    assert [w for _, w, _ in page.faults] == [page.at("Xx1")]


@pytest.mark.parametrize(
    "body",
    [
        "1. Why `Xx1`? [2]",
        "1. Why? [1]\n\n   > **Answer:** since `Xx1` [1]",
        "1. Why?\n   1. A part [1]\n      > **Answer (2 lines):**\n      > since `Xx1`",
    ],
)
def test_spans_in_questions_are_found_at_their_own_column(body: str) -> None:
    page = read_questions(body)
    assert [w for _, w, _ in page.faults] == [page.at("Xx1")]


def test_a_span_over_two_lines_is_one_span() -> None:
    page = read_body("a long `25.0\ncm3` quantity")
    span = content(page)[1]
    assert isinstance(span, QuantitySpan)
    assert shown(span.place, page.text) == "25.0\ncm3"


def test_the_column_is_that_of_the_letters_at_fault() -> None:
    page = read_body("Weigh `2.50 gq` of it and `NaXx` too")
    assert page.faults == [
        ("unit-unknown", page.at("gq"), "g"),
        ("formula-invalid", page.at("Xx"), None),
    ]


def test_a_span_of_more_than_a_paragraph_is_no_formula() -> None:
    page = read_body("`" + "a" * 600 + "`")
    assert [(c, w) for c, w, _ in page.faults] == [("formula-invalid", page.at("aaa"))]


def test_an_unread_span_keeps_what_was_typed() -> None:
    (span,) = content(read_body("`hello world`"))
    assert isinstance(span, UnreadSpan)
    assert span.source == "hello world"


@pytest.mark.parametrize(
    ("source", "check", "mend"),
    [
        ("25.0 cmm", "unit-unknown", "cm"),
        ("2 NaOH", "formula-invalid", "NaOH"),
        ("H2 + O2 = H2O", "formula-invalid", "->"),
        ("Fe2+", "formula-invalid", "^2+"),
    ],
)
def test_what_parses_as_nothing_is_a_finding_with_its_mend(
    source: str, check: str, mend: str
) -> None:
    ((found, _, advice),) = read_body(f"`{source}`").faults
    assert (found, advice) == (check, mend)


@pytest.mark.parametrize(
    ("body", "at"),
    [
        ("it turns [_pale green here", "[_"),
        ("it turns [_pale green] here", "[_"),
        ("an empty [__] blank", "[__]"),
        ("a `NaCl span", "`NaCl"),
        ("<b>bold</b>", "<b>"),
        ("text <!-- a note\n\nto the teacher -->", "<!--"),
        ("<script>alert(1)</script>", "<script>"),
        ("[x](javascript:alert(1))", "[x]"),
        ("[x](JAVASCRIPT:alert(1))", "[x]"),
        ("[x](java&#115;cript:alert(1))", "[x]"),
        ("[x](data:text/html,hi)", "[x]"),
        ("[x](http://example.org)", "[x]"),
        ("[x](//example.org)", "[x]"),
        ("[x](file:///etc/passwd)", "[x]"),
        ("[x](mailto:a@example.org)", "[x]"),
        ("<mailto:a@example.org>", "<mail"),
        ("<http://example.org>", "<http"),
        ("[x](../../secret.md)", "[x]"),
        ("[x](my file.md)", "](my"),
        ("[x](sample)", "[x]"),
        ("[x](#)", "[x]"),
        ("[x](#two_words!)", "[x]"),
        ("![x](../../x.png)", "!["),
        ("![x](https://example.org/x.png)", "!["),
        ("![x](x.exe)", "!["),
        ("a [#name] in the middle", "[#name]"),
        ("a paragraph has no [#name]", "[#name]"),
        ("words `value of 2x` here", "2x"),
    ],
)
def test_what_the_format_refuses_is_pointed_at(body: str, at: str) -> None:
    page = read_body(body)
    assert [(c, w) for c, w, _ in page.faults] == [("source-syntax", page.at(at))]


def test_a_missing_picture_is_an_unknown_reference_with_the_nearest() -> None:
    page = read_body("![x](../images/buret.png)", {"images/burette.png": b""})
    assert page.faults == [
        ("unknown-reference", page.at("!["), "../images/burette.png")
    ]


def test_a_link_into_the_wrong_folder_is_mended() -> None:
    page = read_body("[Rates](rates.md)", {"kinetics/rates.md": ""})
    assert page.faults == [
        ("unknown-reference", page.at("[Rates]"), "../kinetics/rates.md")
    ]


@pytest.mark.parametrize(
    "svg",
    [
        "<svg><script>1</script></svg>",
        "<svg onload='x()'/>",
        "<svg><image href='https://example.org/a.png'/></svg>",
        "<svg><foreignObject/></svg>",
        "<svg><style>@import url(x.css)</style></svg>",
        "<!DOCTYPE svg [<!ENTITY a 'b'>]><svg/>",
    ],
)
def test_a_picture_with_a_script_or_an_address_is_refused(svg: str) -> None:
    page = read_body("![x](x.svg)", {"acids/x.svg": svg})
    assert [c for c, _, _ in page.faults] == ["source-syntax"]


def test_a_plain_svg_is_a_picture() -> None:
    svg = "<svg xmlns='http://www.w3.org/2000/svg'><use href='#a'/></svg>"
    assert not read_body("![x](x.svg)", {"acids/x.svg": svg}).faults


def test_a_link_in_italics_is_no_blank() -> None:
    (reference,) = content(read_body("[_Step_](#a)"))
    assert isinstance(reference, Reference)
    assert isinstance(reference.content[0], Emphasis)


def test_a_picture_that_is_too_large_to_be_looked_through_is_refused() -> None:
    page = read_body("![x](x.svg)", {"acids/x.svg": Unreadable("")})
    assert [c for c, _, _ in page.faults] == ["source-syntax"]


def test_signs_of_less_and_more_are_words() -> None:
    page = read_body("T < 20 and p > 3, a<b and 2<3")
    assert plain(content(page)) == "T < 20 and p > 3, a<b and 2<3"
    assert not page.faults


def test_emphasis_of_any_depth_is_read_without_recursion() -> None:
    page = read_body("*a **b " * 600 + "c" + " b** a*" * 600)
    assert "c" in plain(content(page))


def test_every_inline_stands_where_its_place_says() -> None:
    body = (
        "Use `25 cm3` of **bold `NaCl`** *it*, [_`Cu` x_] in [Step](#a).\nNext `H2O`."
    )
    page = read_body(body)
    for inline in inlines(content(page)):
        if isinstance(inline, Words):
            assert shown(inline.place, page.text) == inline.text
        elif isinstance(inline, FormulaSpan | QuantitySpan):
            assert shown(inline.place, page.text) == inline.source


def test_the_blocks_of_a_table_and_list_are_where_they_begin() -> None:
    page = read_body("- a\n- b\n\n| h |\n| - |\n| c |")
    listed, table = page.blocks
    assert isinstance(listed, ListBlock)
    assert isinstance(table, PipeTable)
    assert where(listed.place) == page.at("- a")
    assert where(table.place) == page.at("| h |")
    assert where(table.rows[0][0].place) == page.at("c |")


def test_windows_line_ends_and_a_byte_order_mark_move_nothing() -> None:
    text = "---\ntitle: S\n---\n\n## Method\n\n1. a `Xx1`\n"
    plain_text, windows = read(text), read("\ufeff" + text.replace("\n", "\r\n"))
    assert windows.faults == plain_text.faults
