"""The doors of the front page and of the list of lessons: which page, what it is called, and one line."""

from typing import Final, NamedTuple


class Door(NamedTuple):
    """A way to a page: its notebook, what a person calls it, one line about it, and its small picture."""

    notebook: str
    title: str
    line: str
    picture: str


LANE_SIDE: Final = Door("10_lane_side", "At the lane", "One clear suggestion after each ball.", "lane")
LESSONS: Final = "lessons"
DOORS: Final = (
    Door("20_students", "My bowlers", "Sessions, trends, one thing to work on.", "bowlers"),
    Door(LESSONS, "Lessons", "Moves, oil, speed and balls, one by one.", "lever"),
    Door("41_practice_lane", "Practice lane", "Read a lane you can't see, ball by ball.", "hidden"),
    Door("50_clinic", "Clinic", "Papers for a class, with the answers.", "papers"),
    Door(
        "60_where_the_numbers_come_from",
        "Where the numbers come from",
        "Each figure's source and its limits.",
        "strikes",
    ),
)
LESSON_DOORS: Final = (
    Door(
        "30a_reading_a_shot",
        "Was it you, or the lane?",
        "Six questions on pins and targets, 12 minutes.",
        "strikes",
    ),
    Door(
        "30b_what_a_2_and_1_does",
        "What does a 2-and-1 do?",
        "Five questions, your bets, 12 minutes.",
        "lever",
    ),
    Door(
        "30c_parallel_moves",
        "How far does a parallel move take your ball?",
        "Six questions on moving over, 12 minutes.",
        "oil",
    ),
    Door(
        "31a_target_and_breakpoint",
        "Where does your ball turn?",
        "Your breakpoint, and what it does at the pins.",
        "breakpoint",
    ),
    Door("31b_miss_room", "How far may you miss?", "The room your line gives you, the rule of 31.", "room"),
    Door("32a_speed", "What is half a mile an hour worth?", "Boards, strikes, and tired legs.", "speeds"),
    Door(
        "32b_hand", "What does your hand change?", "Rotation, tilt and revs, and why feet come first.", "hand"
    ),
    Door("33_oil_and_wear", "What does worn oil do?", "High balls, and light ones that burnt up.", "oil"),
    Door(
        "34a_two_balls", "What does a stronger ball do?", "Sooner, not more, and the move it wants.", "balls"
    ),
    Door(
        "34b_surface", "Does a duller ball hook more?", "What a pad changes, and what it does not.", "surface"
    ),
    Door(
        "34c_the_bag", "Which balls earn their place?", "Which to carry next, which to leave at home.", "bag"
    ),
    Door(
        "61_fitting_and_statistics",
        "How sure can you be?",
        "For the curious: how many shots show how much.",
        "hidden",
    ),
)
WORDS: Final = Door("00_start", "The words and the first five minutes", "", "")
