"""The report at the end of `make test`: right counts, reasons told, and no success without tests."""

from pathlib import Path

import pytest

from tests import report
from tests.notebooks.chromium import find_chromium

PASSED = '<testcase name="a"/>'
FAILED = '<testcase name="b"><failure message="wrong"/></testcase>'
SKIPPED = '<testcase name="c"><skipped message="no Chromium"/></testcase>'


def _write(folder: Path, **runs: str) -> Path:
    for name, cases in runs.items():
        text = f"<testsuites><testsuite>{cases}</testsuite></testsuites>"
        (folder / f"{name}.xml").write_text(text, encoding="utf-8")
    return folder


def test_counts_all_runs_and_says_why_some_were_skipped(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _write(tmp_path, unit=PASSED * 3, browser=SKIPPED * 2, notebooks=PASSED)
    assert report.main(tmp_path) == 0
    assert capsys.readouterr().out.splitlines() == ["skipped 2: no Chromium", "4 passed, 0 failed, 2 skipped"]


def test_says_that_nothing_was_skipped(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _write(tmp_path, unit=PASSED, browser=PASSED, notebooks=PASSED)
    assert report.main(tmp_path) == 0
    assert capsys.readouterr().out.splitlines() == ["nothing was skipped", "3 passed, 0 failed, 0 skipped"]


@pytest.mark.parametrize(
    "runs",
    [
        {},
        {"unit": PASSED, "notebooks": PASSED},
        {"unit": SKIPPED, "browser": SKIPPED, "notebooks": SKIPPED},
        {"unit": PASSED + FAILED, "browser": PASSED, "notebooks": PASSED},
        {"unit": PASSED, "browser": SKIPPED, "notebooks": ""},
    ],
    ids=["nothing", "a run missing", "all skipped", "one failed", "a run empty"],
)
def test_is_no_success(tmp_path: Path, runs: dict[str, str]) -> None:
    assert report.main(_write(tmp_path, **runs)) == 1


@pytest.mark.parametrize("path", ["no/such/browser", "/bin/false"])
def test_a_browser_that_does_not_start_is_none(monkeypatch: pytest.MonkeyPatch, path: str) -> None:
    monkeypatch.setenv("COACHLIB_CHROMIUM", path)
    assert find_chromium() is None
