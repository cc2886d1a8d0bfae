"""Noise of a working day: dose, level over eight hours, level under hearing protectors."""

import math
from collections.abc import Sequence

from checker.quantities.missing import OutsideRange
from checker.quantities.registry import Argument, above, between, quantity

WORKING_DAY = 8 * 3600.0
"""s."""


def reference_duration(level: float, criterion: float, exchange: float) -> float:
    """How long a level may last, in s, for a dose of 1. Levels in dB(A).

    Source: 29 CFR 1910.95 Appendix A, footnote to Table G-16a, with criterion 90 and exchange 5 (verified);
    NIOSH 98-126 with 85 and 3 (secondary).
    """
    return float(WORKING_DAY / 2 ** ((level - criterion) / exchange))


@quantity(
    "room.noise_dose",
    gives="ratio",
    inputs={"level": "readings.noise_level", "hours": "readings.noise_hours"},
    arguments=(Argument("criterion", "sound_level"), Argument("exchange", "number")),
    formula="hours × 2^((level − criterion) ÷ exchange) ÷ 8 h",
    source=(
        "29 CFR 1910.95 Appendix A (verified): criterion 90 dB(A), exchange 5; NIOSH 98-126 (secondary): 85 dB(A), 3"
    ),
    status="secondary",
    leaves_out=(
        "other sounds of the day, hearing protection, and the thresholds below which OSHA does not count a level "
        "(80 or 90 dB(A))"
    ),
    range={"level": between(0, 140, "dB(A)"), "hours": between(0, 86400, "s"), "exchange": above(0)},
)
def noise_dose(level: float, hours: float, criterion: float, exchange: float) -> float:
    """The dose of one steady level, 1 being all that is allowed, from dB(A) and s."""
    return hours / reference_duration(level, criterion, exchange)


@quantity(
    "worker.noise.dose",
    gives="ratio",
    inputs={"levels": "spells[*].level", "lasting": "spells[*].lasts"},
    arguments=(
        Argument("threshold", "sound_level"),
        Argument("criterion", "sound_level"),
        Argument("exchange", "number"),
    ),
    formula="Σ time ÷ (8 h ÷ 2^((level − criterion) ÷ exchange)) over the spells at or above the threshold",
    source=(
        "29 CFR 1910.95 Appendix A with criterion 90 dB(A) and exchange 5 (verified); its two thresholds, 80 and "
        "90 dB(A), in the agency's letter of 26 September 2001 (verified)"
    ),
    status="verified",
    leaves_out="hearing protection; spells that were not recorded; impulses",
    range={"exchange": above(0)},
)
def day_dose(
    levels: Sequence[float], lasting: Sequence[float], threshold: float, criterion: float, exchange: float
) -> float:
    """The dose of a day's spells, 1 being all that is allowed, from dB(A) and s."""
    return math.fsum(
        noise_dose(level, time, criterion, exchange)
        for level, time in zip(levels, lasting, strict=True)
        if level >= threshold
    )


@quantity(
    "worker.noise.daily_level",
    gives="sound_level",
    inputs={"levels": "spells[*].level", "lasting": "spells[*].lasts"},
    formula="10 × log10(Σ time × 10^(level ÷ 10) ÷ 8 h)",
    source="Directive 2003/10/EC article 2 with ISO 1999; SI 2005/1643 Schedule 1 (secondary)",
    status="secondary",
    leaves_out="hearing protection; spells that were not recorded",
)
def daily_level(levels: Sequence[float], lasting: Sequence[float]) -> float:
    """The level in dB(A) that, kept up for eight hours, carries the same energy as a day's spells.

    OutsideRange where the day has no sound at all.
    """
    energy = math.fsum(time * 10 ** (level / 10) for level, time in zip(levels, lasting, strict=True))
    if energy <= 0:
        raise OutsideRange("a day without any spell of noise has no level")
    return 10 * math.log10(energy / WORKING_DAY)


REAL_WORLD = 4.0
"""dB that protectors lose between laboratory and workplace."""


@quantity(
    "worker.noise.level_at_ear",
    gives="sound_level",
    inputs={"level_c": "level_c", "snr": "protectors.snr"},
    formula="C-weighted level − SNR + 4 dB",
    source="EN ISO 4869-2 for the SNR, HSE L108 for the 4 dB lost in use (secondary)",
    status="secondary",
    leaves_out="time without protectors: half an hour without them in a day undoes most of what they do",
    range={"snr": between(0, 45, "dB")},
)
def level_at_ear(level_c: float, snr: float) -> float:
    """The A-weighted level in dB(A) under protectors, from the C-weighted level in dB(C) and the SNR in dB."""
    return level_c - snr + REAL_WORLD
