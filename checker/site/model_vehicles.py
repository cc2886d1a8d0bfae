"""Kinds of vehicle that are run or worked on, by what drives them, and what that asks of the shop."""

from typing import Annotated, ClassVar

from checker.site.aliases import Date, Distance, Found, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.names import Reference
from checker.site.parts import Noted, Thing, unrecorded


class VehicleKind(Thing):
    """A kind of vehicle that is run or worked on here, in one room."""

    kind_of_thing: ClassVar[str] = "vehicle_kind"
    name: Words = unrecorded("What people call it.", "vans on natural gas")
    propulsion: Annotated[
        Recorded, word("petrol", "diesel", "hybrid", "battery-electric", "LPG", "natural gas", "hydrogen", "other")
    ] = unrecorded("What drives it; natural gas compressed or liquid.", "battery-electric")
    room: Annotated[Recorded, Reference("room")] = unrecorded("The room it is run or worked on in.", "workshop")
    high_voltage_opened: YesNo = unrecorded(
        "Whether covers, plugs or batteries of its high-voltage system are opened here; asked of electric vehicles."
    )
    gas_system_opened: YesNo = unrecorded("Whether its gas tank, lines or valves are worked on; asked of gas vehicles.")
    flame_or_welding: YesNo = unrecorded("Whether flames or welding come near it; asked of gas vehicles.")
    gas_smells: YesNo = unrecorded("Whether a smell was added to its gas, so that a leak is noticed.")
    gas_emptied: YesNo = unrecorded(
        "Whether its gas system is emptied and purged with nitrogen, by an approved procedure, before it comes in."
    )
    valve_closed: Found = unrecorded("Whether the valve at its gas tank is shut before its gas system is worked on.")
    leak_tested: Found = unrecorded("Whether a damaged gas system is proved tight before the vehicle comes in.")
    over_pit: YesNo = unrecorded("Whether it stands over a pit or a roller well while worked on or run.")


class HighVoltageWork(Noted):
    """How people handle vehicles with high voltage."""

    trained_person: YesNo = unrecorded(
        "Whether a person with a certificate for high-voltage vehicles is named, does the work or looks after it."
    )
    isolated_and_proved: Found = unrecorded(
        "Whether the voltage is switched off, locked off and proved absent with a tester before the system is touched."
    )
    gloves_test_due: Date = unrecorded("The last day for which the insulating gloves are tested.", "2027-02-28")
    rescue_hook: Found = unrecorded("Whether an insulated hook or pole to pull a person off hangs at hand.")
    keys_kept_away: Found = unrecorded("Whether keys of vehicles that are worked on lie out of their radio's reach.")
    wheels_kept_still: YesNo = unrecorded(
        "Whether driven wheels are kept from turning while somebody works on the system, on rollers too."
    )
    battery_checked: YesNo = unrecorded(
        "Whether warnings, damage and temperature of the battery are looked at before a run and after it."
    )


class QuarantinePlace(Noted):
    """The place for vehicles whose traction battery may catch fire."""

    outdoors: YesNo = unrecorded("Whether it lies outdoors.")
    clear_distance: Distance = unrecorded("From it to the nearest building, vehicle or boundary.", "15 m", "50 ft")
    agreed: YesNo = unrecorded("Whether the fire brigade, the insurer or a fire engineer agreed to its distance.")
    reached_by_pushing: Found = unrecorded("Whether a vehicle that does not run can be brought there at any hour.")
