"""The link to the students is offered only where our own server runs the notebook that it leads to."""

import pytest

from coachlib.views.panels.lane_side.setup import MyBowlers


@pytest.mark.parametrize(("value", "is_live"), [("1", True), (None, False), ("", False)])
def test_it_is_live_only_under_our_own_server(
    monkeypatch: pytest.MonkeyPatch, value: str | None, is_live: bool
) -> None:
    if value is None:
        monkeypatch.delenv("COACHLIB_LIVE", raising=False)
    else:
        monkeypatch.setenv("COACHLIB_LIVE", value)
    assert MyBowlers().is_live is is_live
