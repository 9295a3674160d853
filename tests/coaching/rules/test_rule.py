"""What a rule is: the sections in their order, and what each of them gives a hearing."""

from typing import get_args

from coachlib.coaching.rules.rule import SECTIONS, RuleKind
from coachlib.coaching.rules.rulebook import load_rulebook


def test_caution_comes_before_gate_lane_motion_arrival_carry_and_start():
    by_rank = sorted(SECTIONS, key=lambda letter: SECTIONS[letter].rank)
    assert "".join(by_rank) == "JACDBEFGHI"


def test_sections_only_name_kinds_that_exist():
    named = {kind for section in SECTIONS.values() for kind in section.kinds}
    assert named == set(get_args(RuleKind))


def test_every_rule_answers_in_a_way_its_section_gives_a_hearing():
    rules = load_rulebook().rules
    answers = [(rule, part.kind) for rule in rules for part in (rule, *rule.cases) if part.kind is not None]
    assert len(answers) > len(rules)
    assert [rule.id for rule, kind in answers if kind not in SECTIONS[rule.section].kinds] == []
