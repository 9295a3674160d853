"""The bar of a long computation."""

from coachlib.views.panels.shared.parts import ProgressBar


def test_the_bar_follows_and_says_so():
    bar = ProgressBar("Looking through the bag")
    assert (bar.bar.value, bar.words.value) == (0, "not begun")
    bar.step(3, 18)
    assert (bar.bar.value, bar.bar.max, bar.words.value) == (3, 18, "3 of 18")
    bar.step(18, 18)
    assert (bar.bar.value, bar.words.value) == (18, "all 18 done")


def test_the_bar_has_a_name():
    assert ProgressBar("Looking through the bag").bar.description == "Looking through the bag"
