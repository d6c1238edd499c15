"""Where a Chromium-family browser stands on this computer.

On the standard library alone: the bootstrap asks before anything is installed,
the press asks before it starts a browser, and both must get the same answer.
The order is: what the user names, what Playwright downloaded, what the system
has.
"""

import os
import shutil
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

from manualgen.press.errors import PressError

VARIABLE = "MANUALGEN_BROWSER"

ADVICE = (
    f"no Chromium, Chrome or Edge found; install one, or name one in {VARIABLE}, "
    "or run python3 -m manualgen.bootstrap build"
)

_COMMANDS = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
    "microsoft-edge",
    "microsoft-edge-stable",
    "msedge",
)

_MAC_APPLICATIONS = (
    "Chromium.app/Contents/MacOS/Chromium",
    "Google Chrome.app/Contents/MacOS/Google Chrome",
    "Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
)

_WINDOWS_PROGRAMS = (
    "Chromium/Application/chrome.exe",
    "Google/Chrome/Application/chrome.exe",
    "Microsoft/Edge/Application/msedge.exe",
)

# Playwright keeps each revision in a folder of its own; the executable's place
# inside differs by platform and has changed with the years.
_DOWNLOADED = (
    "chromium-*/chrome-*/chrome",
    "chromium-*/chrome-*/chrome.exe",
    "chromium-*/chrome-*/*.app/Contents/MacOS/*",
    "chromium_headless_shell-*/*/chrome-headless-shell",
    "chromium_headless_shell-*/*/chrome-headless-shell.exe",
    "chromium_headless_shell-*/*/headless_shell",
    "chromium_headless_shell-*/*/headless_shell.exe",
)


class BrowserNotFoundError(PressError):
    """No browser is to be had where one was looked for; says how to get one."""


def find_chromium(environment: Mapping[str, str] | None = None) -> Path:
    """The browser to print with.

    Raises BrowserNotFoundError, also where MANUALGEN_BROWSER names nothing that
    can be run: a browser that was asked for is never replaced silently.
    """
    environment = os.environ if environment is None else environment
    named = environment.get(VARIABLE)
    if named:
        return _named(named, environment)
    for candidate in _candidates(environment):
        if _is_runnable(candidate):
            return candidate
    raise BrowserNotFoundError(ADVICE)


def _named(named: str, environment: Mapping[str, str]) -> Path:
    found = shutil.which(named, path=environment.get("PATH"))
    if found is None:
        raise BrowserNotFoundError(
            f"no browser at {named}, which {VARIABLE} names; correct it or unset it"
        )
    return Path(found).absolute()


def _candidates(environment: Mapping[str, str]) -> Iterator[Path]:
    for folder in _download_folders(environment):
        for pattern in _DOWNLOADED:
            yield from sorted(folder.glob(pattern), key=_revision, reverse=True)
    for command in _COMMANDS:
        found = shutil.which(command, path=environment.get("PATH"))
        if found is not None:
            yield Path(found).absolute()
    yield from _usual_places(environment)


def _revision(executable: Path) -> int:
    """The number in `chromium-1255`, so that the newest download comes first."""
    for part in executable.parts:
        name, _, number = part.rpartition("-")
        if name.startswith("chromium") and number.isdigit():
            return int(number)
    return 0


def _download_folders(environment: Mapping[str, str]) -> Iterator[Path]:
    named = environment.get("PLAYWRIGHT_BROWSERS_PATH")
    if named and named != "0":
        yield Path(named)
        return
    home = environment.get("HOME") or environment.get("USERPROFILE")
    if home is None:
        return
    if sys.platform == "darwin":
        yield Path(home, "Library", "Caches", "ms-playwright")
    elif sys.platform == "win32":
        local = environment.get("LOCALAPPDATA") or Path(home, "AppData", "Local")
        yield Path(local, "ms-playwright")
    else:
        cache = environment.get("XDG_CACHE_HOME") or Path(home, ".cache")
        yield Path(cache, "ms-playwright")


def _usual_places(environment: Mapping[str, str]) -> Iterator[Path]:
    if sys.platform == "darwin":
        for folder in (Path("/Applications"), Path.home() / "Applications"):
            yield from (folder / name for name in _MAC_APPLICATIONS)
    elif sys.platform == "win32":
        for variable in ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA"):
            if variable in environment:
                folder = Path(environment[variable])
                yield from (folder / name for name in _WINDOWS_PROGRAMS)
    else:
        yield Path("/snap/bin/chromium")


def _is_runnable(path: Path) -> bool:
    return path.is_file() and os.access(path, os.X_OK)
