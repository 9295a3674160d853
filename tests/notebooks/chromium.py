"""Finds a Chromium of the system's packages that starts."""

import os
import shutil
import subprocess

NAMES = ("chromium", "chromium-browser")
NO_CHROMIUM = (
    "no Chromium that starts was found: install the system's package (Debian: apt-get install chromium), "
    "or name one in COACHLIB_CHROMIUM"
)


def find_chromium() -> str | None:
    """Return the browser's path, or None; some systems have only a stand-in that asks to install it."""
    named = os.environ.get("COACHLIB_CHROMIUM")
    candidates = [named] if named else [path for path in map(shutil.which, NAMES) if path]
    return next((path for path in candidates if _starts(path)), None)


def _starts(path: str) -> bool:
    try:
        return (
            subprocess.run([path, "--version"], capture_output=True, timeout=30, check=False).returncode == 0
        )
    except (OSError, subprocess.TimeoutExpired):
        return False
