"""The guards of the browser tests see what they are for: a check that cannot fail is no check."""

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page

from tests.notebooks.conftest import Guards, OpenPanel

pytestmark = pytest.mark.browser
BAD_PAGES = {
    "outside": '<img src="https://example.org/a.png">',
    "console": "<script>console.error('told')</script>",
    "thrown": "<script>throw new Error('thrown')</script>",
}


@pytest.fixture
def guarded(browser: Browser) -> Iterator[tuple[Page, Guards]]:
    """Return a page whose guards are not checked at the end."""
    context = browser.new_context()
    page, guards = context.new_page(), Guards()
    guards.watch(page)
    yield page, guards
    context.close()


@pytest.mark.parametrize("kind", BAD_PAGES)
def test_a_bad_page_fails(guarded: tuple[Page, Guards], kind: str) -> None:
    page, guards = guarded
    page.set_content(f"<title>a page</title>{BAD_PAGES[kind]}")
    page.wait_for_timeout(200)
    with pytest.raises(AssertionError, match="outside this machine" if kind == "outside" else "had errors"):
        guards.check()


def test_a_good_page_passes(guarded: tuple[Page, Guards]) -> None:
    page, guards = guarded
    page.set_content("<title>a page</title><p>nothing wrong</p>")
    guards.check()


def test_scaffolding_opens_a_notebook_and_checks_what_it_shows(
    open_panel: OpenPanel, scratch_notebook: Callable[[str, list[str]], str]
) -> None:
    widget = "import ipywidgets as w\nw.VBox([w.Dropdown(options=['one'])], _dom_classes=['coach'])"
    name = scratch_notebook("scratch", ["import os; print(os.environ['COACHLIB_DATA'])", widget])
    panel = open_panel("phone", touch=True, notebook=name)
    assert panel.page.get_by_text(str(panel.home)).count() == 1
    assert panel.screenshot("scratch").stat().st_size > 1000
    assert panel.n_nodes() > 3
    found = panel.axe_violations()
    assert any(line.startswith("select-name (critical)") for line in found), (
        "a list without a name is a finding"
    )
