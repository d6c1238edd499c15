"""Findings on the page that they are about."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup

from manualgen.model.finding import Finding
from manualgen.working.worked import Worked

SCRIPT = "~preview/preview.js"
STYLE = "~preview/preview.css"


def with_findings(
    html: bytes, worked: Worked, findings: Iterable[Finding], version: int
) -> bytes:
    """A page with its findings before everything else, and the script that reloads it."""
    told = Markup().join(_finding(worked, f) for f in findings)
    head = Markup(
        '<link rel="stylesheet" href="/{}"><script src="/{}" data-version="{}" defer>'
        "</script></head>"
    ).format(STYLE, SCRIPT, version)
    panel = Markup('<aside class="preview-findings">{}</aside>').format(told)
    text = html.decode().replace("</head>", head, 1)
    if told:
        text = text.replace("<body>", Markup("<body>") + panel, 1)
    return text.encode(errors="backslashreplace")


def _finding(worked: Worked, finding: Finding) -> Markup:
    fault = finding.fault
    mend = (
        Markup("<p>Mend: <code>{}</code></p>").format(fault.mend) if fault.mend else ""
    )
    return Markup(
        '<section class="{}"><p><strong>{}</strong> {} <small>{}</small></p>'
        "<p>{}</p><pre>{}</pre>{}</section>"
    ).format(
        finding.severity.value,
        finding.severity.value,
        str(finding.place),
        finding.check,
        fault.message,
        worked.line_of(finding.place),
        mend,
    )
