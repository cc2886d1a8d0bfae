"""A site: what was recorded of a workshop, part by part."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, ClassVar

from checker.site.aliases import Date, Duration, Heads, LastDone, RegionCode, Words, YesNo
from checker.site.model_air import Accessory, AirHose, AirSystem, Fan
from checker.site.model_batteries import LithiumStore, VehicleCharger
from checker.site.model_building import Building, FireOpening, InsulatedPanel, Surroundings
from checker.site.model_dyno import Dyno
from checker.site.model_electrical import ChargingPlace, Circuit, Panel, Supply
from checker.site.model_fire import Detector, Extinguisher, Fuel, Hazard
from checker.site.model_flammables import Cabinet, DrainingPlace, Waste
from checker.site.model_floor import ClearZone, FloorGap, Partition
from checker.site.model_granted import AcceptedAlternative, GrantedException
from checker.site.model_guard import ClosingGap, Guard
from checker.site.model_hot_work import GasCylinder, Heater, HotWorkPlace
from checker.site.model_lifting import LiftingDevice
from checker.site.model_papers import Paper
from checker.site.model_people import EmergencyPlan, Eyewash, FirstAidKit, PastEvent, Worker
from checker.site.model_protection import EmergencyLight, FireAlarm, Impairment, Sprinklers
from checker.site.model_restraint import FloorPoint, Strap
from checker.site.model_room import Door, Obstacle, Room
from checker.site.model_run import Run
from checker.site.model_storeys import ExtinguisherPolicy, Storey
from checker.site.model_survey import Adopted, Assumption, Survey
from checker.site.model_vehicles import HighVoltageWork, QuarantinePlace, VehicleKind
from checker.site.names import Identifier
from checker.site.parts import List, Maybe, Needed, Plain, Thing, required, unrecorded

if TYPE_CHECKING:
    from checker.reading import Document


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
    recorded_runs: List[Run] = unrecorded("Runs that were watched, or the hardest that are usual.")
    straps: List[Strap] = unrecorded("The straps and chains that hold vehicles down.")
    floor_points: List[FloorPoint] = unrecorded("The points that straps hang on.")
    guards: List[Guard] = unrecorded("Guards and barriers at the dynamometers.")
    closing_gaps: List[ClosingGap] = unrecorded("Gaps that close when something moves.")
    fans: List[Fan] = unrecorded("The fans.")
    detectors: List[Detector] = unrecorded("The gas detectors.")
    extinguishers: List[Extinguisher] = unrecorded("The fire extinguishers.")
    storeys: List[Storey] = unrecorded("The storeys, as extinguishers are counted for them.")
    extinguisher_policy: Maybe[ExtinguisherPolicy] = unrecorded(
        "The written policy on who uses extinguishers; none where everybody may and nothing is written."
    )
    hazards: List[Hazard] = unrecorded("Places where a fire may start.")
    fuels: List[Fuel] = unrecorded("Fuel that is kept here.")
    supplies: List[Supply] = unrecorded("The electrical supplies that enter the building.")
    circuits: List[Circuit] = unrecorded("The circuits that feed the machines.")
    panels: List[Panel] = unrecorded("The electrical panels.")
    air_systems: List[AirSystem] = unrecorded("The compressed-air systems.")
    accessories: List[Accessory] = unrecorded("What compressed air moves on or beside the dynamometers.")
    air_hoses: List[AirHose] = unrecorded("The hoses under pressure.")
    lifting_equipment: List[LiftingDevice] = unrecorded("Lifts, hoists, jacks and stands.")
    charging_places: List[ChargingPlace] = unrecorded("Places where batteries are charged.")
    employees: Heads = unrecorded("How many people are employed here.", 4)
    most_present: Heads = unrecorded("The most people inside at one time, visitors among them.", 12)
    public_events: YesNo = unrecorded("Whether the public comes to watch runs.")
    hours: Words = unrecorded("When people work here.", "Monday to Saturday 8 to 19")
    fire_seen_at_once: YesNo = unrecorded(
        "Whether everybody inside would see or smell a fire at once, wherever it starts."
    )
    help_arrives_in: Duration = unrecorded("How long an ambulance or a clinic's help takes to be here.", "8 min")
    building: Maybe[Building] = unrecorded("The building.")
    surroundings: Maybe[Surroundings] = unrecorded("What lies around the building.")
    insulated_panels: List[InsulatedPanel] = unrecorded("Insulated panels in walls, ceilings and roofs.")
    fire_openings: List[FireOpening] = unrecorded("Openings in walls and floors that are meant to hold a fire back.")
    sprinklers: Maybe[Sprinklers] = unrecorded("The sprinklers.")
    fire_alarm: Maybe[FireAlarm] = unrecorded("The fire alarm.")
    emergency_lights: List[EmergencyLight] = unrecorded("Lamps that light the way out when the mains fails.")
    impairments: List[Impairment] = unrecorded("Protection that is out of service.")
    papers: List[Paper] = unrecorded("The papers that are kept.")
    workers: List[Worker] = unrecorded("The people who work here, by what they do.")
    first_aid_kits: List[FirstAidKit] = unrecorded("The first-aid kits.")
    eyewashes: List[Eyewash] = unrecorded("Places and units to rinse eyes.")
    emergency_plan: Maybe[EmergencyPlan] = unrecorded("What people do in an emergency.")
    past_events: List[PastEvent] = unrecorded("What happened here in the last years.")
    cabinets: List[Cabinet] = unrecorded("The cabinets for flammable liquids.")
    draining_places: List[DrainingPlace] = unrecorded("Places where fuel is drained or poured.")
    wastes: List[Waste] = unrecorded("Oily, burning or harmful waste that is kept here.")
    heaters: List[Heater] = unrecorded("The heaters of the rooms.")
    gas_cylinders: List[GasCylinder] = unrecorded("The gas cylinders.")
    hot_work_places: List[HotWorkPlace] = unrecorded("Places of welding, cutting, grinding and flames.")
    lithium_stores: List[LithiumStore] = unrecorded("Places where loose lithium batteries are kept.")
    vehicle_chargers: List[VehicleCharger] = unrecorded("Charging equipment for electric vehicles.")
    vehicle_kinds: List[VehicleKind] = unrecorded("Kinds of vehicle that are run or worked on, by what drives them.")
    high_voltage_work: Maybe[HighVoltageWork] = unrecorded("How vehicles with high voltage are handled.")
    quarantine_place: Maybe[QuarantinePlace] = unrecorded("The place for vehicles with a damaged traction battery.")
    exceptions: List[GrantedException] = unrecorded("Requirements that somebody set aside for a time.")
    accepted_alternatives: List[AcceptedAlternative] = unrecorded("Other ways that an authority has accepted.")

    _document: "Document"

    @property
    def document(self) -> "Document":
        """The file the site was read from, for positions."""
        return self._document


LISTS: Mapping[str, type[Thing]] = MappingProxyType(
    {
        "rooms": Room,
        "dynos": Dyno,
        "recorded_runs": Run,
        "straps": Strap,
        "floor_points": FloorPoint,
        "guards": Guard,
        "closing_gaps": ClosingGap,
        "fans": Fan,
        "detectors": Detector,
        "extinguishers": Extinguisher,
        "storeys": Storey,
        "hazards": Hazard,
        "fuels": Fuel,
        "supplies": Supply,
        "circuits": Circuit,
        "panels": Panel,
        "air_systems": AirSystem,
        "accessories": Accessory,
        "air_hoses": AirHose,
        "lifting_equipment": LiftingDevice,
        "charging_places": ChargingPlace,
        "insulated_panels": InsulatedPanel,
        "fire_openings": FireOpening,
        "emergency_lights": EmergencyLight,
        "impairments": Impairment,
        "papers": Paper,
        "workers": Worker,
        "first_aid_kits": FirstAidKit,
        "eyewashes": Eyewash,
        "past_events": PastEvent,
        "cabinets": Cabinet,
        "draining_places": DrainingPlace,
        "wastes": Waste,
        "heaters": Heater,
        "gas_cylinders": GasCylinder,
        "hot_work_places": HotWorkPlace,
        "lithium_stores": LithiumStore,
        "vehicle_chargers": VehicleCharger,
        "vehicle_kinds": VehicleKind,
    }
)
"""The lists of things that stand on the site itself."""

_MODELS: tuple[type[Thing], ...] = (Site, *LISTS.values(), Door, Obstacle, Partition, ClearZone, FloorGap)
THINGS: Mapping[str, type[Thing]] = MappingProxyType({model.kind_of_thing: model for model in _MODELS})
"""Every kind of thing and its model."""
