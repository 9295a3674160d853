"""The working folder: a copy of the notebooks that may be run and changed, with Jupyter's own files."""

import hashlib
import json
import shutil
import sys
import time
from pathlib import Path

import nbformat
from nbformat.sign import NotebookNotary

from coachlib.files import live_folder

PACKAGE = Path(__file__).resolve().parent.parent
SHARE = PACKAGE / "share"
_LAID = Path(".jupyter") / "laid.json"


def shipped_notebooks() -> Path:
    """Return the folder of the notebooks as shipped: packed in an installed library, or in the checkout."""
    packed = PACKAGE / "notebooks"
    return packed if packed.is_dir() else PACKAGE.parent / "notebooks"


def default_folder() -> Path:
    """Return where the copy lives: `.live` in a checkout, else in the user's own data folder."""
    return live_folder()


def free_folder(first: Path) -> Path:
    """Return `first`, or a folder beside it while a server already works in `first`."""
    from jupyter_server.serverapp import list_running_servers

    folder, n = first, 1
    while any(list_running_servers(str(folder / ".jupyter" / "runtime"))):
        n += 1
        folder = first.with_name(f"{first.name}-{n}")
    return folder


def copy_notebooks(source: Path, folder: Path) -> list[Path]:
    """Copy the notebooks from `source` to `folder` and return those of the person that were set aside.

    A notebook is copied when it is missing or when the shipped one has changed since it was last copied.
    Where the person had changed the copy, theirs is moved to `kept/` first, so nothing is lost.

    Parameters
    ----------
    source : Path
        The shipped notebooks.
    folder : Path
        The working folder, made if missing.

    Returns
    -------
    list of Path
        Where changed copies were moved to.
    """
    laid = _read_laid(folder)
    kept = []
    for shipped in sorted(source.glob("*.ipynb")):
        copy, mark = folder / shipped.name, cells_mark(shipped)
        if copy.is_file() and laid.get(shipped.name) == mark:
            continue
        if copy.is_file() and cells_mark(copy) not in (mark, laid.get(shipped.name)):
            kept.append(_set_aside(copy))
        folder.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(shipped, copy)
        sign_notebook(folder, nbformat.read(copy, as_version=4))
        laid[shipped.name] = mark
    _write_laid(folder, laid)
    return kept


def laid_names(folder: Path) -> frozenset[str]:
    """Return the names of the notebooks that were copied into a working folder by us."""
    return frozenset(_read_laid(folder))


def sign_notebook(folder: Path, notebook: nbformat.NotebookNode) -> None:
    """Sign the outputs as our own; a browser shows unsigned pictures and widgets as plain text."""
    data = folder / ".jupyter" / "data"
    data.mkdir(parents=True, exist_ok=True)
    NotebookNotary(data_dir=str(data)).sign(notebook)


def cells_mark(notebook: Path) -> str:
    """Return a checksum of what a person can change in a notebook: its cells, without their outputs."""
    try:
        cells = json.loads(notebook.read_text(encoding="utf-8"))["cells"]
        text = json.dumps([(cell["cell_type"], "".join(cell["source"])) for cell in cells])
    except (ValueError, KeyError, TypeError):
        return "unreadable"
    return hashlib.sha256(text.encode()).hexdigest()


def server_log(folder: Path) -> Path:
    """Return the file that takes what the server prints, so that the person's terminal stays readable."""
    return folder / ".jupyter" / "server.log"


def jupyter_env(folder: Path, token: str) -> dict[str, str]:
    """Return the variables that keep our server apart from the person's own Jupyter.

    Our kernels run the Python that runs this, import this very library, and know that they are live.
    """
    own = folder / ".jupyter"
    _write_kernel(own / "kernels" / "python3")
    env = {
        "JUPYTER_CONFIG_DIR": str(own / "config"),
        "JUPYTER_CONFIG_PATH": str(SHARE / "config"),
        "JUPYTER_DATA_DIR": str(own / "data"),
        "JUPYTER_RUNTIME_DIR": str(own / "runtime"),
        "JUPYTERLAB_SETTINGS_DIR": str(own / "config" / "settings"),
        "JUPYTERLAB_WORKSPACES_DIR": str(own / "config" / "workspaces"),
        "JUPYTER_TOKEN": token,
    }
    return env | _import_path() | {"JUPYTER_PATH": _joined(own, SHARE), "COACHLIB_LIVE": "1"}


def _joined(*folders: Path) -> str:
    separator = ";" if sys.platform == "win32" else ":"
    return separator.join(str(folder) for folder in folders)


def _write_kernel(folder: Path) -> None:
    """Write a kernel of the usual name that starts this very Python, whatever else is registered."""
    argv = [sys.executable, "-m", "ipykernel_launcher", "-f", "{connection_file}"]
    spec = {"argv": argv, "display_name": "Python 3", "language": "python", "env": _import_path()}
    _write(folder / "kernel.json", json.dumps(spec, indent=1))


def _import_path() -> dict[str, str]:
    """Return the import path of a checkout that was not installed; nothing for an installed library."""
    is_checkout = (PACKAGE.parent / "pyproject.toml").is_file()
    return {"PYTHONPATH": str(PACKAGE.parent)} if is_checkout else {}


def _set_aside(copy: Path) -> Path:
    target = copy.parent / "kept" / f"{copy.stem} {time.strftime('%Y-%m-%d %H%M%S')}.ipynb"
    target.parent.mkdir(exist_ok=True)
    return copy.rename(target)


def _read_laid(folder: Path) -> dict[str, str]:
    try:
        return dict(json.loads((folder / _LAID).read_text(encoding="utf-8")))
    except (FileNotFoundError, ValueError):
        return {}


def _write_laid(folder: Path, laid: dict[str, str]) -> None:
    _write(folder / _LAID, json.dumps(laid, indent=1, sort_keys=True))


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
