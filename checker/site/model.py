"""A site: what was recorded of a workshop, part by part."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated, ClassVar

from checker.reading import Document
from checker.site.aliases import Date, LastDone, RegionCode, Words, YesNo
from checker.site.model_air import Accessory, AirSystem, Fan
from checker.site.model_dyno import Dyno
from checker.site.model_electrical import ChargingPlace, Circuit, Panel, Supply
from checker.site.model_fire import Detector, Extinguisher, Fuel, Hazard
from checker.site.model_granted import AcceptedAlternative, GrantedException
from checker.site.model_room import Door, Obstacle, Room
from checker.site.model_survey import Adopted, Assumption, Survey
from checker.site.names import Identifier
from checker.site.parts import List, Maybe, Needed, Plain, Thing, required, unrecorded


class Site(Thing):
    """A workshop that runs motorcycles or cars on rollers, as somebody saw it. What is not written is not known."""

    __slots__ = ("_document",)

    kind_of_thing: ClassVar[str] = "site"
    id: Annotated[str, Plain(Identifier()), Needed()] = required(
        "The site's name in results, the same for ever.", "ridgeway-motorcycles"
    )
    name: Words = unrecorded("What the site is called.", "Ridgeway Motorcycles")
    address: Words = unrecorded("Where it lies.", "Unit 4, Mill Lane")
    region: RegionCode = unrecorded("The country, or the part of it, whose law binds the site.", "us-ca")
    employer: YesNo = unrecorded("Whether people are employed here.")
    built_on: Date = unrecorded("When the building was built.", "1998-06-01")
    altered_on: LastDone = unrecorded("When the building was last altered.", "2024-05-01", "never")
    adopted: List[Adopted] = unrecorded("Codes that were adopted where the site lies.")
    survey: Maybe[Survey] = unrecorded("The record of the survey.")
    assumed: List[Assumption] = unrecorded("What is taken for granted where nothing was recorded.")
    rooms: List[Room] = unrecorded("The rooms.")
    dynos: List[Dyno] = unrecorded("The dynamometers.")
    fans: List[Fan] = unrecorded("The fans.")
    detectors: List[Detector] = unrecorded("The gas detectors.")
    extinguishers: List[Extinguisher] = unrecorded("The fire extinguishers.")
    hazards: List[Hazard] = unrecorded("Places where a fire may start.")
    fuels: List[Fuel] = unrecorded("Fuel that is kept here.")
    supplies: List[Supply] = unrecorded("The electrical supplies that enter the building.")
    circuits: List[Circuit] = unrecorded("The circuits that feed the machines.")
    panels: List[Panel] = unrecorded("The electrical panels.")
    air_systems: List[AirSystem] = unrecorded("The compressed-air systems.")
    accessories: List[Accessory] = unrecorded("What compressed air moves on or beside the dynamometers.")
    charging_places: List[ChargingPlace] = unrecorded("Places where batteries are charged.")
    exceptions: List[GrantedException] = unrecorded("Requirements that somebody set aside for a time.")
    accepted_alternatives: List[AcceptedAlternative] = unrecorded("Other ways that an authority has accepted.")

    _document: Document

    @property
    def document(self) -> Document:
        """The file the site was read from, for positions."""
        return self._document


LISTS: Mapping[str, type[Thing]] = MappingProxyType(
    {
        "rooms": Room,
        "dynos": Dyno,
        "fans": Fan,
        "detectors": Detector,
        "extinguishers": Extinguisher,
        "hazards": Hazard,
        "fuels": Fuel,
        "supplies": Supply,
        "circuits": Circuit,
        "panels": Panel,
        "air_systems": AirSystem,
        "accessories": Accessory,
        "charging_places": ChargingPlace,
    }
)
"""The lists of things that stand on the site itself."""

_MODELS: tuple[type[Thing], ...] = (Site, *LISTS.values(), Door, Obstacle)
THINGS: Mapping[str, type[Thing]] = MappingProxyType({model.kind_of_thing: model for model in _MODELS})
"""Every kind of thing and its model."""
