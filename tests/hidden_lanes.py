"""Lanes and small helpers that several tests of `coachlib/study` share."""

import dataclasses

import coachlib as cl
from coachlib.world.array_field import film_rows

BALL = cl.load_ball("hybrid_2000")
CLUB = cl.load_bowler("club_right")
HOUSE = cl.load_pattern("house_41")
FLAT = cl.load_pattern("flat_42")


def lane(seed=3, pattern=HOUSE, bowler=CLUB, **changes):
    """Return a hidden lane of the club bowler unless told otherwise."""
    return cl.PracticeLane(pattern, bowler, BALL, seed=seed, **changes)


def mirrored(pattern):
    """Return a pattern laid the other way round."""
    return dataclasses.replace(pattern, film_um=film_rows(pattern.film_array_um[:, ::-1]))


def uneven(pattern):
    """Return a pattern with more oil towards one edge, so that its mirror image is another pattern."""
    slope = [1.0 + 0.01 * board for board in range(39)]
    return dataclasses.replace(pattern, film_um=film_rows(pattern.film_array_um * slope))
