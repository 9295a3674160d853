"""Finds the Chromium that the system's packages installed."""

import os
import shutil

NAMES = ("chromium", "chromium-browser")
NO_CHROMIUM = (
    "no Chromium found: install the system's package (Debian: apt-get install chromium), "
    "or name one in COACHLIB_CHROMIUM"
)


def find_chromium() -> str | None:
    """Return the path of the browser, or None."""
    named = os.environ.get("COACHLIB_CHROMIUM")
    return named or next((path for path in map(shutil.which, NAMES) if path), None)


if __name__ == "__main__":
    print(find_chromium() or "")
