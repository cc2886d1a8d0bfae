"""Dose of noise."""

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
