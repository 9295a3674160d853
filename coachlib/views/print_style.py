"""What all printed pages share: black on white, A4 and letter, inert text, and PDF where that can be made."""

import html
from collections.abc import Sequence
from typing import Literal

from coachlib.errors import InputError, checked_choice
from coachlib.views.font import font_face

Sheet = Literal["A4", "letter"]
SHEETS: tuple[Sheet, ...] = ("A4", "letter")

# The text is 180 mm wide: what A4 and letter both hold inside 15 mm margins.
PRINT_STYLE = """
@page { margin: 12mm 15mm; }
body { font: 12.5px/1.35 "Coach Sans", Arial, "Liberation Sans", sans-serif; color: #000; background: #fff;
       font-variant-numeric: tabular-nums; max-width: 180mm; margin: 0 auto; }
h1 { font-size: 26px; line-height: 1.1; margin: 2px 0; }
h2 { font-size: 14px; margin: 6px 0 2px; border-bottom: 1px solid #000; }
p { margin: 2px 0; } ul { margin: 2px 0; padding-left: 16px; }
.line { border-left: 6px solid #000; padding-left: 12px; }
.who, .small { font-size: 11.5px; }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 20px; }
svg { display: block; width: 100%; height: auto; margin: 6px 0; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; margin-top: 8px; }
th, td { text-align: left; vertical-align: top; padding: 3px 8px 3px 0; border-bottom: 1px solid #999; }
thead { display: table-header-group; } tr, section { break-inside: avoid; }
.sheet + .sheet { break-before: page; }
@media screen { body { padding: 16px; } }
"""


def printed_page(title: str, body: Sequence[str], style: str = "") -> str:
    """Return one HTML text to print: no script, nothing from elsewhere.

    Parameters
    ----------
    title : str
        Of the window and the file; taken as plain text.
    body : sequence of str
        Parts of HTML whose texts went through :func:`safe`; empty ones are left out. What is of the class
        ``sheet`` begins a new page.
    style : str, optional
        What a kind of page adds to :data:`PRINT_STYLE`.
    """
    styles = f"{font_face(400, 700)}{PRINT_STYLE}{style}"
    head = f'<meta charset="utf-8"><title>{safe(title)}</title><style>{styles}</style>'
    return f'<!DOCTYPE html>\n<html lang="en"><head>{head}</head>\n<body>\n{joined(body)}\n</body></html>\n'


def joined(parts: Sequence[str]) -> str:
    """Return parts of HTML line by line, without the empty ones."""
    return "\n".join(part for part in parts if part)


def safe(text: str) -> str:
    """Return a text as data: whatever stands in it, it is never markup."""
    return html.escape(text, quote=True)


def page_pdf(page: str, sheet: Sheet = "A4") -> bytes:
    """Return a printed page as PDF.

    Parameters
    ----------
    page : str
        From :func:`printed_page`. Nothing that it names elsewhere is fetched.
    sheet : {"A4", "letter"}
        Size of the paper.

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
            "A PDF cannot be made here: the extra pdf (WeasyPrint) is not installed. Save the page instead, "
            "open it in the browser, choose “Print” and there “Save as PDF”."
        )
        raise InputError(message) from error
    size = weasyprint.CSS(string=f"@page {{ size: {sheet}; }}")
    nothing_outside = weasyprint.urls.URLFetcher(allowed_protocols=("data",))
    made = weasyprint.HTML(string=page, url_fetcher=nothing_outside).write_pdf(stylesheets=[size])
    return bytes(made)
