"""Every number of the belief: how far lane and bowler may differ from what was said, and how well one sees.

All spreads are *our guess* unless a note says otherwise. How the belief weighs and forgets was *tuned* in an
early trial and on seasons of seeds 0 to 7; `make bench-season` plays what stands here on other lanes.
"""

import dataclasses

from coachlib.coaching.simulation.observer import (
    ARRIVAL_SD_BOARDS,
    BREAKPOINT_SD_FT,
    CROSSING_SD_BOARDS,
    SPEED_SD_MPH,
)


@dataclasses.dataclass(frozen=True)
class BeliefNumbers:
    """The numbers, one set for a whole session.

    Parameters
    ----------
    n_particles : int
        How many pairs of lane and bowler are kept; a power of 2. *Tuned*.
    film_log_mean, film_log_sd : float
        Film on the lane over film of the sheet, logarithm: lanes are seldom fresher than the sheet.
    length_sd_ft : float
        Where the oil ends. [ft]
    ramp_sd_boards : float
        How far the whole shape of oil lies farther in. [boards]
    wet_log_sd, dry_log_sd : float
        Friction in the oil and past it, logarithm.
    speed_sd_mph, revs_sd_frac, rotation_sd_deg : float
        How far the bowler's true means are from what they say. [mph], share, [deg]
    offset_sd_boards, aim_sd_boards : float
        Where the ball is really laid down and aimed. [boards]
    walk_sd_frac : float
        How far a walk lies between the two ways of walking.
    strong_revs_sd_frac, strong_rotation_sd_deg : float
        The same for two hands on the ball or more than `strong_revs_rpm`: fast turns are harder to count.
    strong_revs_rpm : float
        From so many revs on. [rpm]
    tail_frac : float
        How far the tails of friction, speed, revs and rotation are drawn out: at 0.1 three spreads are five.
    unknown_speed_sd_mph, unknown_revs_sd_frac, unknown_rotation_sd_deg : float
        The same where the bowler said "I don't know".
    unknown_length_sd_ft, unknown_film_log_sd : float
        The same for a lane of which the pattern is not known, or its film.
    crossing_sd_boards, arrival_sd_boards, breakpoint_sd_ft, turn_sd_ft, speed_seen_sd_mph : float
        How well a person behind the foul line sees; wider than a keen eye, so that no look decides alone.
    tail_freedom : float
        Degrees of freedom of Student's t for arrival and breakpoint; inf is a normal error.
    gross_prob : float
        Share of balls that miss their aim by 2 to 4 boards.
    class_floor_prob, leave_floor_prob, motion_floor_prob : float
        Nothing that was seen is impossible.
    drying_mph : float
        What a ball on the lane does to the next ones, told as speed: they come in as if thrown so much
        slower; 0 leaves that to the fading. Only where they arrive is moved, not where they turn. *Tuned*.
        [mph]
    most_drying_balls : int
        After so many balls, about what a season plays, only the fading follows the lane.
    fade : float
        What a ball's word is worth one ball later: the memory of a lane that changes. *Tuned*.
    temper : float
        How much a ball says against what its errors alone would allow. *Tuned*.
    """

    n_particles: int = 1024
    film_log_mean: float = -0.08
    film_log_sd: float = 0.25
    length_sd_ft: float = 0.6
    ramp_sd_boards: float = 0.5
    wet_log_sd: float = 0.2
    dry_log_sd: float = 0.08
    speed_sd_mph: float = 0.4
    revs_sd_frac: float = 0.06
    rotation_sd_deg: float = 5.0
    offset_sd_boards: float = 0.5
    aim_sd_boards: float = 0.25
    walk_sd_frac: float = 0.1
    strong_revs_sd_frac: float = 0.1
    strong_rotation_sd_deg: float = 8.0
    strong_revs_rpm: float = 400.0
    tail_frac: float = 0.1
    unknown_speed_sd_mph: float = 1.5
    unknown_revs_sd_frac: float = 0.25
    unknown_rotation_sd_deg: float = 15.0
    unknown_length_sd_ft: float = 2.0
    unknown_film_log_sd: float = 0.35
    crossing_sd_boards: float = CROSSING_SD_BOARDS
    arrival_sd_boards: float = ARRIVAL_SD_BOARDS
    breakpoint_sd_ft: float = BREAKPOINT_SD_FT
    turn_sd_ft: float = 4.0
    speed_seen_sd_mph: float = SPEED_SD_MPH
    tail_freedom: float = 4.0
    gross_prob: float = 0.05
    class_floor_prob: float = 0.02
    leave_floor_prob: float = 0.03
    motion_floor_prob: float = 0.05
    drying_mph: float = 0.03
    most_drying_balls: int = 40
    discount: float = 0.88
    evidence_weight: float = 1.2

    def slower_mph(self, n_balls: int) -> float:
        """Return what so many balls on a lane did to it, told as speed [mph]."""
        return self.drying_mph * min(n_balls, self.most_drying_balls)


DEFAULT_NUMBERS = BeliefNumbers()
