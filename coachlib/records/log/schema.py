"""The tables of the log, and how an older log becomes one of today.

Each entry of :data:`STEPS` lifts a log by one schema; a new log is one that is lifted from nothing, so old
and new logs are made by the same statements. All of it is one transaction: a log is lifted whole or not at
all.
"""

import sqlite3

OURS = 0x636F6163
"""SQLite's application_id: tells our file from another program's database."""

STEPS: tuple[tuple[str, ...], ...] = (
    (
        """CREATE TABLE session (
            key TEXT PRIMARY KEY, started TEXT NOT NULL, last_event TEXT NOT NULL, is_open INTEGER NOT NULL,
            bowler_name TEXT NOT NULL, n_shots INTEGER NOT NULL)""",
        """CREATE TABLE event (
            session_key TEXT NOT NULL REFERENCES session (key), number INTEGER NOT NULL, kind TEXT NOT NULL,
            at TEXT NOT NULL, text TEXT NOT NULL, PRIMARY KEY (session_key, number))""",
        f"PRAGMA application_id = {OURS}",
    ),
    (
        "CREATE TABLE student (key TEXT PRIMARY KEY, added TEXT NOT NULL, text TEXT NOT NULL)",
        "ALTER TABLE session ADD COLUMN student_key TEXT REFERENCES student (key)",
        "CREATE INDEX session_of_student ON session (student_key)",
    ),
)
"""The statements that lead to schema 1, 2 and so on."""

SCHEMA = len(STEPS)
"""The schema of the tables, kept in the file as its user_version."""


def lift(db: sqlite3.Connection) -> None:
    """Bring a log to the newest schema; another notebook may do the same at the same moment."""
    db.execute("BEGIN IMMEDIATE")
    for statements in STEPS[number_in(db, "PRAGMA user_version") :]:
        for statement in statements:
            db.execute(statement)
    db.execute(f"PRAGMA user_version = {SCHEMA}")
    db.execute("COMMIT")


def number_in(db: sqlite3.Connection, question: str) -> int:
    """Return the one number that answers a question."""
    return int(db.execute(question).fetchone()[0])
