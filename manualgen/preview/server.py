"""Pages for a browser on this computer, and nobody else.

The server listens on the loopback address alone.  It answers only requests
that name it as their host and come from its own pages, so that no page of
another site can read the manual through the author's browser.  It looks an
address up among those of the pages and opens no file by it, so that none can
lead out.
"""

from __future__ import annotations

import mimetypes
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import unquote, urlsplit

from manualgen.preview.live import Live

LOOPBACK = "127.0.0.1"
CHANGES = "/~changes"
"""Answers with the next version number, once there is one."""
PATIENCE_SECONDS = 20.0
OWN_NAMES = ("127.0.0.1", "localhost", "[::1]")

_POLICY = (
    "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; "
    "frame-ancestors 'none'; base-uri 'none'; form-action 'none'"
)


class PreviewServer(ThreadingHTTPServer):
    """Serves the latest pages."""

    daemon_threads = True
    allow_reuse_address = True

    def __init__(self, live: Live, port: int) -> None:
        super().__init__((LOOPBACK, port), _Handler)
        self.live = live

    @property
    def address(self) -> str:
        """Where a browser finds it."""
        return f"http://{LOOPBACK}:{self.server_address[1]}/"

    @property
    def hosts(self) -> frozenset[str]:
        """What its own pages call it."""
        port = self.server_address[1]
        return frozenset(f"{name}:{port}" for name in OWN_NAMES)


class _Handler(BaseHTTPRequestHandler):
    server: PreviewServer
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        """Answer with a page, or with the next version."""
        if not self._is_ours():
            self._answer(HTTPStatus.FORBIDDEN, b"not from here\n", "text/plain")
            return
        path = unquote(urlsplit(self.path).path)
        if path == CHANGES:
            self._answer_changes()
            return
        name = path.removeprefix("/")
        if not name or name.endswith("/"):
            name += "index.html"
        try:
            page = self.server.live.page(name)
        except Exception as error:  # the author wants to be told, whatever it is
            told = f"this page cannot be made: {error!r}\n".encode()
            self._answer(HTTPStatus.INTERNAL_SERVER_ERROR, told, "text/plain")
            return
        if page is None:
            self._answer(HTTPStatus.NOT_FOUND, b"no such page\n", "text/plain")
            return
        kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
        self._answer(HTTPStatus.OK, page, kind)

    def _is_ours(self) -> bool:
        hosts = self.server.hosts
        origin = self.headers.get("Origin")
        fetched_from = self.headers.get("Sec-Fetch-Site", "none")
        return (
            self.headers.get("Host") in hosts
            and (origin is None or origin.removeprefix("http://") in hosts)
            and fetched_from in ("none", "same-origin")
        )

    def _answer_changes(self) -> None:
        query = urlsplit(self.path).query
        known = int(query) if query.isdigit() else 0
        version = self.server.live.wait_after(known, PATIENCE_SECONDS)
        self._answer(HTTPStatus.OK, str(version).encode(), "text/plain")

    def _answer(self, status: HTTPStatus, body: bytes, kind: str) -> None:
        charset = "; charset=utf-8" if kind.startswith("text/") else ""
        self.send_response(status)
        self.send_header("Content-Type", kind + charset)
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("Content-Security-Policy", _POLICY)
        self.send_header("X-Content-Type-Options", "nosniff")
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - as the base class has it
        """Say nothing: the terminal is for findings."""
