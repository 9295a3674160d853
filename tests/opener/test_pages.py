"""What the two servers answer to who knows the token: front page and pages.

Our own promises; no outside source.
"""

import http.client
import json
import re
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import nbformat
import pytest

from coachlib import Bowler, Line, Session
from coachlib.opener import folder as folders
from coachlib.opener import server as servers
from coachlib.records import Logbook

TOKEN = "a-token-for-tests"
Starter = Callable[..., servers.Server]


@pytest.fixture
def start(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Starter]:
    """Return a function that starts a server on a copy of the notebooks, with a log of its own."""
    monkeypatch.setenv("COACHLIB_DATA", str(tmp_path / "home"))
    folders.copy_notebooks(folders.shipped_notebooks(), tmp_path / "live")
    started: list[servers.Server] = []

    def start_one(how: Callable[..., servers.Server], n_warm: int = 0) -> servers.Server:
        port = servers.any_port("127.0.0.1")
        started.append(how(tmp_path / "live", "127.0.0.1", port, TOKEN, n_warm=n_warm))
        servers.wait_for_server(started[-1])
        return started[-1]

    yield start_one
    for server in started:
        servers.stop(server)


def _text(server: servers.Server, path: str, token: str = TOKEN) -> str:
    with urllib.request.urlopen(f"{server.base_url}/{path}?token={token}", timeout=60) as answer:
        return str(answer.read().decode())


def _refused(server: servers.Server, path: str) -> int:
    with pytest.raises(urllib.error.HTTPError) as refused:
        _text(server, path)
    return refused.value.code


@pytest.mark.parametrize("how", [servers.start_lab, servers.start_app])
def test_both_servers_show_the_front_page_and_stored_pages(start: Starter, how: Starter) -> None:
    server = start(how)
    Logbook().start(Session(Bowler(name="<Ilta>"), Line(25, 14), lane="7"))
    front = _text(server, servers.FRONT)
    assert "Go on with &lt;Ilta&gt;" in front
    assert "coach/page/41_practice_lane.ipynb" in front
    assert "page/30c_parallel_moves.ipynb" in _text(server, "coach/lessons")
    page = _text(server, "coach/page/61_fitting_and_statistics.ipynb")
    assert ("Open as notebook" in page) is (how is servers.start_lab)
    assert "Coach Sans" in _text(server, "coach/page.css")
    assert _refused(server, "coach/page/no_such_page.ipynb") == 404
    assert "Go on" not in _text(server, servers.FRONT, token="wrong"), "a page for who knows the token"


@pytest.mark.parametrize(
    ("asked", "led"), [("?room=1", "?room=1"), ("?room=0", "?room=0"), ("?room=x%0a", "")]
)
def test_an_address_that_asks_for_a_room_still_does_where_it_leads(
    start: Starter, asked: str, led: str
) -> None:
    server = start(servers.start_app)
    connection = http.client.HTTPConnection(server.host, server.port, timeout=60)
    address = f"/coach/page/10_lane_side.ipynb{asked}"
    connection.request("GET", address, headers={"Authorization": f"token {TOKEN}"})
    answer = connection.getresponse()
    connection.close()
    assert answer.status == 302
    assert answer.headers["Location"] == f"/voila/render/10_lane_side.ipynb{led}"


def test_the_server_for_tablets_has_pages_alone(start: Starter, tmp_path: Path) -> None:
    (tmp_path / "live" / "own.ipynb").write_text(json.dumps(nbformat.v4.new_notebook()), encoding="utf-8")
    server = start(servers.start_app)
    asked = (
        "api/contents",
        "api/kernels",
        "api/sessions",
        "voila/tree",
        "voila/api/contents/",
        "doc/tree/own.ipynb",
    )
    assert {path: _refused(server, path) for path in asked} == dict.fromkeys(asked, 404)
    assert _refused(server, "coach/page/own.ipynb") == 404
    assert "At the lane" in _text(server, ""), "the front page stands where the list of files was"


def _answer(server: servers.Server, path: str) -> tuple[int, str]:
    """Return the status and the page of whoever has no token."""
    try:
        with urllib.request.urlopen(f"{server.base_url}/{path}", timeout=60) as answer:
            return answer.status, answer.read().decode()
    except urllib.error.HTTPError as refused:
        return refused.code, refused.read().decode()


@pytest.mark.parametrize("how", [servers.start_lab, servers.start_app])
def test_a_wrong_address_leads_to_the_front_page_and_one_without_token_says_where_it_is(
    start: Starter, how: Starter
) -> None:
    server = start(how)
    for path in ("coach/page/no_such_page.ipynb", "coach/lesson", "voila/render/no_such_page.ipynb"):
        status, page = _answer(server, f"{path}?token={TOKEN}")
        assert status == 404, path
        assert "There is no page at this address" in page, path
        assert 'href="/coach"' in page, path
    status, page = _answer(server, servers.FRONT)
    assert status == 200
    assert "On the computer that runs the coach" in page
    assert 'name="_xsrf"' in page
    assert "Jupyter" not in page, "whoever sees it knows the coach alone"


def test_links_of_running_pages_keep_to_the_server_s_own_place(tmp_path: Path) -> None:
    from jinja2 import DictLoader, Environment

    template = (folders.SHARE / "voila/templates/coach/index.html.j2").read_text(encoding="utf-8")
    block = re.search(r"{%- block markdowncell -%}.*?{%- endblock markdowncell -%}", template)
    assert block
    stock = '{% block markdowncell %}<a href="/coach/page/30_moves.ipynb">moves</a>{% endblock %}'
    loader = DictLoader({"stock": stock, "ours": f'{{% extends "stock" %}}{block.group()}'})
    shown = Environment(loader=loader, autoescape=True).get_template("ours")
    assert 'href="/club/coach/page/30' in shown.render(resources={"base_url": "/club/"})
