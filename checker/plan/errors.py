"""Why a question about a plan has no answer.

ValueError
├── UnusablePlan
└── NotOnFloor
"""

from checker.plan.shapes import Point


class UnusablePlan(ValueError):
    """The plan has faults, or parts that are not known; `faults_of` and the readings say what to do."""


class NotOnFloor(ValueError):
    """A place asked about lies on no floor of the plan: in a wall, in an obstacle or outside.

    `place` is where.
    """

    def __init__(self, place: Point) -> None:
        """Takes the place."""
        self.place = place
        super().__init__(f"no floor at ({place[0]:g} m, {place[1]:g} m)")
