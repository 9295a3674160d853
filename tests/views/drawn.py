"""Looking into a chart's description: its layers with their rows, and what holds for every picture."""

from coachlib.views.theme import picture_svg


def layers(spec, *marks, part=None):
    """Return the layers of these marks, each with its rows beside it; of one part of a joined picture."""
    return [
        layer | {"rows": spec["datasets"][layer["data"]["name"]]}
        for layer in (part or spec)["layer"]
        if layer["mark"]["type"] in marks
    ]


def assert_described(spec, start, least=1):
    """Check that a picture is one image with one description, and that no mark speaks for itself."""
    assert spec["description"].startswith(start)
    marks = [layer["mark"] for part in spec.get("concat", [spec]) for layer in part["layer"]]
    assert len(marks) > least
    assert all(mark["aria"] is False for mark in marks)
    assert picture_svg(spec).count('role="img"') == 1
