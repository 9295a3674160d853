"""Opening of the library's own data: where it lies, how it is read, and clear errors when it is wrong."""

import tomllib
from pathlib import Path
from typing import Any

from coachlib.errors import DataFileError, shown

_PACKED = Path(__file__).parent / "data"
_CHECKOUT = Path(__file__).parents[1] / "data"


def data_path(name: str) -> Path:
    """Return where a file of the packed data lies, in an installed library or in a checkout.

    Parameters
    ----------
    name : str
        Name below the data folder, with ``/`` between folders: ``rules.toml``, ``patterns/house_41.csv``.

    Raises
    ------
    DataFileError
        If the data holds no such file.
    """
    for folder in (_PACKED, _CHECKOUT):
        if (folder / name).is_file():
            return folder / name
    known = sorted(
        path.relative_to(_data_folder()).as_posix() for path in _data_folder().rglob("*") if path.is_file()
    )
    message = (
        f"data file is {shown(name)}; expected one of {', '.join(known) or 'none, the data folder is missing'}. "
        "Check the name, or install coachlib again."
    )
    raise DataFileError(message)


def _data_folder() -> Path:
    return _PACKED if _PACKED.is_dir() else _CHECKOUT


def read_toml(path: Path) -> dict[str, Any]:
    """Return the content of a TOML file.

    Parameters
    ----------
    path : Path
        The file, UTF-8.

    Raises
    ------
    DataFileError
        If it cannot be opened, is not UTF-8, or is no TOML; names the file and, where there is one, the line.
    """
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8"))
    except OSError as error:
        problem, fix = (
            f"could not be opened ({error.strerror})",
            "a file that can be read. Check its name and place.",
        )
    except UnicodeDecodeError as error:
        problem, fix = (
            f"byte {error.start} is no UTF-8",
            "text saved as UTF-8. Save it again with that encoding.",
        )
    except tomllib.TOMLDecodeError as error:
        problem, fix = str(error), "valid TOML. Mend that line: a text needs quotes, a list needs commas."
    message = f"{path.name}: {problem[0].lower()}{problem[1:]}; expected {fix}"
    raise DataFileError(message)
