"""Addresses of places in other documents, there and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.press.links import address, destination, read_address

names = st.text(st.characters(exclude_characters="/", codec="utf-8"), min_size=1)


@given(document=names, anchor=names)
def test_an_address_is_read_back_as_the_document_and_its_place(
    document: str, anchor: str
) -> None:
    assert read_address(address(document, anchor)) == (
        document,
        destination(document, anchor),
    )


@given(document=names)
def test_an_address_without_a_place_is_the_documents(document: str) -> None:
    assert read_address(address(document, "")) == (document, "")


@pytest.mark.parametrize(
    "uri",
    ["https://www.example.org/sheet.pdf", "//host/sheet.pdf", "mailto:a@b.c", "", "#x"],
)
def test_an_outside_address_is_no_documents(uri: str) -> None:
    assert read_address(uri) is None
