"""Names as a person would say them. Our own promises; no outside source."""

import pytest

from coachlib.coaching.wording.names import said_name, short_name
from coachlib.world.ball import ball_names
from coachlib.world.bowler import bowler_names
from coachlib.world.oil import pattern_names


@pytest.mark.parametrize("name", [*pattern_names(), *ball_names(), *bowler_names()])
def test_every_shipped_name_is_said_without_a_sign_of_code(name: str) -> None:
    for said in (said_name(name), short_name(name)):
        assert "_" not in said
        assert len(said) >= len(name.split("_")[0])
    assert said_name(name) != name


def test_names_of_one_s_own_stay_as_they_are() -> None:
    assert said_name("Ilta's red ball") == "Ilta's red ball"
    assert said_name("league_oil") == "league oil"
    assert said_name("house_of_pins") == "house of pins"
