"""The rulebook: reading, a club's own file, order of precedence, rules that work against each other."""

import re
from pathlib import Path
from typing import Any, get_args

import pytest

from coachlib import Bowler, Line, Session, Shot, observe
from coachlib.coaching.rules.rule import PLACEHOLDERS, SECTIONS, Rule, RuleKind
from coachlib.coaching.rules.rule_voice import with_move
from coachlib.coaching.rules.rulebook import Fired, fired_rules, load_rulebook, opposite
from coachlib.coaching.rules.session_facts import read_session
from coachlib.coaching.rules.vocabulary import FACTS
from coachlib.errors import DataFileError, InputError
from coachlib.world.line import Move

CLUB_RULE = """
[[rules]]
id = "mirrors"
section = "B"
title = "Bend the knee"
when = { n_same = { min = "patience" }, side = "high" }
kind = "move"
moves = [{ feet_boards = 1 }]
why = "A high hip pulls the ball {inside}."
look = "The knee."
grade = "common practice"
src = []
"""

REPEATED_HIGH = {
    "task": "first",
    "is_on_target": True,
    "is_severe": False,
    "n_ok": 3,
    "n_same": 3,
    "side": "high",
    "arrival_class": "high",
    "err_boards": 1.2,
    "abs_err_boards": 1.2,
    "motion": "early",
    "phase": "opening",
}


@pytest.fixture
def club(tmp_path: Path):
    """Return a function that writes a club's file, and where it lies."""

    def write(text: str, name: str = "club.toml") -> Path:
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


def ids(fired: tuple[Fired, ...]) -> list[str]:
    return [one.rule.id for one in fired]


def fired_move(move: Move) -> Fired:
    rule = load_rulebook().rule("two_and_one")
    return Fired(rule, "move", (move,), "", 1)


def texts(rule: Rule) -> list[str]:
    own = [rule.title, rule.why, rule.look, rule.stops, rule.then, rule.do]
    return own + [case.do for case in rule.cases]


def test_patience_is_three_by_default():
    # Ours: the trade says two, three or four confirmations won more strikes when tried on simulated lanes.
    assert load_rulebook().settings["patience"] == 3


def test_the_plain_rulebook_is_read_once():
    assert load_rulebook() is load_rulebook()


def test_nobody_can_change_the_settings_in_place():
    with pytest.raises(TypeError):
        load_rulebook().settings["patience"] = 1


def test_texts_know_no_side_and_nobody_but_the_bowler():
    words = {
        word
        for rule in load_rulebook().rules
        for text in texts(rule)
        for word in re.findall(r"[a-z]+", text.lower())
    }
    assert len(words) > 300
    assert not words & {"left", "right", "lefty", "righty", "he", "she", "his", "her"}


def test_pins_in_texts_are_placeholders():
    # A pin's number is another one for the other hand: "the 10", "10-pin", "four-pin" must not stand there.
    names = r"(\b(7|8|9|10|four|nine|ten)-pin|the (4|5|6|7|8|9|10)\b)"
    found = [
        (rule.id, text) for rule in load_rulebook().rules for text in texts(rule) if re.search(names, text)
    ]
    assert found == []


def test_every_rule_says_why_and_every_answer_what_to_look_for():
    # A wrong text would be told by the reader; here each text must be a sentence that can be said.
    for rule in load_rulebook().rules:
        for text in (rule.why, rule.look, rule.stops, rule.then, rule.do):
            assert not text or re.fullmatch(r"[A-Z{].*[.?]", text), (rule.id, text)


def test_every_placeholder_is_replaced_by_formatting():
    filled = dict.fromkeys(PLACEHOLDERS, "x")
    for rule in load_rulebook().rules:
        for text in texts(rule):
            assert "{" not in text.format_map(filled)


def test_every_source_and_setting_is_used():
    book, text = (
        load_rulebook(),
        Path(__file__).parents[3].joinpath("data/rules.toml").read_text(encoding="utf-8"),
    )
    assert {code for rule in book.rules for code in rule.src} == set(book.sources)
    unused = {name for name in book.settings if f'"{name}"' not in text and f"{{{name}}}" not in text}
    assert unused == set()


def test_notes_of_moves_ask_something_of_the_body():
    # The caution about the hand is asked by "has a note"; a note about feet or ball would set it off wrongly.
    answers = [part for rule in load_rulebook().rules for part in (rule, *rule.cases)]
    notes = {sized.move.note for part in answers for sized in part.moves} - {""}
    assert notes == {
        "land it a little farther, from the legs",
        "land it one to three feet farther, from the legs",
        "a softer wrist, for fewer revs",
        "a firmer wrist, for more revs",
        "less hand, with a softer wrist",
        "a firmer forward roll",
        "a few inches back on the approach",
    }


def test_an_unknown_rule_lists_the_ids():
    with pytest.raises(InputError, match=r"rule id is 'three_and_one'; expected one of .*'two_and_one'"):
        load_rulebook().rule("three_and_one")


def test_sections_only_name_kinds_that_exist():
    named = {kind for section in SECTIONS.values() for kind in section.kinds}
    assert named == set(get_args(RuleKind))


def test_every_rule_answers_in_a_way_its_section_gives_a_hearing():
    rules = load_rulebook().rules
    answers = [(rule, part.kind) for rule in rules for part in (rule, *rule.cases) if part.kind is not None]
    assert len(answers) > len(rules)
    assert [rule.id for rule, kind in answers if kind not in SECTIONS[rule.section].kinds] == []


def test_sections_stand_in_order_of_precedence():
    # caution > gate > lane message > motion > arrival > carry > start, then speed, surface, spares
    assert sorted(SECTIONS, key=lambda letter: SECTIONS[letter].rank) == list("JACDBEFGHI")


def test_rules_come_in_order_of_precedence():
    facts: dict[str, Any] = REPEATED_HIGH | {
        "hand": "left",
        "is_trend_inward": True,
        "n_ok_high": 1,
        "n_inside_light": 2,
        "n_outside_high": 2,
        "leave_key": "4",
        "scoring_started": False,
    }
    sections = [one.rule.section for one in fired_rules(load_rulebook(), facts)]
    assert list(dict.fromkeys(sections)) == ["J", "A", "C", "D", "B", "E", "G", "H"]


def test_in_a_section_more_conditions_win_then_the_earlier_one():
    facts = REPEATED_HIGH | {"abs_breakpoint_diff_boards": 0.5}
    arrivals = [
        one for one in ids(fired_rules(load_rulebook(), facts)) if one in ("two_and_one", "three_and_two")
    ]
    assert arrivals == ["three_and_two", "two_and_one"]
    both = ids(fired_rules(load_rulebook(), REPEATED_HIGH | {"motion": "even"}))
    assert both.index("follow_the_miss") + 1 == both.index("two_and_one")


def test_facts_are_checked():
    with pytest.raises(InputError, match="fact is 'n_okay'"):
        fired_rules(load_rulebook(), {"task": "first", "n_okay": 1})
    with pytest.raises(InputError, match="task is None; expected one of 'first', 'spare'"):
        fired_rules(load_rulebook(), {"n_ok": 1})


def test_patience_of_a_club_is_kept(club):
    book = load_rulebook(club("[settings]\npatience = 4\n"))
    assert "two_and_one" not in ids(fired_rules(book, REPEATED_HIGH))
    assert "two_and_one" in ids(fired_rules(book, REPEATED_HIGH | {"n_same": 4}))
    assert load_rulebook().settings["patience"] == 3


def test_a_club_adds_a_rule(club):
    book = load_rulebook(club(CLUB_RULE))
    assert len(book.rules) == len(load_rulebook().rules) + 1
    assert "mirrors" in ids(fired_rules(book, REPEATED_HIGH))


def test_a_club_replaces_a_whole_rule_where_it_stands(club):
    ours = [rule.id for rule in load_rulebook().rules]
    book = load_rulebook(club(CLUB_RULE.replace("mirrors", "two_and_one")))
    assert [rule.id for rule in book.rules] == ours
    replaced = book.rule("two_and_one")
    assert (replaced.title, replaced.stops, replaced.cases) == ("Bend the knee", "", ())


def test_the_later_club_file_wins(club):
    first = club("[settings]\npatience = 4\n" + CLUB_RULE)
    second = club("[settings]\npatience = 5\n" + CLUB_RULE.replace("Bend", "Soften"), "league.toml")
    book = load_rulebook(first, second)
    assert (book.settings["patience"], book.rule("mirrors").title) == (5, "Soften the knee")


def test_a_club_may_name_its_own_settings_and_sources(club):
    text = '[settings]\nlate_games = 2.0\n[sources]\nclub = "our coaches"\n' + CLUB_RULE
    text = text.replace("src = []", 'src = ["club"]').replace(
        'side = "high"', 'games_on_lane = { above = "late_games" }'
    )
    book = load_rulebook(club(text))
    assert "mirrors" in ids(fired_rules(book, REPEATED_HIGH | {"games_on_lane": 2.1}))
    assert "mirrors" not in ids(fired_rules(book, REPEATED_HIGH | {"games_on_lane": 2.0}))


# What is replaced in the club's rule, by what (⏎ is a new line), and what is told; what is indented goes on.
WRONG_CLUB_FILES = """\
look = => loook = => rule 'mirrors', field is 'loook'; expected one of 'id', 'section'
n_same = => n_smae = => rule 'mirrors', when: fact is 'n_smae'; expected one of 'task'
"patience" => "patients" => rule 'mirrors', when: n_same: min is 'patients'; expected a number
section = "B" => section = "K" => rule 'mirrors', section is 'K'; expected one of 'J', 'A'
section = "B" =>  => rule 'mirrors', section is None; expected one of 'J', 'A'
kind = "move" => kind = "moves" => rule 'mirrors', kind is 'moves'; expected one of 'stay'
kind = "move" =>  => rule 'mirrors', kind is None; expected one of 'stay'
kind = "move" => kind = "stay" => rule 'mirrors', do is None; kind 'stay' expects a text and no moves
moves = [{ feet_boards = 1 }] =>  => rule 'mirrors', moves is missing; kind 'move' expects at least one
moves = [{ feet_boards = 1 }] => moves = 1 => rule 'mirrors', moves is 1; expected a list of tables
feet_boards = 1 => foot_boards = 1 => rule 'mirrors', move 1, field is 'foot_boards'; expected one of
feet_boards = 1 => feet_boards = 100 => move 1, feet_boards is 100; expected -40 to 40 boards
feet_boards = 1 => feet_boards = "one" => move 1, feet_boards is 'one'; expected -40 to 40 boards
feet_boards = 1 => feet_boards = 0 => move 1, all is 0; expected a move that changes something
feet_boards = 1 => feet_boards = 1, by = "miss" => move 1, by is 'miss'; expected one of 'err_sign'
{inside} => {insid} => rule 'mirrors', why holds {insid}; expected no placeholder but {inside}, {outside}
{inside} => {inside => rule 'mirrors', why holds {inside
{inside} => inside} => rule 'mirrors', why holds }
look = "The knee." =>  => rule 'mirrors', look is missing; expected a plain text
look = "The knee." => look = "" => rule 'mirrors', look is missing; expected a plain text
title = "Bend the knee" => title = 3 => rule 'mirrors', title is 3; expected a text. Put it in quotes.
"common practice" => "hearsay" => rule 'mirrors', grade is 'hearsay'; expected one of 'in print'
src = [] => src = ["X1"] => rule 'mirrors', src is 'X1'; expected one of 'S1'
src = [] => src = "S1" => rule 'mirrors', src is 'S1'; expected a list of source codes
src = [] => src = [[1]] => rule 'mirrors', src is [1]; expected one of 'S1'
src = [] => src = []⏎cases = 1 => rule 'mirrors', cases is 1; expected a list of tables
src = [] => src = []⏎cases = [{ kind = "stay" }] => rule 'mirrors', case 1, when: condition is None
id = "mirrors" => id = "Mirrors!" => rule 'Mirrors!', id is 'Mirrors!'; expected small letters
id = "mirrors" =>  => rule number 1, id is None; expected small letters
[[rules]] => [rules] => rules is {'id': 'mirrors'
[[rules]] => [[rule]] => top level is 'rule'; expected one of 'settings', 'sources', 'rules'
[[rules]] => [settings]⏎patience = 0⏎[[rules]] => settings, patience is 0; expected a number above 0
[[rules]] => [settings]⏎n_ok = 2⏎[[rules]] => settings, n_ok is the name of a fact
[[rules]] => [sources]⏎X = 1⏎[[rules]] => sources, X is 1; expected a text
[[rules]] => settings = 4⏎[[rules]] => settings is 4; expected a table
[[rules]] => [settings]⏎patiance = 2⏎[[rules]] => settings, name is 'patiance'; expected one of
  'explained_boards', 'growing_years'
kind = "move"⏎moves = [{ feet_boards = 1 }] => kind = "start"⏎do = "Begin." => rule 'mirrors', kind in section
  B is 'start'; expected one of 'stay', 'watch', 'move'
section = "B" => section = "J" => rule 'mirrors', kind in section J is 'move'; expected one of 'note'
section = "B"⏎ => section = "A"⏎cases = [{ when = { n_ok = 1 }, kind = "add", moves = [{ feet_boards = 1 }]
  }]⏎ => rule 'mirrors', kind in section A is 'add'; expected one of 'stay'
side = "high" => side = "high", task = "spare" => rule 'mirrors', task in section B is 'spare'; expected one
  of 'first'
n_same = { min = "patience" } => n_same = { min = 5, max = 2 } => n_same is {'min': 5, 'max': 2}; expected the
  lower limit below the upper one. Swap the two.
{inside} => {exit_board} => rule 'mirrors', why holds {exit_board}; expected it only where when asks
  oil_length_ft
src = [] => src = []⏎cases = [{ when = { n_ok = 1 }, kind = "stay", do = "Board {exit_board}." }] => rule
  'mirrors', case 1, do holds {exit_board}; expected it only where when asks oil_length_ft
"""


@pytest.mark.parametrize("row", WRONG_CLUB_FILES.replace("\n  ", " ").splitlines())
def test_a_wrong_club_file_names_file_rule_and_field(club, row):
    old, new, message = (part.strip(" ").replace("⏎", "\n") for part in row.split("=>"))
    assert old in CLUB_RULE
    with pytest.raises(DataFileError, match=re.escape(message)) as caught:
        load_rulebook(club(CLUB_RULE.replace(old, new)))
    lines = str(caught.value).splitlines()
    assert all(line.startswith("club.toml, ") and line.endswith(".") for line in lines)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('side = "high"', "oil_length_ft = { above = 31 }"),
        (
            "src = []",
            "src = []\ncases = [{ when = { oil_length_ft = { above = 31 } }, "
            'kind = "stay", do = "Board {exit_board}." }]',
        ),
    ],
)
def test_the_exit_board_may_be_named_where_the_oil_is_asked(club, old, new):
    why = "{exit_board}" if "cases" not in new else "{inside}"
    book = load_rulebook(club(CLUB_RULE.replace(old, new).replace("{inside}", why)))
    assert "{exit_board}" in " ".join(texts(book.rule("mirrors")))


def test_a_clubs_file_may_be_named_by_a_text(club):
    path = club(CLUB_RULE)
    assert load_rulebook(str(path)).rule("mirrors") == load_rulebook(path).rule("mirrors")


def test_a_clubs_file_must_be_a_path():
    with pytest.raises(InputError, match=r"club file is 3; expected a Path"):
        load_rulebook(3)


def test_all_that_is_wrong_is_told_at_once(club):
    wrong = CLUB_RULE.replace("look = ", "loook = ").replace('"B"', '"K"')
    with pytest.raises(DataFileError) as caught:
        load_rulebook(club(wrong + CLUB_RULE.replace("src = []", "")))
    told = str(caught.value)
    assert [part in told for part in ("loook", "section is 'K'", "a second time", "src is None")] == [
        True
    ] * 4


def test_a_wrong_club_file_leaves_the_rulebook_as_it_was(club):
    with pytest.raises(DataFileError, match="patience is -1"):
        load_rulebook(club("[settings]\npatience = -1\n"))
    assert load_rulebook().settings["patience"] == 3


def test_toml_that_cannot_be_read_names_the_line(club):
    with pytest.raises(DataFileError, match=r"club\.toml: .*at line 1"):
        load_rulebook(club("patience: 4\n"))


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [
        # The straight line of a bowler whose slide follows the stance: 4 a board of eyes, -3 a board of feet.
        (Move(2, 1), Move(-2, -1), True),
        (Move(2, 1), Move(3, 2), False),
        (Move(1, 0), Move(-1, 0), True),
        (Move(1, 0), Move(0, 1), True),
        (Move(1, 0), Move(0, -1), False),
        (Move(1, 1), Move(2, 1), False),
        (Move(1, 1), Move(-1, 0), True),
        (Move(4, 3), Move(-2, -1), False),
        (Move(speed_mph=0.5), Move(speed_mph=-0.5), True),
        (Move(speed_mph=0.5), Move(2, 1), False),
        (Move(target_ft=10), Move(target_ft=-5), True),
        (Move(ball="weaker"), Move(-1, 0), False),
    ],
)
def test_opposite_moves(first, second, expected):
    assert opposite(fired_move(first), fired_move(second)) is expected
    assert opposite(fired_move(second), fired_move(first)) is expected


def test_a_rule_without_a_move_is_opposite_to_nothing():
    still = Fired(load_rulebook().rule("one_shot_is_no_pattern"), "watch", (), "One more.", 1)
    assert not opposite(still, fired_move(Move(2, 1)))
    assert not opposite(fired_move(Move(2, 1)), still)


def test_every_fact_that_only_a_move_has_is_asked_by_some_rule():
    source = Path(__file__).parents[3].joinpath("data/rules.toml").read_text(encoding="utf-8")
    session = Session(bowler=Bowler(), line=Line(22, 11))
    known = read_session(observe(session, Shot(crossed_board=11, arrival="high"))).facts
    of_moves = [name for name in FACTS if name in with_move(session, {}, Move())]
    assert len(of_moves) == 10
    assert not set(of_moves) & set(known)
    assert [name for name in of_moves if name not in source] == ["move_target_ft"]
