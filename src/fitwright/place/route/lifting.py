"""What one person should lift, and how much more a team can: the revised NIOSH equation, HSE's guide for teams."""

from __future__ import annotations

from dataclasses import dataclass

NIOSH = "NIOSH 94-110 (2021), revised lifting equation: RWL = LC x HM x VM x DM x AM x FM x CM"
TEAM = (
    "HSE L23: a team of two lifts two thirds of the sum of what each can, of three a half; more than four seldom work"
)

LOAD_CONSTANT_KG = 23.0
STAND_OFF_MM = 300.0  # hands in front of the ankles, with the piece at the knees (common practice)
SELDOM = 1.0  # frequency multiplier for one lift in five minutes or fewer, for up to an hour: NIOSH 94-110, table 5
LOWEST_MM, HIGHEST_MM = 0.0, 1750.0
FARTHEST_MM = 630.0
MOST_PEOPLE = 4
TEAM_SHARE = {1: 1.0, 2: 2 / 3, 3: 0.5, 4: 0.5}
"""Of the sum of what each can lift; for four the figure for three is used."""
GUIDE_KG = 25.0  # HSE L23, guideline figure for one person, close to the body between knuckle and elbow height


@dataclass(frozen=True)
class Lift:
    """One lift by one person: hands before the ankles, their height, how far it is raised [mm], twist [rad]."""

    before: float
    height: float
    raised: float
    twist: float = 0.0

    @property
    def limit(self) -> float:
        """Recommended weight limit [kg]."""
        return recommended_limit(self.before, self.height, self.raised, self.twist)


def recommended_limit(
    before: float, height: float, raised: float, twist: float = 0.0, frequency: float = SELDOM
) -> float:
    """The revised NIOSH equation's recommended weight limit [kg], for a grip without handles (fair coupling).

    before: hands before the middle of the ankles, at least 250; height: of the hands at the start; raised: at least
    250 counts [mm]; twist: of the body [rad]; frequency: multiplier of table 5.
    Nought where the hands are farther than 630, higher than 1750, or the body is twisted by more than 135 degrees.
    Holds for smooth lifts with both hands, standing, on a floor that does not slip; not for carrying itself.
    Source: T. R. Waters, V. Putz-Anderson and A. Garg, Applications manual for the revised NIOSH lifting equation,
    DHHS (NIOSH) 94-110 (1994, revised 2021), section 1.3 and tables 1 to 7.

    >>> round(recommended_limit(250, 750, 250), 2)
    23.0
    >>> round(recommended_limit(500, 750, 250), 2)
    11.5
    """
    degrees = twist * 180 / 3.141592653589793
    if before > FARTHEST_MM or not LOWEST_MM <= height <= HIGHEST_MM or degrees > 135:
        return 0.0
    horizontal = 250.0 / max(before, 250.0)
    vertical = 1 - 0.003 * abs(height / 10 - 75)
    distance = 0.82 + 4.5 / max(raised / 10, 25.0)
    asymmetry = 1 - 0.0032 * degrees
    coupling = 0.95 if height < 750 else 1.0
    return LOAD_CONSTANT_KG * horizontal * vertical * min(distance, 1.0) * asymmetry * frequency * coupling


def person_load(mass: float, people: int, share: float) -> float:
    """What the most burdened of so many people lifts [kg]: one at each end, the third and fourth at the heavier first.

    share: of the weight at the heavier end, 1/2 to 1.

    >>> person_load(40, 1, 0.6), person_load(40, 2, 0.6), person_load(40, 3, 0.6), person_load(40, 4, 0.6)
    (40.0, 24.0, 16.0, 12.0)
    """
    if people == 1:
        return float(mass)
    heavier, lighter = mass * share, mass * (1 - share)
    return float({2: heavier, 3: max(heavier / 2, lighter)}.get(people, heavier / 2))


def people_for(mass: float, limit: float, share: float = 0.5) -> int | None:
    """The fewest people for a mass [kg]: nobody over the recommended limit [kg], and the team within HSE's guide.

    None when four are not enough.

    >>> people_for(20, 23), people_for(30, 23), people_for(36, 23), people_for(70, 23)
    (1, 2, 3, None)
    """
    return next((count for count in TEAM_SHARE if _enough(count, mass, limit, share)), None)


def _enough(people: int, mass: float, limit: float, share: float) -> bool:
    return person_load(mass, people, share) <= limit and mass <= people * TEAM_SHARE[people] * GUIDE_KG
