"""What is installed works without a checkout: data, notebooks, page templates and scripts are in the wheel.

The wheel is built here by the build backend itself, without a network, and read with `zipfile`.
"""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKED = {"coachlib": "coachlib", "data": "coachlib/data", "notebooks": "coachlib/notebooks"}


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the built wheel."""
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    (built,) = folder.glob("*.whl")
    return built


def _said_unpacked(wheel: Path, tmp_path: Path, code: str) -> str:
    """Return what code prints where the library was unpacked, away from the checkout."""
    zipfile.ZipFile(wheel).extractall(tmp_path / "site")
    env = os.environ | {"PYTHONPATH": str(tmp_path / "site")}
    command = [sys.executable, "-c", code]
    return subprocess.run(command, cwd=tmp_path, env=env, capture_output=True, text=True, check=True).stdout


@pytest.mark.parametrize("folder", PACKED)
def test_everything_of_a_folder_is_packed(wheel: Path, folder: str) -> None:
    files = [path for path in (ROOT / folder).rglob("*") if path.is_file()]
    kept = [path for path in files if not {"__pycache__", ".ipynb_checkpoints"} & set(path.parts)]
    names = {f"{PACKED[folder]}/{path.relative_to(ROOT / folder).as_posix()}" for path in kept}
    assert names
    assert names - set(zipfile.ZipFile(wheel).namelist()) == set()


def test_nothing_else_is_packed(wheel: Path) -> None:
    tops = {name.split("/")[0] for name in zipfile.ZipFile(wheel).namelist()}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"coachlib"}
    assert not [name for name in zipfile.ZipFile(wheel).namelist() if name.endswith(".pyc")]


def test_a_command_of_its_own_is_installed(wheel: Path) -> None:
    (name,) = [name for name in zipfile.ZipFile(wheel).namelist() if name.endswith("entry_points.txt")]
    assert "lane-coach = coachlib.__main__:main" in zipfile.ZipFile(wheel).read(name).decode()


def test_unpacked_library_finds_its_notebooks_and_works_in_the_users_folder(
    wheel: Path, tmp_path: Path
) -> None:
    found = "folder.shipped_notebooks()"
    asks = (found, "folder.default_folder()", f"len([*{found}.glob('*.ipynb')])")
    code = "from coachlib.opener import folder\n" + "\n".join(f"print({ask})" for ask in asks)
    shipped, folder, n_notebooks = _said_unpacked(wheel, tmp_path, code).splitlines()
    assert shipped == str(tmp_path / "site" / "coachlib" / "notebooks")
    assert str(tmp_path) not in folder
    assert str(ROOT) not in folder
    assert int(n_notebooks) == len(list((ROOT / "notebooks").glob("*.ipynb")))


def test_unpacked_library_fills_its_own_templates(wheel: Path, tmp_path: Path) -> None:
    code = "from coachlib.views.print import page, worksheet_page\n"
    code += "print(page.TEMPLATES, worksheet_page.lane_pages(title='<b>'), sep='\\n')"
    folder, printed = _said_unpacked(wheel, tmp_path, code).split("\n", 1)
    assert Path(folder) == tmp_path / "site" / "coachlib" / "views" / "print" / "templates"
    assert "<h1>&lt;b&gt;</h1>" in printed
