"""What the record of the survey says of everything else: what bare values rest on, and what was not reached."""

import datetime
from collections.abc import Mapping
from pathlib import Path
from typing import Final, Literal

from msgspec import Struct

from checker.quantities.missing import Need
from checker.site.entries import Entry, NotReached
from checker.site.model import Site
from checker.site.model_survey import Survey as SurveyModel
from checker.site.paths import Step, steps

WHERE_NOTHING_IS_SAID = "told"
Reading = Literal["recorded", "longest", "shortest"]
"""As recorded, with what is not known unknown; else the plan in which walks are longest, or shortest."""
READINGS: Final[tuple[Reading, ...]] = ("longest", "shortest")
"""Those between which the truth lies."""


class Survey(Struct, frozen=True):
    """The parts of the survey's record that bear on facts."""

    evidence: str
    on: datetime.date | None
    unreached: Mapping[tuple[Step, ...], str]
    """Path of what could not be reached: why."""
    reading: Reading = "recorded"
    """How a floor plan is read in which something is not known."""
    kept: Path | None = None
    """The folder in which answers about floor plans are kept between runs."""

    def why_unreached(self, path: str) -> str | None:
        """Why the survey did not reach the place, or something that holds it; None where it did."""
        if not self.unreached:
            return None
        place = tuple(steps(path))
        return next((why for about, why in self.unreached.items() if _holds(about, place)), None)

    def gap(self, path: str, recorded: object) -> Need:
        """Why nothing stands at a path: `recorded` is what the model holds there, NotReached or None."""
        if isinstance(recorded, NotReached):
            return Need(path, "not reached", recorded.why)
        why = self.why_unreached(path)
        return Need(path, "not recorded") if why is None else Need(path, "not reached", why)


def survey_of(site: Site, reading: Reading = "recorded", kept: Path | None = None) -> Survey:
    """The survey of a site; where none was recorded, bare values were told and everything was reached."""
    survey = site.survey
    if not isinstance(survey, SurveyModel):
        return Survey(WHERE_NOTHING_IS_SAID, None, {}, reading, kept)
    day = survey.on.value if isinstance(survey.on, Entry) else None
    members = survey.not_reached if isinstance(survey.not_reached, tuple) else ()
    return Survey(
        survey.evidence or WHERE_NOTHING_IS_SAID,
        day if isinstance(day, datetime.date) else None,
        {tuple(steps(member.about)): member.why for member in members},
        reading,
        kept,
    )


def _holds(about: tuple[Step, ...], place: tuple[Step, ...]) -> bool:
    """Whether one path leads to another or to something that holds it; a list's name holds all its members."""
    return len(about) <= len(place) and all(
        held.name == step.name and step.which in (None, "*", held.which)
        for step, held in zip(about, place, strict=False)
    )
