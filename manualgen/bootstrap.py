"""From a fresh clone to a built manual, with nothing but Python.

    python3 -m manualgen.bootstrap build    make the site in site/
    python3 -m manualgen.bootstrap test     check the code and run its tests

Both make `.venv` in the repository, install the pinned libraries there, and see
to a Chromium-family browser; a second run finds all that done. What follows the
word is handed on: `build --no-pdf`, `test tests/press`. On the standard library
alone, since this is what runs before anything is installed.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
OLDEST_PYTHON = (3, 11)

# The lists of pinned libraries that each task needs, in .ci/.
LOCKS = {
    "build": ("constraints.txt",),
    "test": ("constraints.txt", "constraints-test.txt"),
}

# What stands before the tests, the quickest first.
CHECKS = (
    ("ruff", "format", "--check", "."),
    ("ruff", "check", "."),
    ("lint-imports",),
    ("mypy",),
)

# The tests read PDFs back with programs that have no part in making them.
PDF_READERS = ("pdfinfo", "pdftotext", "pdffonts", "pdftoppm")

WRONG_USAGE = 2
CANNOT = 3


class BootstrapError(Exception):
    """Something is missing that cannot be had from here; says what to do."""


def main(words: Sequence[str]) -> int:
    """Do what the first word says; gives the exit status."""
    if not words or words[0] not in LOCKS:
        say("Say what to do: python3 -m manualgen.bootstrap build|test")
        return WRONG_USAGE
    task, *rest = words
    try:
        python = prepare_python(task)
        environment = {**os.environ, "MANUALGEN_BROWSER": str(prepare_browser(python))}
        if task == "build":
            return run([python, "-m", "manualgen", "build", *rest], environment)
        prepare_pdf_readers()
        return check_and_test(python, rest, environment)
    except BootstrapError as error:
        say(f"error: {error}")
        return CANNOT


def say(text: str) -> None:
    """Write one plain line, at once, in step with what other programs write."""
    sys.stdout.write(f"{text}\n")
    sys.stdout.flush()


def run(command: Sequence[object], environment: Mapping[str, str] | None = None) -> int:
    """Run a program in the repository; gives its exit status."""
    words = [str(word) for word in command]
    return subprocess.run(words, cwd=ROOT, env=environment, check=False).returncode


def prepare_python(task: str) -> Path:
    """The environment's Python, with all that the task needs installed."""
    if sys.version_info < OLDEST_PYTHON:
        this, oldest = (
            ".".join(map(str, v[:2])) for v in (sys.version_info, OLDEST_PYTHON)
        )
        raise BootstrapError(
            f"manualgen needs Python {oldest} or newer, and this is {this}"
        )
    python = environment_python()
    if not python.exists():
        make_environment()
    for lock in LOCKS[task]:
        stamp = ROOT / ".venv" / f"{lock}.installed"
        digest = lock_digest(lock)
        if not stamp.is_file() or stamp.read_text() != digest:
            install(python, lock)
            stamp.write_text(digest)
    return python


def environment_python() -> Path:
    """Where the environment has its Python."""
    if sys.platform == "win32":
        return ROOT / ".venv" / "Scripts" / "python.exe"
    return ROOT / ".venv" / "bin" / "python"


def make_environment() -> None:
    """Make `.venv`; on Debian Python's own means for it are a package apart."""
    say(f"Making .venv with Python {sys.version.split()[0]}")
    command = [sys.executable, "-m", "venv", "--clear", ".venv"]
    if run(command) and not (
        can_use_apt() and apt("python3-venv") and not run(command)
    ):
        raise BootstrapError(
            "Python could not make .venv; where its venv module is a package of its "
            "own (python3-venv on Debian), install that"
        )


def lock_digest(lock: str) -> str:
    """What an installation depends on: the list, the project, Python and place."""
    digest = hashlib.sha256(f"{sys.version} {ROOT}".encode())
    for path in (ROOT / ".ci" / lock, ROOT / "pyproject.toml"):
        digest.update(path.read_bytes())
    return digest.hexdigest()


def install(python: Path, lock: str) -> None:
    """Install a list, and the project itself with the first one.

    The lists are complete, so that pip follows no requirement of its own.
    """
    say(f"Installing the libraries of .ci/{lock}")
    pip = [python, "-m", "pip", "install", "--quiet", "--no-deps"]
    pip += ["--disable-pip-version-check", "--no-input"]
    commands = [[*pip, "-r", ROOT / ".ci" / lock]]
    if lock == LOCKS["build"][0]:
        commands.append([*pip, "--no-build-isolation", "-e", ROOT])
    if any(run(command) for command in commands):
        raise BootstrapError(
            f"the libraries of .ci/{lock} could not be installed; "
            "pip says why in the lines above"
        )


def prepare_browser(python: Path) -> Path:
    """A browser that runs, found or else installed."""
    if browser := find_browser():
        say(f"Printing with {browser}")
        return browser
    say("No Chromium, Chrome or Edge here; downloading Chromium through Playwright")
    download_browser(python)
    browser = find_browser()
    if browser is None and can_use_apt():
        say("That gave no browser that runs; installing Debian's package chromium")
        apt("chromium")
        browser = find_browser()
    if browser is None:
        raise BootstrapError(
            "no Chromium, Chrome or Edge is here and none could be installed; "
            "install one, or name one in MANUALGEN_BROWSER"
        )
    say(f"Printing with {browser}")
    return browser


def download_browser(python: Path) -> None:
    """Let Playwright fetch its Chromium; its long complaints would not help."""
    words = [str(python), "-m", "playwright", "install", "--no-shell", "chromium"]
    subprocess.run(words, cwd=ROOT, stderr=subprocess.DEVNULL, check=False)


def find_browser() -> Path | None:
    """The browser that the press would take, if there is one and it runs.

    A browser that the user named is not looked past: it raises BootstrapError.
    """
    from manualgen.press.chromium import VARIABLE, BrowserNotFoundError, find_chromium

    try:
        browser = find_chromium()
    except BrowserNotFoundError as error:
        if os.environ.get(VARIABLE):
            raise BootstrapError(str(error)) from error
        return None
    if does_run(browser):
        return browser
    if os.environ.get(VARIABLE):
        raise BootstrapError(f"{browser}, which {VARIABLE} names, does not run")
    return None


def does_run(browser: Path) -> bool:
    """Whether the browser starts at all: a download may lack system libraries."""
    if sys.platform == "win32":
        return True  # where asking Chrome for its version opens a window
    try:
        asked = subprocess.run(
            [browser, "--version"], capture_output=True, timeout=60, check=False
        )
    except (OSError, subprocess.TimeoutExpired):
        return False
    return asked.returncode == 0


def prepare_pdf_readers() -> None:
    """The programs that the tests read PDFs back with, installed if need be."""
    missing = [name for name in PDF_READERS if shutil.which(name) is None]
    if missing and can_use_apt():
        say("Installing Debian's package poppler-utils, to read PDFs back")
        apt("poppler-utils")
        missing = [name for name in PDF_READERS if shutil.which(name) is None]
    if missing:
        raise BootstrapError(
            f"the tests read PDFs back with {', '.join(missing)}; install Poppler's "
            "tools (poppler-utils on Debian, poppler with Homebrew)"
        )


def can_use_apt() -> bool:
    """Whether this is Debian or a relative, and we may install its packages."""
    is_root = hasattr(os, "geteuid") and os.geteuid() == 0
    return is_root and shutil.which("apt-get") is not None


def apt(package: str) -> bool:
    """Install a Debian package; gives whether that went well."""
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    run(["apt-get", "update", "-qq"], environment)
    command = ["apt-get", "install", "-qq", "--no-install-recommends", package]
    return run(command, environment) == 0


def check_and_test(
    python: Path, words: Sequence[str], environment: Mapping[str, str]
) -> int:
    """Check the code and run the tests, as far as the first that fails.

    Words choose tests, and then neither the code is checked nor coverage judged.
    """
    if words:
        return run([python, "-m", "pytest", *words], environment)
    for check in CHECKS:
        say(f"Checking: {' '.join(check)}")
        tool = python.with_name(check[0]).with_suffix(python.suffix)
        if status := run([tool, *check[1:]], environment):
            return status
    say("Testing: pytest, measuring coverage")
    if status := run([python, "-m", "coverage", "run", "-m", "pytest"], environment):
        return status
    say("Coverage in percent:")
    return run([python, "-m", "coverage", "report", "--format=total"], environment)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
