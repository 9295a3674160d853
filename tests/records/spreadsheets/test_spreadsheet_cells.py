"""Cells of a spreadsheet: no text is a formula there, and every text comes back.

What a spreadsheet takes for a formula: a cell that begins with ``=``, ``+``, ``-`` or ``@`` (common practice,
no source). The rest are invariants.
"""

import csv
import io
from typing import Annotated, Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachlib.errors import InputError
from coachlib.records.spreadsheets.spreadsheet_cells import (
    plain_text,
    read_cell,
    safe_text,
    together,
    written,
)
from coachlib.validation import Limits
from tests.hostile import LONG, PARTS, hostile_texts

_letters = st.text(alphabet="=+-@'; \t\r\n\"a1,＝", max_size=12) | st.text(max_size=12)


def _begins_formula(cell: str) -> bool:
    return cell.strip()[:1] in tuple("=+-@＝＋－＠") and cell.strip() != ""


@given(_letters)
def test_every_text_comes_back(text: str) -> None:
    assert plain_text(safe_text(text)) == text


@given(_letters)
def test_no_cell_begins_a_formula_whatever_parts_the_cells(text: str) -> None:
    line = io.StringIO(newline="")
    csv.writer(line).writerow(["1", safe_text(text), "2"])
    for separator in ",;\t":
        for cells in csv.reader(io.StringIO(line.getvalue(), newline=""), delimiter=separator):
            assert not any(map(_begins_formula, cells)), (separator, cells)


def test_the_hostile_texts_are_many_and_different() -> None:
    texts = hostile_texts(1000)
    assert len(set(texts)) == 1000
    assert any(map(_begins_formula, texts))
    assert max(len(text.encode()) for text in LONG) >= 10_000


@pytest.mark.parametrize("text", PARTS)
def test_hostile_text_comes_back(text: str) -> None:
    assert not _begins_formula(safe_text(text))
    assert plain_text(safe_text(text)) == text


@pytest.mark.parametrize(
    ("value", "hint", "cell"),
    [
        (None, float | None, ""),
        (True, bool, "yes"),
        (False, bool, "no"),
        (12.5, Annotated[float, Limits(0, 40, "boards")] | None, "12.5"),
        (0.1 + 0.2, float, "0.30000000000000004"),
        (-2.0, float, "-2.0"),
        ("early", Literal["early", "late"] | None, "early"),
        ("=1+1", str, "'=1+1"),
        ("007", str, "007"),
    ],
)
def test_values_are_written_and_read_back(value: object, hint: Any, cell: str) -> None:
    assert written(value) == cell
    assert read_cell("x", cell, hint) == value


@pytest.mark.parametrize(("cell", "value"), [("12½", 12.5), ("12,5", 12.5), ("1e1", 10.0), ("-3", -3.0)])
def test_numbers_as_people_write_them(cell: str, value: float) -> None:
    assert read_cell("feet_board", cell, float) == value


@pytest.mark.parametrize(
    ("cell", "hint", "told"),
    [
        ("many", float, r"^feet_board is 'many'; expected a number\. Write one"),
        ("12 mph", float | None, r"^feet_board is '12 mph'; expected a number\. .* no unit"),
        ("perhaps", bool, r"^feet_board is 'perhaps'; expected yes or no\. Write one of the two"),
    ],
)
def test_wrong_cells_are_told(cell: str, hint: Any, told: str) -> None:
    with pytest.raises(InputError, match=told) as raised:
        read_cell("feet_board", cell, hint)
    assert list(raised.value.fields) == ["feet_board"]


def test_all_that_is_wrong_is_told_together() -> None:
    def wrong(column: str) -> Any:
        return lambda: read_cell(column, "x", float)

    assert together({"a": lambda: 1, "b": lambda: None}) == {"a": 1, "b": None}
    with pytest.raises(InputError) as raised:
        together({"a": wrong("a"), "b": lambda: 2, "c": wrong("c")})
    assert list(raised.value.fields) == ["a", "c"]
