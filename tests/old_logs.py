"""Logs as older versions made them, built by the statements of their time; no test may change these.

One builder a schema; `OLDER` lists them all, and tests/records/log/test_schema.py walks through it.
"""

import sqlite3
from collections.abc import Callable
from pathlib import Path

KEY = "00112233aabbccdd"
NAME = "Ilta"
_AT = "2024-10-0{}T17:00:00.000000+00:00"
_TABLES_1 = """
CREATE TABLE session (
    key TEXT PRIMARY KEY, started TEXT NOT NULL, last_event TEXT NOT NULL, is_open INTEGER NOT NULL,
    bowler_name TEXT NOT NULL, n_shots INTEGER NOT NULL);
CREATE TABLE event (
    session_key TEXT NOT NULL REFERENCES session (key), number INTEGER NOT NULL, kind TEXT NOT NULL,
    at TEXT NOT NULL, text TEXT NOT NULL, PRIMARY KEY (session_key, number));
PRAGMA application_id = 1668243811;
PRAGMA user_version = 1;
"""
_EVENTS_1 = (
    (
        "start",
        '{"schema":1,"payload":{"session":{"bowler":{"name":"Ilta","hand":"left","speed_mph":15.5},'
        '"line":{"feet_board":22.0,"target_board":11.0,"target_ft":15.0},"lane":"7"}}}',
    ),
    ("shot", '{"schema":1,"payload":{"shot":{"crossed_board":11.5,"arrival":"high","leave":[4]}}}'),
    ("advice", '{"schema":1,"payload":{"kind":"line","move":{"feet_boards":2.0},"rule_ids":["C1"]}}'),
    ("change", '{"schema":1,"payload":{"line":{"feet_board":24.0,"target_board":12.0,"target_ft":15.0}}}'),
    ("shot", '{"schema":1,"payload":{"shot":{"crossed_board":12.0,"arrival":17.5,"leave":[]}}}'),
)


def make_log_1(path: Path) -> None:
    """Write a log of schema 1 with one session of two balls, an advice and a change."""
    db = sqlite3.connect(path)
    db.executescript(_TABLES_1)
    db.execute("PRAGMA journal_mode = WAL")
    first, last = _AT.format(1), _AT.format(2)
    with db:
        db.execute("INSERT INTO session VALUES (?, ?, ?, 1, ?, 2)", (KEY, first, last, NAME))
        rows = [(KEY, number, kind, first, text) for number, (kind, text) in enumerate(_EVENTS_1)]
        db.executemany("INSERT INTO event VALUES (?, ?, ?, ?, ?)", rows)
    db.close()


OLDER: dict[int, Callable[[Path], None]] = {1: make_log_1}
