"""From the clinic's form to papers: what was typed, read with clear messages, and the files asked for.

Nothing here knows a widget.
"""

import contextlib
from dataclasses import dataclass
from pathlib import Path
from typing import cast

from coachlib.errors import InputError, number_text
from coachlib.records.log.store import default_path, write_private
from coachlib.study.questions.worksheet_levels import LEVELS, LevelName
from coachlib.study.questions.worksheets import LAST_SEED, MOST_PAPERS, worksheet, worksheets
from coachlib.views.panels.shared.typed import Answers, FormReader, quoted
from coachlib.views.print.page import SHEETS, PaperSize, page_pdf
from coachlib.views.print.worksheet_page import answer_pages, lane_pages, worksheet_pages
from coachlib.world.hand import HANDS, Hand
from coachlib.world.parsing import read_number

PARTS = {"papers": "the first paper", "answers": "its answers", "lanes": "lane paper"}
"""What may be looked at before it is saved."""

_ODD_SIGNS = frozenset('<>|?*"')
FORMS = {"html": "pages for the browser", "A4": "pages and PDF, A4", "letter": "pages and PDF, letter"}
"""In what form the papers may be saved."""

MOST_LETTERS = 60
BLANK: Answers = {
    "level": "first",
    "hand": "right",
    "n_papers": "20",
    "seed": "1",
    "title": "Clinic",
    "form": "html",
    "part": "papers",
    "folder": "",
}
"""What stands in the form at first."""


@dataclass(frozen=True)
class ClinicOrder:
    """What a teacher asks for.

    Parameters
    ----------
    level : {"first", "second", "third"}
        See :data:`coachlib.study.questions.worksheet_levels.LEVELS`.
    hand : {"right", "left"}
        Of the class.
    n_papers, seed : int
        How many, and the number of the first.
    title : str
        What stands on top of each page.
    sheet : {"A4", "letter"} or None
        Paper of the PDF files; None for none.
    """

    level: LevelName
    hand: Hand
    n_papers: int
    seed: int
    title: str
    sheet: PaperSize | None = None


def order_from(answers: Answers) -> ClinicOrder:
    """Return what the form asks for.

    Raises
    ------
    InputError
        Telling all wrong fields at once.
    """
    reader = FormReader(answers)
    level = reader.choice("level", "Level", tuple(LEVELS)) or "first"
    hand = reader.choice("hand", "Hand of the class", HANDS) or "right"
    fix = "For a larger class print twice, the second time with another first number."
    n_papers = _whole(reader, "n_papers", "Number of papers", 1, MOST_PAPERS, fix)
    last, fix = LAST_SEED - n_papers + 1, "Type the number of the first paper, such as 1."
    seed = _whole(reader, "seed", "Number of the first paper", 0, last, fix)
    title = reader.letters("title", "Title", MOST_LETTERS) or "Clinic"
    sheet = reader.choice("form", "Save as", tuple(FORMS))
    reader.finish()
    as_sheet = next((known for known in SHEETS if known == sheet), None)
    return ClinicOrder(cast(LevelName, level), cast(Hand, hand), n_papers, seed, title, as_sheet)


def page_preview(order: ClinicOrder, part: str) -> str:
    """Return the first paper of an order, its answers, or lane paper, as one HTML text."""
    if part == "lanes":
        return lane_pages(order.hand, 1, f"{order.title}: lane paper")
    paper = (worksheet(order.level, order.seed, order.hand),)
    return answer_pages(paper, order.title) if part == "answers" else worksheet_pages(paper, order.title)


def clinic_pages(order: ClinicOrder) -> dict[str, str]:
    """Return the HTML texts of an order by file name without its ending."""
    papers = worksheets(order.level, order.n_papers, order.seed, order.hand)
    name = f"{order.level}_{order.hand}_{papers[0].seed}_to_{papers[-1].seed}"
    return {
        f"{name}_papers": worksheet_pages(papers, order.title),
        f"{name}_answers": answer_pages(papers, order.title),
        f"lanes_{order.hand}": lane_pages(order.hand, 1, f"{order.title}: lane paper"),
    }


def page_titles(order: ClinicOrder) -> tuple[str, str, str]:
    """Return what a teacher calls the pages of an order, in the order of :func:`clinic_pages`."""
    last = order.seed + order.n_papers - 1
    which = f"paper {order.seed}" if order.n_papers == 1 else f"papers {order.seed} to {last}"
    students = f"{which[0].upper()}{which[1:]}, for the students"
    return students, f"Answers to {which}, for you", "Lane paper to draw on"


def save_pages(pages: dict[str, str], folder: Path, sheet: PaperSize | None = None) -> tuple[Path, ...]:
    """Write pages to a folder, and as PDF where a sheet is named; return the files.

    Parameters
    ----------
    folder : Path
        Made if missing; files of the same names are written anew.
    sheet : {"A4", "letter"}, optional
        Paper of the PDF files.

    Raises
    ------
    InputError
        If PDF is asked for and cannot be made here; then nothing is written.
    DataFileError
        If the folder lies inside the library's source or cannot be written to.
    """
    files = {f"{name}.html": page.encode() for name, page in pages.items()}
    if sheet is not None:
        files |= {f"{name}.pdf": page_pdf(page, sheet) for name, page in pages.items()}
    return tuple(write_private(folder / name, content) for name, content in files.items())


def folder_of(answers: Answers) -> Path:
    """Return the whole path of the folder that was typed; else `clinic` beside the log.

    Raises
    ------
    InputError
        If the folder above the one typed does not exist: most often a slip, and no folder is made for it.
    """
    typed = str(answers.get("folder") or "").strip()
    if not typed:
        return default_path().parent.absolute() / "clinic"
    with contextlib.suppress(OSError, RuntimeError, ValueError):  # a name no disk takes, an unknown ~somebody
        folder = Path(typed).expanduser().absolute()
        is_plain = ".." not in folder.parts and not _ODD_SIGNS & set(typed)
        if is_plain and (folder.is_dir() or (folder.parent.is_dir() and not folder.exists())):
            return folder
    message = (
        f"Folder: check the spelling of {quoted(typed)}, or make the folder above it first. We can use a "
        "folder that exists or a new one directly inside it, without .. and < > | ? *. Nothing was saved."
    )
    raise InputError(message, {"folder": message})


def _whole(reader: FormReader, name: str, label: str, low: int, high: int, fix: str) -> int:
    """Return a whole number that was typed; anything else is a problem, and counts as the lowest."""
    written = reader.text(name)
    number = read_number(written)
    if number is None or number % 1 or not low <= number <= high:
        what = f"not {quoted(written)}" if written else "the field is empty"
        allowed = f"type a whole number, {number_text(low)} to {number_text(high)}"
        reader.problems[name] = f"{label}: {allowed}, {what}. {fix}"
        return low
    return int(number)
