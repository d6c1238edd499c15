"""What shapes a print beside the document itself."""

import hashlib
from datetime import datetime
from importlib.metadata import version
from pathlib import Path


def circumstances(browser: Path, when: datetime) -> tuple[str, ...]:
    """The press's own code, its libraries, the browser and the date, as text.

    A browser is known by its file's size and time, which change with every
    update: asking for its version would mean to start it.
    """
    file = browser.resolve().stat()
    return (
        _own_digest(),
        version("pikepdf"),
        version("playwright"),
        f"{browser.resolve()} {file.st_size} {file.st_mtime_ns}",
        when.isoformat(),
    )


def _own_digest() -> str:
    digest = hashlib.sha256()
    for module in sorted(Path(__file__).parent.glob("*.py")):
        digest.update(module.read_bytes())
    return digest.hexdigest()
