"""``manualgen preview``: the manual in a browser while it is being written."""

from __future__ import annotations

import argparse
import sys
import threading
import time
from pathlib import Path

from manualgen.build.preview import Preview
from manualgen.build.studio import Studio
from manualgen.commands.faults import TOOL_FAILED, CommandError
from manualgen.commands.options import add_content, today
from manualgen.preview.live import Live
from manualgen.preview.server import PreviewServer
from manualgen.preview.watch import State, state_of

EXAMPLE = "manualgen preview content --port 8000"
PAUSE_SECONDS = 0.03
IDLE_SHARE = 10
"""How many times longer than it looks the preview rests, with a folder of many files."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    add_content(parser)
    parser.add_argument("--port", type=int, default=8000, help="default: 8000")


def run(options: argparse.Namespace) -> int:
    """Serve the pages until the author has had enough."""
    preview = Preview(Studio(options.content, options.manual, today()))
    live = Live(preview.make)
    server = _server(live, options.port)
    try:
        _serve(options.content, live, server)
    except KeyboardInterrupt:
        sys.stderr.write("\n")  # after the ^C that the terminal shows
    return 0


def _serve(content: Path, live: Live, server: PreviewServer) -> None:
    seen = state_of(content)
    sys.stderr.write(f"{live.renew()}\n")
    threading.Thread(target=server.serve_forever, daemon=True).start()
    sys.stderr.write(f"open {server.address} (Ctrl-C ends it)\n")
    _follow(content, live, seen)


def _server(live: Live, port: int) -> PreviewServer:
    try:
        return PreviewServer(live, port)
    except OSError as error:
        raise CommandError(
            f"cannot listen on port {port}: {error.strerror}; name another with --port",
            TOOL_FAILED,
        ) from error


def _follow(content: Path, live: Live, seen: State) -> None:
    """Work out what has changed whenever a file is saved; ends with Ctrl-C."""
    looked = 0.0
    while True:
        time.sleep(max(PAUSE_SECONDS, IDLE_SHARE * looked))
        began = time.monotonic()
        now = state_of(content)
        looked = time.monotonic() - began
        if now != seen:
            seen = now
            summary = live.renew()
            sys.stderr.write(f"{summary} ({time.monotonic() - began:.2f} s)\n")
