"""What comes back from a question about a plan. Metres and square metres; points in the plan's frame."""

from msgspec import Struct

from checker.plan.shapes import Outline, Point


class Answer(Struct, frozen=True, array_like=True, tag=True):
    """What comes back, or a part of it. It is kept between runs as a list that begins with what it is."""


class Fault(Answer, frozen=True):
    """Something in a plan that cannot be so."""

    thing: str
    """Kind and id, as in room cell; empty if the plan as a whole is meant."""
    place: Point | None
    says: str
    """What is wrong: a sentence without its full stop."""


class NoAnswer(Answer, frozen=True):
    """That a question has none, and why: UnusablePlan with what it says, or NotOnFloor, OnThinWall with the place."""

    why: str
    says: str
    place: Point | None


class Measure(Answer, frozen=True):
    """A number or an answer found on a plan, and what it looks like there, if it has a look."""

    value: float | bool
    what: str = ""
    room: str = ""
    points: tuple[Point, ...] = ()
    ends_at: str = ""
    targets: tuple[Point, ...] = ()
    between: str = ""


class Walk(Answer, frozen=True):
    """The shortest way on foot from a place to the nearest of some targets."""

    distance: float | None
    """None where no way leads there."""
    path: tuple[Point, ...]
    """From the place to the target; empty where there is no way."""
    target: int | None
    """Which of the targets asked for, counted from 0."""


class Patch(Answer, frozen=True):
    """A piece of floor."""

    outline: Outline
    holes: tuple[Outline, ...]
    area: float


class Farthest(Answer, frozen=True):
    """The place on the floor from which the walk to the nearest target is longest."""

    least: float | None
    """The walk from `place`; the longest walk is at least this. None where no floor is reached at all."""
    most: float | None
    """The longest walk is at most this. None where some floor has no way to any target."""
    place: Point | None
    path: tuple[Point, ...]
    cut_off: tuple[Patch, ...]
    """Floor on which one can stand and from which no target can be reached."""

    def settles(self, limit: float) -> bool | None:
        """Whether all floor is within the limit; None where the bounds lie on both sides of it."""
        if self.most is not None and self.most <= limit:
            return True
        if self.cut_off or (self.least is not None and self.least > limit):
            return False
        return None


class Reach(Answer, frozen=True):
    """Which floor lies within a distance on foot of the nearest target."""

    distance: float
    within_area: float
    beyond_area: float
    tolerance: float
    """m2. Neither area is farther from the truth than this."""
    beyond: tuple[Patch, ...]
    """The floor beyond, that without a way to any target among it."""
    contour: tuple[tuple[Point, ...], ...]
    """Lines at that distance, for a drawing; each deviates by less than a step of its mesh."""

    @property
    def beyond_share(self) -> float:
        """Part of the floor that lies beyond, 0 to 1."""
        whole = self.within_area + self.beyond_area
        return self.beyond_area / whole if whole else 0.0


class SharedStart(Answer, frozen=True):
    """How far one walks before ways to two exits part."""

    distance: float | None
    """None where fewer than two exits can be reached."""
    path: tuple[Point, ...]
    exits: tuple[int, ...]
    """The two exits, counted from 0 among those asked for."""


class Suggestion(Answer, frozen=True):
    """Where on a wall one more target would bring all floor within a limit."""

    needed: bool
    """False if all floor is within the limit already."""
    place: Point | None
    """None where no place is needed, or none was found."""
    then: Farthest | None
    """The longest walk once it is there; as it is now, where no place is needed."""
    at_least: float | None
    """No one place on a wall brings the longest walk below this; None where no one place serves all floor."""

    def rules_out(self, limit: float) -> bool:
        """Whether it is proven that no one place on a wall is enough."""
        return self.needed and (self.at_least is None or self.at_least > limit)


class Gap(Answer, frozen=True):
    """The free distance between two shapes, and where it is."""

    distance: float
    here: Point
    there: Point


class Between(Answer, frozen=True):
    """A free gap, and what lies on its two sides."""

    kinds: tuple[str, str]
    """obstacle, partition, side (of the room) or door (what its leaf sweeps)."""
    ids: tuple[str, str]
    """What the plan calls them; of a side its number, counted from 0 at the first corner of the room."""
    gap: Gap


class Intrusion(Answer, frozen=True):
    """What lies in a space that is asked to be clear."""

    thing: str
    """Kind and id, as in obstacle bench; "wall" for what is no floor."""
    area: float
    distance: float
    """From the face, or from the rollers, to the nearest of it."""
    outline: Outline


class WorkingSpace(Answer, frozen=True):
    """The rectangle before a face that is asked to be clear, where it is clearest."""

    outline: Outline
    clear: bool
    depth: float
    """How deep that rectangle is clear over its whole width; at most the depth asked for."""
    intrusions: tuple[Intrusion, ...]


class FreeFloor(Answer, frozen=True):
    """How far some floor is clear one way, and the clear rectangle; or what stands at once in it."""

    length: float
    outline: Outline


class Strip(Answer, frozen=True):
    """The strip that runs from rollers one way, as far as the first solid wall across it."""

    outline: tuple[Patch, ...]
    distance: float | None
    """To the nearest wall in the strip; None where no wall stands in it as far as was looked."""
    end: float
    """How far the longest ray runs."""
    holds: tuple[Intrusion, ...]
    """What lies in it, the nearest first."""
    doors: tuple[str, ...]
    """Doors through which it runs."""


class EdgeDistance(Answer, frozen=True):
    """How far an anchor is from what weakens its hold."""

    to_edge: Gap
    to_joint: Gap | None
    """None where the slab has no joint."""
    to_anchor: Gap | None
    """To the nearest other anchor; None for a lone one."""
