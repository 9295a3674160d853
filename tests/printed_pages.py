"""A printed page taken apart: its tags, its texts, and whether it stands alone."""

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
