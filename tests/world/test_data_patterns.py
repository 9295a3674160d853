"""The patterns that come with the library: whole, said truly in their notes, and made as SOURCES.md says."""

import numpy as np
import pytest

import coachlib as cl
from coachlib.files import read_notes
from coachlib.physics.wear import Thrower, wear_after_games
from coachlib.world.oil_shape import with_typical_film

MADE = {
    "house_41": 25.0,
    "house_40": 25.0,
    "house_38": 25.0,
    "flat_42": 25.0,
    "short_36": 21.0,
    "long_44": 28.0,
}


def test_names_are_the_files(repository):
    files = {path.stem for path in (repository / "data" / "patterns").glob("*.csv")}
    assert files == set(cl.pattern_names())
    assert len(files) >= 6


@pytest.mark.parametrize("name", cl.pattern_names())
def test_notes_say_what_the_film_is(name, repository):
    pattern = cl.load_pattern(name)
    notes = read_notes(repository / "data" / "patterns" / f"{name}.csv")
    assert pattern.name == name
    assert name.endswith(f"_{pattern.length_ft:g}")
    assert "invented" in notes["note"] or name == "worn_41"
    for measure in ("volume_ml", "ratio_middle", "ratio_second_arrows", "ramp_boards"):
        note = notes.get(measure)
        value = getattr(pattern, measure)
        value = value() if callable(value) else value
        assert note is None or float(note.split()[0]) == pytest.approx(value, abs=0.051), measure


@pytest.mark.parametrize("name", MADE)
def test_made_of_the_typical_shape(name):
    pattern = cl.load_pattern(name)
    made = with_typical_film(cl.OilPattern(name, pattern.length_ft, pattern.kind), MADE[name])
    film = made.film_array_um[: len(pattern.film_um)]
    np.testing.assert_allclose(pattern.film_array_um, film, atol=5.1e-4)


def test_worn_is_house_41_after_three_games():
    # bowler, ball, laydown, target of the four, as SOURCES.md says
    four = (
        ("club_right", "hybrid_2000", 22.0, 16.0),
        ("walker_right", "hybrid_14lb", 21.0, 15.3),
        ("high_rev_left", "hybrid_2000", 27.0, 17.9),
        ("senior_right", "solid_1000", 10.0, 9.3),
    )
    throwers = [
        Thrower(cl.load_bowler(who), cl.load_ball(ball), start, aim) for who, ball, start, aim in four
    ]
    made = wear_after_games(cl.load_pattern("house_41"), throwers, 3.0, seed=3).film_array_um
    shipped = cl.load_pattern("worn_41").film_array_um
    np.testing.assert_allclose(shipped, made[: len(shipped)], atol=2e-3)


def test_house_40_by_both_ratios():
    # regression: our own shape
    house = cl.load_pattern("house_40")
    assert house.ratio_middle == pytest.approx(10.4, abs=0.1)
    assert house.ratio_second_arrows == pytest.approx(4.9, abs=0.1)


def test_flat_is_what_the_federation_calls_sport():
    # USBC sport pattern sheet: 3:1; its own definition of the ratio is the second arrows'
    for name in ("flat_42", "short_36", "long_44"):
        assert cl.load_pattern(name).ratio_second_arrows <= 3.0
