"""How a class of accuracy is said; the spreads are held to print in tests/published/test_accuracy.py."""

from coachlib.coaching.wording.accuracy_words import NOT_ENTERED, average_text, like_text, spreads_text
from coachlib.world.bowler import ACCURACY_SD_BOARDS, Bowler, accuracy_fields, accuracy_of


def test_a_class_is_said_by_the_average_and_the_best_by_where_they_play():
    assert [average_text(name) for name in ACCURACY_SD_BOARDS] == [
        *("average about 160", "average about 180", "average about 200", "average about 220", "tour")
    ]
    assert like_text("180") == "like an average of about 180"
    assert like_text("tour") == "like a tour player"
    assert spreads_text().startswith("160: 1.46, 180: 1.30")


def test_what_nobody_entered_is_said_to_be_assumed():
    assert NOT_ENTERED == "not entered, so we assume an average of about 200"
    assert accuracy_of(Bowler()) == ""
    assert not Bowler().is_accuracy_known
    for name, sd_boards in ACCURACY_SD_BOARDS.items():
        bowler = Bowler(**accuracy_fields(sd_boards))
        assert (accuracy_of(bowler), bowler.is_accuracy_known) == (name, True)
