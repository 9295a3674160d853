"""Pages to print: HTML filled from templates in which every text is data, and PDF where that can be made."""

import importlib.util
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from coachlib.errors import InputError, checked_choice
from coachlib.files import read_text
from coachlib.views.font import font_face
from coachlib.views.look import shared

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

PaperSize = Literal["A4", "letter"]
SHEETS: tuple[PaperSize, ...] = ("A4", "letter")

TEMPLATES = Path(__file__).parent / "templates"


def filled(template_name: str, /, **facts: Any) -> str:
    """Return a template, a file of the folder ``templates``, as HTML with its facts filled in.

    Texts are shown as they are, whatever stands in them; only what went through :func:`own_markup` is markup.

    Raises
    ------
    DataFileError
        If there is no such template.
    """
    return _environment().get_template(template_name).render(facts)


def own_markup(written: str) -> "Markup":
    """Return a drawing or a style of our own writers as markup; a person's text never comes this way."""
    from markupsafe import Markup

    return Markup(written)


def speak_for_server(environment: "Environment") -> None:
    """Let a web server's own templates give way to ours of the same name: login, page not found, error."""
    from jinja2 import ChoiceLoader, FileSystemLoader

    others = [] if environment.loader is None else [environment.loader]
    environment.loader = ChoiceLoader([FileSystemLoader(TEMPLATES), *others])
    environment.globals |= _own_parts()


def _own_parts() -> dict[str, Any]:
    """Return what templates call: the packed font, and the files that all pages share."""
    return {
        "font_face": lambda *weights: own_markup(font_face(*weights)),
        "shared": lambda name: own_markup(shared(name)),
    }


@cache
def _environment() -> "Environment":
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    made = Environment(
        loader=FunctionLoader(lambda name: read_text(TEMPLATES / name)),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
    )
    made.globals |= _own_parts()
    return made


def can_make_pdf() -> bool:
    """Return whether the extra that makes PDF files is installed; any browser prints pages."""
    return importlib.util.find_spec("weasyprint") is not None


def page_pdf(page: str, sheet: PaperSize = "A4") -> bytes:
    """Return a page from :func:`filled` as PDF on that paper; nothing that it names elsewhere is fetched.

    Raises
    ------
    InputError
        If the sheet is unknown, or the extra ``pdf`` is not installed.
    """
    checked_choice("sheet", sheet, SHEETS)
    try:
        import weasyprint
    except (ImportError, OSError) as error:  # OSError: the system's text library is missing
        message = (
            "Save the page, open it in your browser, choose “Print” and there “Save as PDF”. "
            "A PDF cannot be made here: the extra pdf (WeasyPrint) is not installed."
        )
        raise InputError(message) from error
    size = weasyprint.CSS(string=f"@page {{ size: {sheet}; }}")
    nothing_outside = weasyprint.urls.URLFetcher(allowed_protocols=("data",))
    made = weasyprint.HTML(string=page, url_fetcher=nothing_outside).write_pdf(stylesheets=[size])
    return bytes(made)
