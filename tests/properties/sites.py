"""Sites drawn from a seed: every field of the model, with the examples that the model itself gives or near them."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from random import Random
from typing import Any

from checker.site.fields import Answer, Count, Day, Word
from checker.site.measures import Line, Measured, Outline, Point
from checker.site.model import LISTS, Site
from checker.site.names import OnTheFloor, Reference
from checker.site.parts import FieldOf, Group, Many, Part, Thing, fields_of

Data = dict[str, Any]
EVIDENCE = ("estimated", "told", "drawing", "read", "seen", "measured", "tested")
FACTORS: tuple[float, ...] = (0.1, 0.5, 0.8, 1, 1, 1, 1.25, 2, 10)
NOT_DRAWN = frozenset(
    {
        "was",
        "note",
        "assumed",
        "about",
        "value",
        "outline",
        "footprint",
        "operator_place",
        "wall_at",
        "at",
        "line",
        "faces",
        "places",
        "slab",
        "exceptions",
        "accepted_alternatives",
    }
)
"""What says nothing of the place, what was granted, and floor plans, which would seldom fit together."""


def drawn_site(random: Random, factors: Sequence[float] = FACTORS) -> Data:
    """A site with some of all there could be: as data, to be read as any other. Now and then it contradicts itself.

    Numbers are those of the model's examples times one of the factors.
    """
    ids = {
        model.kind_of_thing: [f"{model.kind_of_thing.replace('_', '-')}-{number}" for number in range(counted)]
        for model in LISTS.values()
        if (counted := random.choice((0, 1, 1, 2)))
    }
    return _Draw(random, random.uniform(0.3, 0.95), ids, factors).site()


def _leading_out(thing: Data) -> Data:
    """The thing; of a room no door leads back into it."""
    doors = thing.get("doors")
    for door in doors if isinstance(doors, list) else ():
        to = door.get("to")
        if thing["id"] in (to, to.get("value") if isinstance(to, dict) else None):
            door["to"] = "outside"
    return thing


@dataclass
class _Draw:
    random: Random
    fullness: float
    ids: dict[str, list[str]]
    factors: Sequence[float]

    def site(self) -> Data:
        data: Data = {**self.part(Site), "id": "drawn"}
        for name, model in LISTS.items():
            data.pop(name, None)
            members = self.ids.get(model.kind_of_thing)
            if members:
                data[name] = [_leading_out({**self.part(model), "id": each}) for each in members]
            elif self.random.random() < self.fullness:
                data[name] = self.random.choice(("none", []))
        if not isinstance(data.get("survey"), dict):
            data["survey"] = {"on": "2026-11-03"}
        if self.random.random() < 0.3:
            data["survey"]["not_reached"] = [{"about": self.random.choice(list(LISTS)), "why": "locked"}]
        return data

    def part(self, model: type[Part]) -> Data:
        data: Data = {}
        for field in fields_of(model).values():
            if field.name in NOT_DRAWN or not (field.required or self.random.random() < self.fullness):
                continue
            data[field.name] = self.field(field)
        if "rating" in data and "rating_system" in fields_of(model):
            data["rating_system"] = "UL 711" if "-" in str(data["rating"]) else "EN 3"
        return {name: value for name, value in data.items() if value is not None}

    def field(self, field: FieldOf) -> Any:
        marker = field.marker
        if isinstance(marker, Group):
            assert field.part is not None
            return "none" if self.random.random() < 0.15 else self.part(field.part)
        if isinstance(marker, Many):
            return self.members(field)
        value = self.value(field)
        if isinstance(marker, Answer | Count | Day | Measured | OnTheFloor | Reference | Word):
            return self.recorded(value)
        return value

    def members(self, field: FieldOf) -> Any:
        assert field.part is not None
        if field.name in LISTS or field.name == "not_reached":
            return None
        made = [self.part(field.part) for _ in range(self.random.choice((0, 1, 2)))]
        for number, each in enumerate(made):
            if issubclass(field.part, Thing):
                each["id"] = f"{field.name.replace('_', '-')}-{self.random.randrange(10**9)}-{number}"
        return [each for each in made if len(each) > 1]

    def value(self, field: FieldOf) -> Any:
        match field.marker:
            case Reference(kind=kind, besides=besides):
                return self.random.choice([*self.ids.get(kind, ()), *besides] or [None])
            case OnTheFloor():
                return self.random.choice([*self.ids.get("dyno", ()), OnTheFloor.WALL])
            case Word(choices=choices):
                return self.random.choice(choices)
            case Answer():
                return self.random.random() < 0.5
            case Day():
                return self.random.choice((*map(str, field.examples), "2025-11-25", "2026-10-01"))
            case Count():
                return field.examples[0]
            case Outline() | Point() | Line():
                raise AssertionError(field.name)
            case Measured():
                return self.near(str(self.random.choice(field.examples)))
        return self.random.choice(field.examples) if field.examples else None

    def near(self, written: str) -> str:
        """An example with another number before its unit."""
        plain = re.fullmatch(r"([0-9.]+)( .*)", written)
        return f"{float(plain[1]) * self.random.choice(self.factors):g}{plain[2]}" if plain else written

    def recorded(self, value: Any) -> Any:
        """A value as it is written: bare, with its evidence, or why there is none."""
        chance = self.random.random()
        if value is None or chance < 0.75:
            return value
        if chance < 0.8:
            return {"not_reached": "a vehicle stood on it"}
        return {"value": value, "evidence": self.random.choice(EVIDENCE), "by": "surveyor"}
