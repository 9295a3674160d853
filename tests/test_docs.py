"""The papers match the repository: folder tree, modules, commands, links.

Conventions that DEVELOPERS.md keeps: one fenced tree whose first line is the repository's folders and files,
names of modules in backticks as `world/lane` (or `coachlib/world/lane.py`), commands as `make NAME`.
"""

import ast
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PAPERS = ("README.md", "DEVELOPERS.md")
LIBRARY = ROOT / "coachlib"
# Built from pieces, so that this file does not contain what it looks for.
FORBIDDEN = [
    "/" + "work/",
    "/" + "root/",
    "/" + "home/",
    "py" + "pi.org",
    "pythonhosted" + ".org",
    "registry" + ".npm",
]
UNLISTED = {"__init__", "__init__.py"}


def _text(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


def _tracked() -> list[Path]:
    """Return the files that belong to the repository, from git or, in a source archive, from the disk."""
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode == 0 and listed.stdout:
        return [ROOT / line for line in listed.stdout.splitlines() if (ROOT / line).is_file()]
    folders = [ROOT / name for name in ("coachlib", "data", "notebooks", "tests")]
    return [
        path
        for folder in folders
        for path in folder.rglob("*")
        if path.is_file() and "__pycache__" not in str(path)
    ]


def _trees(text: str) -> list[str]:
    """Return the fenced blocks that draw folders."""
    blocks = re.findall(r"```[a-z]*\n(.*?)```", text, re.DOTALL)
    return [block for block in blocks if "coachlib/" in block and "tests/" in block]


def _modules() -> list[str]:
    """Return every module as `world/lane`."""
    paths = [path.relative_to(LIBRARY).with_suffix("") for path in LIBRARY.rglob("*.py")]
    return sorted(path.as_posix() for path in paths if path.name not in UNLISTED)


def test_tree_names_every_folder_of_the_library_and_nothing_that_is_not_there() -> None:
    (tree,) = _trees(_text("DEVELOPERS.md"))
    folders = {path.relative_to(ROOT).parts for path in _tracked()}
    top = {parts[0] + "/" for parts in folders if len(parts) > 1 and not parts[0].startswith(".")}
    rooms = {parts[1] + "/" for parts in folders if len(parts) > 2 and parts[0] == "coachlib"}
    assert top >= {"coachlib/", "data/", "notebooks/", "tests/"}
    assert {name for name in top | rooms if name not in tree} == set()
    drawn = re.findall(r"^[\s│├└─]*([\w.]+(?:/[\w.]+)*/)", tree, re.MULTILINE)
    exists = {part + "/" for path in _tracked() for part in path.relative_to(ROOT).parts[:-1]}
    assert drawn
    assert [name for name in drawn if name.rstrip("/").split("/")[-1] + "/" not in exists] == []


def test_every_module_says_in_its_first_line_what_is_inside() -> None:
    paths = [path for path in LIBRARY.rglob("*.py") if path.name not in UNLISTED]
    assert len(paths) > 10
    first = {
        path.name: (ast.get_docstring(ast.parse(path.read_text())) or "").split("\n")[0] for path in paths
    }
    assert [name for name, line in first.items() if not line.endswith((".", ":"))] == []


def test_modules_named_in_the_developers_paper_exist() -> None:
    rooms = {path.name for path in LIBRARY.iterdir() if path.is_dir()}
    named = re.findall(
        r"`(?:coachlib/)?((?:{})/[\w/]+?)(?:\.py)?/?`".format("|".join(rooms)), _text("DEVELOPERS.md")
    )
    assert len(named) > 5
    assert [name for name in named if name not in _modules() and not (LIBRARY / name).is_dir()] == []


@pytest.mark.parametrize("paper", PAPERS)
def test_commands_exist(paper: str) -> None:
    targets = set(re.findall(r"^([a-z-]+):", _text("Makefile"), re.MULTILINE))
    named = set(re.findall(r"\bmake ([a-z-]+)\b(?=[`\s]*(?:[|#(:.,;]|$))", _text(paper), re.MULTILINE))
    named |= set(re.findall(r"`make ([a-z-]+)", _text(paper)))
    assert {"coach", "test"} <= named
    assert named - targets == set()


def test_the_developers_paper_names_every_command() -> None:
    targets = set(re.findall(r"^([a-z]+):.*## ", _text("Makefile"), re.MULTILINE)) - {"help"}
    assert targets
    assert {name for name in targets if f"make {name}" not in _text("DEVELOPERS.md")} == set()


@pytest.mark.parametrize("paper", [*PAPERS, "CHANGELOG.md"])
def test_links_lead_somewhere(paper: str) -> None:
    links = re.findall(r"\]\((?!https?:|#|mailto:)([^)#\s]+)", _text(paper))
    assert [link for link in links if not (ROOT / link).exists()] == []


def test_version_is_in_the_changelog() -> None:
    version = re.search(r'^version = "(.+)"', _text("pyproject.toml"), re.MULTILINE)
    assert version
    assert re.search(rf"^## {re.escape(version[1])}\b", _text("CHANGELOG.md"), re.MULTILINE)


def test_no_file_names_a_machine_path_or_a_registry_host_and_none_locks_versions() -> None:
    files = _tracked()
    assert len(files) > 30
    texts = {path: path.read_bytes().decode("utf-8", errors="ignore") for path in files}
    found = [(path.name, word) for path, text in texts.items() for word in FORBIDDEN if word in text]
    assert found == []
    assert [path.name for path in files if path.suffix == ".lock" or path.name.endswith("-lock.json")] == []


def test_the_readme_s_calls_print_what_it_says(repository, capsys):
    (block,) = re.findall(r"```python\n(.*?)```", (repository / "README.md").read_text(), flags=re.DOTALL)
    exec(block, {})
    printed = capsys.readouterr().out.splitlines()
    assert printed == re.findall(r"^print\(.*\)  # (.*)$", block, flags=re.MULTILINE)
