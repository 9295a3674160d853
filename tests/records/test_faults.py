"""Small versions of what `make bench-faults` measures, and that each of its checks can fail.

All invariants; no outside source. A kill cannot show what a power cut does: there the file system has to keep
its word about synchronisation. The read-only folder is tested in tests/records/log/test_store.py.
"""

import os
import re
from pathlib import Path

import pytest

from coachlib.records import Logbook
from coachlib.views.panels.lane_side.lane_side import LaneSide
from tests import fault_trials as trials
from tests.hostile import hostile_texts

posix_only = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs processes made by fork")
SCRIPTS = Path(__file__).resolve().parents[2] / "coachlib" / "views" / "panels"


@posix_only
def test_killed_writers_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "logbook.sqlite"
    Logbook(path).sessions()
    found = trials.killed_writers(path, 24)
    assert found.n_kills == 24
    assert found.n_acknowledged > 72
    assert (found.n_lost, found.n_damaged) == (0, 0)
    assert found.n_extra <= 1  # the one event whose acknowledgement the kill cut off


def _liar(path: Path, say: trials.Say) -> None:
    """Say that a ball is logged before it is."""
    logbook = Logbook(path)
    key = logbook.start(trials.START)
    for n in range(1000):
        say(f"{key} {n + 1}\n")
        logbook.append(key, "shot", {"shot": trials.numbered_shot(n)})


@posix_only
def test_a_loss_would_be_seen(tmp_path: Path) -> None:
    path = tmp_path / "logbook.sqlite"
    Logbook(path).sessions()
    assert trials.killed_writers(path, 8, writer=_liar).n_lost > 0


def test_damage_would_be_seen(tmp_path: Path) -> None:
    path = tmp_path / "logbook.sqlite"
    logbook = Logbook(path)
    for _ in range(40):
        logbook.start(trials.START)
    assert trials.is_intact(path)
    content = bytearray(path.read_bytes())
    content[8192:20480] = b"\xa5" * 12288
    path.write_bytes(content)
    assert not trials.is_intact(path)


@posix_only
def test_two_writers_at_once(tmp_path: Path) -> None:
    found = trials.two_writers(tmp_path / "logbook.sqlite", 400)
    assert found[:4] == (400, 400, 0, 0)


@posix_only
@pytest.mark.parametrize("name", [f"{n}.sqlite" for n in range(12)])
def test_log_made_by_several_at_once(tmp_path: Path, name: str) -> None:
    path, gate = tmp_path / name, os.pipe()

    def start_at_the_signal(say: trials.Say) -> None:
        os.close(gate[1])
        os.read(gate[0], 1)  # returns when the last end for writing is closed: at once for all
        say(Logbook(path).start(trials.START))

    children = [trials.forked(start_at_the_signal) for _ in range(8)]
    os.close(gate[1])
    keys = [trials.read_until_end(*child) for child in children]
    os.close(gate[0])
    assert sorted(row.key for row in Logbook(path).sessions()) == sorted(keys)


def test_full_disk_is_told_and_keeps_what_was_acknowledged(tmp_path: Path) -> None:
    n_kept, message = trials.written_until_full(tmp_path / "logbook.sqlite")
    assert 3 < n_kept < 1000
    assert re.search(r"has no room left on its disk; .* Free some space and try again", message)


def test_panel_keeps_what_was_typed_when_the_disk_is_full(tmp_path: Path) -> None:
    panel = LaneSide(Logbook(tmp_path / "logbook.sqlite"), session=trials.START)
    typed = {"crossed": "11", "arrival": "high", "note": "x" * 200}
    with trials.full_disk():
        for _ in range(200):
            panel.read(typed)
            if panel.entry.errors:
                break
    assert "has no room left on its disk" in panel.entry.errors["form"]
    assert panel.entry.typed == typed
    session = panel.session
    assert session is not None
    assert panel.running is not None
    assert panel.logbook.replay(panel.running.key).shots == session.shots
    n_balls = len(session.shots)
    panel.read(typed)
    assert not panel.entry.errors
    assert len(panel.logbook.replay(panel.running.key).shots) == n_balls + 1


def test_corrupt_log_is_set_aside_by_the_panel_and_never_written_over(tmp_path: Path) -> None:
    path = tmp_path / "logbook.sqlite"
    Logbook(path).start(trials.START)
    damaged = path.read_bytes()[:4096] + b"\xa5" * 9000
    path.write_bytes(damaged)
    panel = LaneSide(Logbook(path))
    assert panel.shown.offer is not None
    assert "is damaged" in panel.shown.offer["words"]
    assert path.read_bytes() == damaged
    panel.set_log_aside()
    assert (tmp_path / "logbook.aside-1.sqlite").read_bytes() == damaged
    assert Logbook(path).sessions() == ()


def test_hostile_texts_are_kept_listed_exported_and_read_back(tmp_path: Path) -> None:
    texts = hostile_texts(150)
    assert len(texts) == 150
    assert trials.hostile_faults(tmp_path, texts) == []


def test_a_formula_would_be_seen() -> None:
    assert trials.formulas("a,=1+1\r\n") == ["=1+1"]
    assert trials.formulas("a,x;=1+1\r\n") == ["=1+1"]
    assert trials.formulas("a,-2.0,'=1+1\r\n") == []


def test_no_script_of_the_panels_takes_text_for_markup() -> None:
    scripts = sorted(SCRIPTS.rglob("*.js"))
    assert len(scripts) > 3
    risky = re.compile(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function")
    assert {path.name: risky.findall(path.read_text(encoding="utf-8")) for path in scripts} == {
        path.name: [] for path in scripts
    }


def test_a_page_is_looked_at_in_a_frame_that_runs_no_script() -> None:
    for path in SCRIPTS.rglob("*.js"):
        script = path.read_text(encoding="utf-8")
        frames = re.findall(r'make\("iframe", \{[^}]*\}', script)
        assert len(frames) == script.count("iframe")
        assert ("srcdoc" in script) <= bool(frames)
        for frame in frames:
            assert re.search(r'sandbox: "(allow-same-origin)?"', frame)


def test_hostile_texts_are_printed_inert() -> None:
    assert trials.print_faults(hostile_texts(80)) == []


def test_text_that_became_more_than_text_would_be_seen() -> None:
    svg = "<svg><text x='1'>{}</text></svg>"
    plain = trials.tags_of(svg.format("plain"))
    assert trials.tags_of(svg.format("&lt;script&gt;")) == plain
    assert trials.tags_of(svg.format("<script>1</script>")) - plain == {"script "}


def test_season_is_whole_and_timed(tmp_path: Path) -> None:
    path = tmp_path / "logbook.sqlite"
    keys = trials.make_season(path, n_students=3, n_sessions=2, n_shots=30)
    found = trials.season_figures(path, keys)
    assert found.n_shots == 3 * 2 * 30
    assert min(found.list_s, found.trends_s) > 0.0
