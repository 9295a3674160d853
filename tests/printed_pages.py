"""A printed page taken apart: its tags, its texts, and whether it stands alone."""

import re
from html.parser import HTMLParser

VOID = {"meta", "br"}


class Page(HTMLParser):
    """The tags that are open, all tags met, and the text of the page."""

    def __init__(self):
        super().__init__()
        self.open, self.tags, self.texts = [], [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.texts.append(data)


def page_of(text):
    page = Page()
    page.feed(text)
    page.close()
    assert page.open == []
    return page


def assert_stands_alone(text):
    """Check that nothing on a page comes from elsewhere and nothing runs."""
    page = page_of(text)
    assert not {tag for tag, _ in page.tags} & {"script", "link", "iframe", "object", "embed", "img"}
    attributes = [(name, value) for _, attrs in page.tags for name, value in attrs.items()]
    assert not [name for name, _ in attributes if name.startswith("on")]
    links = [value for name, value in attributes if name in ("src", "href", "xlink:href")]
    assert all(link.startswith(("data:", "#")) for link in links)


def assert_black_on_white(text):
    """Check that the style of a page, behind its font, knows ink, paper and one grey alone."""
    style = text[text.index("@page") : text.index("</style>")]
    colours = set(re.findall(r"#[0-9a-fA-F]{3,6}", style))
    assert colours
    assert colours <= {"#000", "#fff", "#999"}


def lane_of(text):
    """Return the first picture of a page."""
    return text[text.index("<svg") : text.index("</svg>") + len("</svg>")]


def assert_grey(text):
    """Check that all colours of a page or picture are black, white or grey."""
    colours = re.findall(r"(?<!&)#([0-9a-fA-F]{3,6})\b", text)
    assert colours
    for colour in colours:
        assert len(set(re.findall("." * (len(colour) // 3), colour))) == 1, colour
