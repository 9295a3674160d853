"""The sweep: pieces, resuming after a kill, settings, and the same counts on a cluster."""

import json
import os
import signal
import subprocess
import sys
import time

import numpy as np
import pytest

pytest.importorskip("numba", reason="the pin simulator needs the extra 'pins'")

from coachlib.errors import DataFileError, InputError
from coachlib.physics.pins.build import sweep
from coachlib.physics.pins.rack.throw import throw_racks

STEP_MS = 0.1
COMMAND = [sys.executable, "-m", "coachlib.physics.pins.build.sweep", "--step-ms", "0.1", "--jobs", "1"]


def far_s():
    """Return a stop time that no test reaches."""
    return time.monotonic() + 600.0


def throw(folder, n_racks, stop_s=None, seed=1):
    return sweep.throw_missing(folder, n_racks, seed, STEP_MS, stop_s or far_s(), 1, lambda n_done: None)


def test_racks_are_thrown_once_and_only_the_missing_ones_later(tmp_path):
    assert throw(tmp_path, 20) == 20
    first = sweep.read_thrown_racks(tmp_path)
    assert throw(tmp_path, 36) == 36
    again = sweep.read_thrown_racks(tmp_path)
    assert again[:, 0].tolist() == list(range(36))
    assert np.array_equal(again[:16], first[:16])


def test_a_rack_of_the_sweep_is_the_rack_thrown_alone(tmp_path):
    throw(tmp_path, 8)
    points = sweep.design.arrival_points(5, 1, 1)
    alone = throw_racks(*points.T, seed=1, first_index=5, step_ms=STEP_MS)
    assert sweep.read_thrown_racks(tmp_path)[5, 1] == int((alone.standing[0] * (1 << np.arange(10))).sum())


def test_a_killed_sweep_keeps_what_it_had_and_goes_on(tmp_path):
    process = subprocess.Popen(
        [*COMMAND, "--racks", "4000", "--out", str(tmp_path)], stderr=subprocess.DEVNULL
    )
    until_s = time.monotonic() + 120.0
    while len(sweep.read_thrown_racks(tmp_path)) < 32 and time.monotonic() < until_s:
        time.sleep(0.1)
    os.kill(process.pid, signal.SIGKILL)
    process.wait()
    kept = sweep.read_thrown_racks(tmp_path)
    assert len(kept) >= 32
    n_wanted = (len(kept) // 16 + 2) * 16
    assert throw(tmp_path, n_wanted) == n_wanted
    assert np.array_equal(sweep.read_thrown_racks(tmp_path)[: len(kept)], kept)


def test_a_line_torn_by_a_kill_is_thrown_again(tmp_path):
    throw(tmp_path, 16)
    whole = (tmp_path / "racks.csv").read_bytes()
    (tmp_path / "racks.csv").write_bytes(whole[:-4])
    assert len(sweep.read_thrown_racks(tmp_path)) == 15
    assert throw(tmp_path, 16) == 16


def test_out_of_time_starts_no_piece(tmp_path):
    assert throw(tmp_path, 64, stop_s=time.monotonic() - 1.0) == 0
    assert throw(tmp_path, 16) == 16


def test_a_folder_of_other_settings_is_refused(tmp_path):
    throw(tmp_path, 4)
    with pytest.raises(
        InputError, match=r"started with other seed; expected racks of one setting a folder\. Give"
    ):
        throw(tmp_path, 8, seed=2)
    assert len(sweep.read_thrown_racks(tmp_path)) == 4


def test_settings_hold_every_number_of_the_simulator(tmp_path):
    throw(tmp_path, 1)
    settings = json.loads((tmp_path / "settings.json").read_text())
    assert settings["numbers"]["pin_deck_restitution"] == 0.65
    assert {"numba", "numpy", "python"} <= set(settings["versions"])


def test_a_damaged_line_is_named(tmp_path):
    (tmp_path / "racks.csv").write_text("index,standing,is_settled,time_ms\n0,0,1,500\n1,zero,1,500\n")
    with pytest.raises(
        DataFileError, match=r"racks\.csv, line 3: '1,zero,1,500'; expected four whole numbers"
    ):
        sweep.read_thrown_racks(tmp_path)


def test_the_design_is_the_same_in_pieces_and_three_times_denser_near_the_pins():
    whole = sweep.design.arrival_points(0, 4096, 1)
    assert np.array_equal(whole[1000:1100], sweep.design.arrival_points(1000, 100, 1))
    inside = ((whole[:, 0] > 14) & (whole[:, 0] < 24)).sum() / 10.0
    outside = ((whole[:, 0] < 14) | (whole[:, 0] > 24)).sum() / 14.0
    assert inside / outside == pytest.approx(3.0, abs=0.05)
    assert whole.min(axis=0) == pytest.approx([8, -2, 10, 6], abs=0.1)
    assert whole.max(axis=0) == pytest.approx([32, 9, 22, 16], abs=0.1)


def test_the_progress_line_tells_the_time_left():
    line = sweep.progress_line(n_done=600, n_start=300, n_racks=1200, spent_s=30.0)
    assert line == "[###############...............] 600 of 1200 racks, 10.0 a second, 1.0 min left"
    assert "unknown" in sweep.progress_line(300, 300, 1200, 0.0)


def test_a_dask_cluster_gives_the_same_counts_point_by_point(tmp_path):
    distributed = pytest.importorskip("distributed", reason="a cluster needs the extra 'cluster'")
    throw(tmp_path / "here", 48)
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, dashboard_address=None, local_directory=str(tmp_path / "dask")
    ) as cluster:
        options = ["--racks", "48", "--out", str(tmp_path / "there"), "--step-ms", "0.1"]
        assert sweep.main([*options, "--scheduler", cluster.scheduler_address]) == 0
    assert np.array_equal(
        sweep.read_thrown_racks(tmp_path / "here"), sweep.read_thrown_racks(tmp_path / "there")
    )


@pytest.mark.parametrize(
    ("options", "match"),
    [
        (["--racks", "0"], "--racks is 0; expected 1 to 1e+07 racks"),
        (
            ["--scheduler", "tcp://127.0.0.1:9"],
            "gives no answer; expected the address of a running Dask scheduler",
        ),
        (["--step-ms", "5"], "step_ms is 5.0; expected 0.001 to 0.1 ms"),
    ],
)
def test_a_wrong_option_is_told_in_one_line(options, match, tmp_path, capsys):
    if "--scheduler" in options:
        pytest.importorskip("distributed", reason="a cluster needs the extra 'cluster'")
    assert sweep.main(["--out", str(tmp_path), "--jobs", "1", *options]) == 2
    assert match in capsys.readouterr().err
