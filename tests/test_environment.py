"""The conda file says the same as pyproject.toml, and the Makefile has what the papers promise.

Checked against the files' own formats: PEP 508 requirements through `packaging`, YAML through `yaml`.
"""

import re
import subprocess
import tomllib
from pathlib import Path

import pytest
import yaml
from packaging.requirements import Requirement
from packaging.specifiers import SpecifierSet
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parent.parent
# conda-forge's name, where it is not the registry's: all ours differ by hyphens at most.
CONDA_NAMES: dict[str, str] = {}
TARGETS = ("coach", "app", "test", "lint", "format", "bench", "clean")


def _pyproject() -> dict:
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def _wanted() -> dict[str, SpecifierSet]:
    """Return what the core needs, by conda's names."""
    project = _pyproject()
    lines = project["dependencies"]
    needs = [Requirement(line) for line in lines]
    return {canonicalize_name(CONDA_NAMES.get(need.name, need.name)): need.specifier for need in needs}


def _conda_lines() -> list:
    return yaml.safe_load((ROOT / "environment.yml").read_text(encoding="utf-8"))["dependencies"]


def _conda() -> dict[str, SpecifierSet]:
    plain = [line.split(" ", 1) for line in _conda_lines() if isinstance(line, str)]
    found = {canonicalize_name(parts[0]): SpecifierSet("".join(parts[1:])) for parts in plain}
    return {name: spec for name, spec in found.items() if name not in ("python", "pip")}


def test_conda_file_has_the_same_packages_and_bounds() -> None:
    assert len(_wanted()) > 10
    assert _conda() == _wanted()


def test_conda_file_has_the_same_python_and_installs_this_library() -> None:
    lines = _conda_lines()
    python = next(line for line in lines if isinstance(line, str) and line.startswith("python "))
    assert SpecifierSet(python.removeprefix("python ")) == SpecifierSet(_pyproject()["requires-python"])
    assert {"pip": ["-e ."]} in lines


@pytest.mark.parametrize("extra", ["core", "test"])
def test_every_requirement_has_a_lower_and_an_upper_bound(extra: str) -> None:
    project = _pyproject()
    lines = project["dependencies"] if extra == "core" else project["optional-dependencies"][extra]
    assert lines
    for line in lines:
        operators = {spec.operator for spec in Requirement(line).specifier}
        assert operators == {">=", "<"}, line


def test_no_extra_is_empty() -> None:
    assert all(_pyproject()["optional-dependencies"].values())


@pytest.mark.parametrize("target", TARGETS)
def test_make_knows_the_command_and_lists_it(target: str) -> None:
    text = (ROOT / "Makefile").read_text(encoding="utf-8")
    assert re.search(rf"^{target}:.*## \w", text, re.MULTILINE)
    listed = subprocess.run(["make", "-s"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    assert f"make {target}\t" in listed


def test_make_says_so_when_python_is_too_old(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("MAKEFLAGS", raising=False)  # a `make` around the tests has its own
    old = tmp_path / "python-old"
    old.write_text("#!/bin/sh\nexit 1\n", encoding="utf-8")
    old.chmod(0o755)
    command = ["make", "coach", f"PYTHON={old}", f"VENV={tmp_path / 'venv'}"]
    answer = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert answer.returncode != 0
    assert "older than 3.11. Name a newer one" in answer.stdout
    assert not (tmp_path / "venv").exists()
