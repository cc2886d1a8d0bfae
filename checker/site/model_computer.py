"""The computer that runs a machine: its strength, its data line, its supply and what is kept of it."""

from typing import Annotated

from checker.site.aliases import Found, Frequency, LastDone, Length, Memory, Words, YesNo
from checker.site.entries import Recorded
from checker.site.fields import word
from checker.site.parts import Noted, unrecorded


class Computer(Noted):
    """The computer that runs the machine."""

    memory: Memory = unrecorded("Working memory.", "16 GB")
    clock: Frequency = unrecorded("Clock rate of the processor.", "3.2 GHz")
    network: Annotated[Recorded, word("wired", "wireless", "none")] = unrecorded("How it is on the network.", "wired")
    data_line: Annotated[Recorded, word("USB", "Ethernet", "RS-232", "fibre", "wireless")] = unrecorded(
        "What joins it to the machine's controller.", "Ethernet"
    )
    data_line_length: Length = unrecorded("Length of the cable to the controller.", "12 m", "30 ft")
    data_line_apart: Found = unrecorded(
        "Whether data and sensor cables run apart from power cables and cross them squarely."
    )
    same_earth: YesNo = unrecorded("Whether computer, controller and machine hang on one supply's earth.")
    surge_protected: YesNo = unrecorded("Whether a surge protector lies in its supply.")
    battery_backed: YesNo = unrecorded("Whether an uninterruptible supply lets a run end when the mains fails.")
    software: Words = unrecorded("Software and firmware, with their versions.", "console 5.2, controller 1.8")
    copies_kept: YesNo = unrecorded(
        "Whether copies of software, firmware, licence and calibration are kept away from the computer."
    )
    backed_up_on: LastDone = unrecorded("When its records were last copied elsewhere.", "2026-11-20", "never")
    clock_right: Found = unrecorded("Whether its date and time are right, so that a run can be told by them.")
