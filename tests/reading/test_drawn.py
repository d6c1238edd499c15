"""Which drawings are printed: those that only show something."""

from __future__ import annotations

import pytest

from manualgen.reading.drawn import SVG, is_still

HEAD = f'<svg xmlns="{SVG}" xmlns:xlink="http://www.w3.org/1999/xlink"'

STILL = {
    "shapes": '><path d="M0 0L1 1"/><text>A &amp; B</text></svg>',
    "a gradient": '><defs><linearGradient id="a"/></defs><rect fill="url(#a)"/></svg>',
    "a copy": '><g id="a"/><use xlink:href="#a"/></svg>',
    "a picture inside": '><image href="data:image/png;base64,iVBORw0KGgo="/></svg>',
    "a style sheet": "><style>.a{fill:#fff;mask:url('#m')}</style></svg>",
    "a style": '><rect style="fill:none;stroke:url(#a)"/></svg>',
    "a drawing program's notes": ' xmlns:i="http://www.inkscape.org/namespaces/inkscape"'
    ' i:export-filename="C:\\pictures\\a (1).png"><i:page/></svg>',
    "words like code": "><desc>onload = javascript: @import</desc></svg>",
}


@pytest.mark.parametrize("drawing", STILL.values(), ids=STILL)
def test_what_drawing_programs_write_is_still(drawing: str) -> None:
    assert is_still((HEAD + drawing).encode())


def test_a_drawing_is_read_in_its_own_encoding() -> None:
    drawing = f'<?xml version="1.0" encoding="{{}}"?>{HEAD}><text>é</text></svg>'
    for encoding in ("UTF-8", "UTF-16", "ISO-8859-1"):
        assert is_still(drawing.format(encoding).encode(encoding))


ACTIVE = {
    "an event": ' onload="x()"/>',
    "a script": "><script/></svg>",
    "a page": '><foreignObject><p xmlns="http://www.w3.org/1999/xhtml"/></foreignObject></svg>',
    "an element of no namespace": '><script xmlns=""/></svg>',
    "an address": '><image href="https://example.org/a.png"/></svg>',
    "a linked address": '><use xlink:href="a.svg#b"/></svg>',
    "an address in a style": '><rect style="fill:url(//example.org/)"/></svg>',
    "an address in a colour": '><rect fill="url( //example.org/ )"/></svg>',
    "an escape in a colour": '><rect fill="u\\72l(//example.org/)"/></svg>',
    "an import": "><style>@import 'a.css'</style></svg>",
    "an import in two pieces": "><style>@im<![CDATA[port 'a.css']]></style></svg>",
    "an animation": '><set attributeName="href" to="a"/></svg>',
    "a base": ' xml:base="https://example.org/"/>',
    "a picture that is a drawing": '><image href="data:image/svg+xml,x"/></svg>',
    "a great depth": ">" + "<g>" * 300 + "</g>" * 300 + "</svg>",
    "half a drawing": "><g></svg>",
}


@pytest.mark.parametrize("drawing", ACTIVE.values(), ids=ACTIVE)
def test_what_runs_loads_or_moves_is_refused(drawing: str) -> None:
    assert not is_still((HEAD + drawing).encode())


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\x89PNG",
        b"<html/>",
        b"<svg/>",
        f'<!DOCTYPE svg [<!ENTITY a "b">]>{HEAD}/>'.encode(),
        f'<?xml-stylesheet href="a.css"?>{HEAD}/>'.encode(),
        f'<?xml version="1.0" encoding="x-nothing"?>{HEAD}/>'.encode(),
    ],
)
def test_what_is_no_drawing_is_refused(content: bytes) -> None:
    assert not is_still(content)
