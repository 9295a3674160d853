"""Texts that a person may type or a file may hold, each of them meant to be taken for something else."""

import itertools
import random

_SCRIPTS = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</text></svg><script>alert(1)</script>",
    "<svg onload=alert(1)>",
    "javascript:alert(1)",
    '" onmouseover="alert(1)',
    "' autofocus onfocus='alert(1)",
    "<!--",
    "]]>",
    "<![CDATA[x",
    "&lt;b&gt;&amp;",
    "{{7*7}}",
    "${7*7}",
    "<b>",
    "<style>*{display:none}</style>",
    "<a href='http://192.0.2.1/'>x</a>",
    "$\\LaTeX$ `code` **bold** [x](y)",
)
_FORMULAS = (
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(A1)",
    '=HYPERLINK("http://192.0.2.1/","x")',
    "=cmd|' /C calc'!A0",
    "\t=1+1",
    "\r=1+1",
    "\n=1+1",
    " =1+1",
    "x;=1+1",
    "x\t=1+1",
    'x";=1+1',
    "＝1+1",
    "'=1+1",
    "''",
    ";;'=",
    "1;\n;=2",
    "a,b",
    'a"b',
)
_PATHS = (
    "../../../../x",
    "C:\\x",
    "\\\\host\\x",
    "/dev/null",
    "file:///x",
    "~",
    "a/b",
    "CON",
    "%00",
    "x\x00y",
)
_SIGNS = (
    "🎳",
    "👨‍👩‍👧‍👦",
    "\u202eevil\u202c",
    "שלום",
    "مرحبا",
    "\u200b",
    "\ufeffx",
    "e\u0301",
    "ﬁ",
    "Å",
    "\U0010ffff",
    "\x1b[31mred",
    "\x07",
    "\x7f",
    "\u2028",
)
_QUERIES = (
    "'; DROP TABLE session; --",
    '"; DELETE FROM event; --',
    "%s %(x)s {0} ?",
    '{"schema": 9}',
    "NULL",
    "1e999",
)
PARTS = (*_SCRIPTS, *_FORMULAS, *_PATHS, *_SIGNS, *_QUERIES)
LONG = ("x" * 10_000, "🎳" * 2_500, "<b>" * 3_300, "=" * 10_000, "\u202e" * 3_300)
"""About 10 kB each."""


def hostile_texts(n_texts: int, most_letters: int = 2000) -> list[str]:
    """Return so many different texts: each part alone, then parts put together, cut to a field's length."""
    draw = random.Random(7)
    pairs = [f"{one}{two}" for one, two in itertools.product(PARTS, PARTS)]
    draw.shuffle(pairs)
    texts = dict.fromkeys(text[:most_letters] for text in (*PARTS, *LONG, *pairs))
    return list(texts)[:n_texts]


def without_line_ends(text: str) -> str:
    """Return a text as one line: what reads a page may take each kind of line end for another."""
    return " ".join(text.split())
