"""Tables read between their grid points, against SciPy and NumPy."""

import numpy as np
import pytest
from scipy.ndimage import map_coordinates

from coachlib.interpolation import between_rows, cell_of, multilinear


@pytest.mark.parametrize("n_axes", [1, 2, 3, 4])
def test_a_table_is_read_as_scipy_reads_it(n_axes):
    # reference library: scipy.ndimage.map_coordinates, order 1, the edge repeated
    rng = np.random.default_rng(n_axes)
    table = rng.random((4, 5, 3, 6)[:n_axes])
    places = [rng.uniform(-1.0, n + 0.5, (7, 2)) for n in table.shape]
    expected = map_coordinates(table, np.array(places), order=1, mode="nearest")
    assert multilinear(table, places) == pytest.approx(expected, abs=1e-12)


def test_several_numbers_at_a_grid_point_are_read_alike():
    rng = np.random.default_rng(1)
    table, places = rng.random((4, 5, 3)), [rng.uniform(0, 3, 8), rng.uniform(0, 4, 8)]
    together = multilinear(table, places)
    assert together.shape == (8, 3)
    for number in range(3):
        assert together[:, number] == pytest.approx(multilinear(table[:, :, number], places), abs=1e-15)


def test_rows_are_read_as_numpy_reads_a_column():
    rng = np.random.default_rng(2)
    table, rows = rng.random((6, 3)), np.array([-1.0, 0.0, 0.25, 4.9, 5.0, 7.0])
    read = between_rows(table, rows)
    for number, column in enumerate(table.T):
        assert read[:, number] == pytest.approx(np.interp(rows, np.arange(6), column), abs=1e-15)
    assert between_rows(table, 2.5) == pytest.approx(0.5 * (table[2] + table[3]), abs=1e-15)


def test_a_place_at_the_end_lies_in_the_last_cell():
    before, share = cell_of(np.array([0.0, 1.5, 3.0, 9.0]), 4)
    assert before.tolist() == [0, 1, 2, 2]
    assert share.tolist() == [0.0, 0.5, 1.0, 1.0]


def test_small_numbers_stay_small():
    table = np.ones((3, 4), dtype=np.float32)
    assert multilinear(table, [np.ones(2, np.float32), np.ones(2, np.float32)]).dtype == np.float32
