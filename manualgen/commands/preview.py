"""``manualgen preview``: the manual in a browser while it is being written."""

from __future__ import annotations

import argparse
import datetime
import sys
import threading
import time
from pathlib import Path

from manualgen.build.preview import make_preview
from manualgen.commands.faults import TOOL_FAILED, CommandError
from manualgen.commands.options import add_content, today
from manualgen.preview.live import Live, Made
from manualgen.preview.server import PreviewServer
from manualgen.preview.watch import state_of

EXAMPLE = "manualgen preview content --port 8000"
PAUSE_SECONDS = 0.1


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    add_content(parser)
    parser.add_argument("--port", type=int, default=8000, help="default: 8000")


def run(options: argparse.Namespace) -> int:
    """Serve the pages until the author has had enough."""
    day: datetime.date = today()

    def make(version: int) -> Made:
        return make_preview(options.content, options.manual, day, version)

    live = Live(make)
    server = _server(live, options.port)
    sys.stderr.write(f"{live.renew()}\n")
    threading.Thread(target=server.serve_forever, daemon=True).start()
    sys.stderr.write(f"open {server.address} (Ctrl-C ends it)\n")
    try:
        _follow(options.content, live)
    finally:
        server.shutdown()
    return 0


def _server(live: Live, port: int) -> PreviewServer:
    try:
        return PreviewServer(live, port)
    except OSError as error:
        raise CommandError(
            f"cannot listen on port {port}: {error.strerror}; name another with --port",
            TOOL_FAILED,
        ) from error


def _follow(content: Path, live: Live) -> None:
    """Work everything out again whenever a file is saved; ends with Ctrl-C."""
    seen = state_of(content)
    while True:
        time.sleep(PAUSE_SECONDS)
        now = state_of(content)
        if now != seen:
            seen = now
            began = time.monotonic()
            summary = live.renew()
            sys.stderr.write(f"{summary} ({time.monotonic() - began:.2f} s)\n")
