"""The pages a person sees: the front page, the list of lessons, every notebook as a page.

Two servers show them. The notebook server has them beside the notebooks, as a server extension. The server
for tablets has them alone: no notebook, no list of files or kernels can be asked of it.
"""

import asyncio
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import nbformat
from jupyter_server.base.handlers import JupyterHandler, Template404
from jupyter_server.utils import url_path_join
from tornado import web
from tornado.ioloop import IOLoop
from voila.app import Voila
from voila.shutdown_kernel_handler import VoilaShutdownKernelHandler

from coachlib.opener.notebook_page import PAGES, RUNS, stored_page
from coachlib.opener.server import FRONT, RENDERED
from coachlib.records.log.logbook import Logbook
from coachlib.views.font import font_face
from coachlib.views.front.front_page import front_page, lessons_page
from coachlib.views.look import shared
from coachlib.views.print.page import speak_for_server

STYLES = ("look.css", "page_bar.css", "page.css")
NO_FORMULAS = "voila/templates/coach/static/no_formulas.js"


class CoachPage(JupyterHandler):
    """Answers with one of our own pages; whoever asks has to know the token.

    Parameters
    ----------
    pages : PagesHere
        Where the pages lie.
    """

    def initialize(self, pages: "PagesHere") -> None:
        """Take what is the same for all addresses of a server."""
        self.pages = pages
        self.set_header("Cache-Control", "no-store")


class Front(CoachPage):
    """The front page; it is made anew each time, for the log may have grown."""

    @web.authenticated
    async def get(self) -> None:
        """Send it; the log is read beside the server's own work."""
        self.finish(await asyncio.to_thread(lambda: front_page(Logbook(), f"{FRONT}/page/")))


class Lessons(CoachPage):
    """The list of lessons."""

    @web.authenticated
    def get(self) -> None:
        """Send it."""
        self.finish(lessons_page("page/"))


class NotebookPage(CoachPage):
    """A notebook as a page: one with a panel is run for whoever asks, any other is sent as it is stored."""

    @web.authenticated
    async def get(self, name: str) -> None:
        """Send the stored page, or lead to the one that runs."""
        if name not in self.pages.names():
            raise web.HTTPError(404)
        notebook = await asyncio.to_thread(nbformat.read, self.pages.folder / name, 4)
        if RUNS in notebook.metadata:
            where = url_path_join(self.base_url, self.pages.rendered, name)
            room = self.get_query_argument("room", "")
            self.redirect(f"{where}?room={room}" if room in ("0", "1") else where)
        else:
            is_beside = self.pages.is_beside_notebooks
            self.finish(await asyncio.to_thread(stored_page, notebook, name, is_beside_notebooks=is_beside))


class Style(CoachPage):
    """The style rules of all pages, with the packed font."""

    @web.authenticated
    def get(self) -> None:
        """Send the rules; they stay the same as long as the server runs."""
        self.set_header("Content-Type", "text/css; charset=utf-8")
        self.set_header("Cache-Control", "private, max-age=3600")
        self.finish(font_face() + "\n".join(map(shared, STYLES)))


@dataclass(frozen=True)
class PagesHere:
    """Where a server keeps its pages, below which address they run, and whether notebooks lie beside them."""

    folder: Path
    rendered: str
    is_beside_notebooks: bool

    def names(self) -> set[str]:
        """Return the file names of the pages."""
        return {path.name for path in self.folder.glob("*.ipynb")}

    def handlers(self, base_url: str) -> list[Any]:
        """Return what answers to which address."""
        answers = {
            "": Front,
            "/lessons": Lessons,
            "/page.css": Style,
            r"/page/([^/]+\.ipynb)": NotebookPage,
        }
        front = url_path_join(base_url, FRONT)
        ending = (url_path_join(base_url, r"/voila/api/shutdown/(.*)"), EndKernel)
        return [ending, *((front + below, handler, {"pages": self}) for below, handler in answers.items())]


class EndKernel(VoilaShutdownKernelHandler):
    """Ends the kernel of a page that was closed.

    A closing page cannot send the sign against forged requests that a server wants beside its cookie. Whoever
    asks is let in by the cookie, and has to know the kernel's id, which is no guess.
    """

    def check_xsrf_cookie(self) -> None:
        """Let the request pass without that sign."""


def _load_jupyter_server_extension(server_app: Any) -> None:
    """Put the pages beside the notebooks of a running Jupyter server, as it asks its extensions to do."""
    base_url, web_app = server_app.base_url, server_app.web_app
    pages = PagesHere(Path(server_app.root_dir) / PAGES, f"{RENDERED}/{PAGES}", is_beside_notebooks=True)
    web_app.add_handlers(".*$", pages.handlers(base_url))
    web_app.settings["mathjax_url"] = url_path_join(base_url, NO_FORMULAS)
    IOLoop.current().add_callback(_speak_in, web_app.settings)  # Voilà is loaded after us


def _speak_in(settings: dict[str, Any]) -> None:
    """Say in our words what a server says in place of a page."""
    speak_for_server(settings["jinja2_env"])
    speak_for_server(settings["voila_jinja2_env"])


class PagesOnly(Voila):
    """The server for tablets: the front page in the place of the list of files, and the pages."""

    def init_handlers(self) -> list[Any]:
        """Return what answers to which address; no address tells which files there are."""
        front = url_path_join(self.base_url, FRONT)
        hidden = ("/voila/tree", "/voila/api/contents")
        usual = [one for one in super().init_handlers() if not any(part in one[0] for part in hidden)]
        home = (self.base_url, web.RedirectHandler, {"url": front, "permanent": False})
        pages = PagesHere(Path(self.root_dir), RENDERED, is_beside_notebooks=False)
        return [home, *pages.handlers(self.base_url), *usual, (".*", Template404)]

    def init_settings(self) -> dict[str, Any]:
        """Return the server's settings; what it says in place of a page is said in our words."""
        settings: dict[str, Any] = super().init_settings()
        _speak_in(settings)
        return settings


if __name__ == "__main__":
    PagesOnly.launch_instance()
