"""Why a question about a plan has no answer.

ValueError
├── UnusablePlan
└── NotOnFloor
    └── OnThinWall
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
        super().__init__(self._says(f"({place[0]:g} m, {place[1]:g} m)"))

    @staticmethod
    def _says(where: str) -> str:
        return f"no floor at {where}"


class OnThinWall(NotOnFloor):
    """A place is on the middle of a wall that is drawn as a line, so that its side is not known."""

    @staticmethod
    def _says(where: str) -> str:
        return f"{where} is on the middle of a thin wall: its side is not known"
