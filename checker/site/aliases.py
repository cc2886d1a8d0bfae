"""One name a kind of field, so that a model reads as a list of what a surveyor may write."""

from typing import Annotated

from checker.site.entries import Recorded
from checker.site.fields import Answer, Check, Count, Day, Text
from checker.site.measures import Line, Measured, Outline, Point
from checker.site.names import Designation, Region
from checker.site.parts import Plain

Length = Annotated[Recorded, Measured("length", "positive")]
Distance = Annotated[Recorded, Measured("length")]
Area = Annotated[Recorded, Measured("area", "positive")]
Volume = Annotated[Recorded, Measured("volume", "positive")]
Amount = Annotated[Recorded, Measured("volume")]
Mass = Annotated[Recorded, Measured("mass", "positive")]
Duration = Annotated[Recorded, Measured("duration")]
Speed = Annotated[Recorded, Measured("speed")]
Rotation = Annotated[Recorded, Measured("rotation")]
Flow = Annotated[Recorded, Measured("flow")]
FreeAir = Annotated[Recorded, Measured("free_air")]
GaugePressure = Annotated[Recorded, Measured("pressure_gauge")]
PressureDifference = Annotated[Recorded, Measured("pressure_difference")]
Stress = Annotated[Recorded, Measured("stress", "positive")]
Temperature = Annotated[Recorded, Measured("temperature")]
Power = Annotated[Recorded, Measured("power")]
Voltage = Annotated[Recorded, Measured("voltage", "positive")]
Current = Annotated[Recorded, Measured("current")]
Frequency = Annotated[Recorded, Measured("frequency")]
Force = Annotated[Recorded, Measured("force")]
Inertia = Annotated[Recorded, Measured("inertia", "positive")]
Concentration = Annotated[Recorded, Measured("concentration")]
SoundLevel = Annotated[Recorded, Measured("sound_level")]
SoundLevelC = Annotated[Recorded, Measured("sound_level_c")]
Illuminance = Annotated[Recorded, Measured("illuminance")]
Share = Annotated[Recorded, Measured("ratio")]
Memory = Annotated[Recorded, Measured("memory", "positive")]

YesNo = Annotated[Recorded, Answer()]
Found = Annotated[Recorded, Check()]
Date = Annotated[Recorded, Day()]
LastDone = Annotated[Recorded, Day(or_never=True)]
Words = Annotated[Recorded, Text()]
Phases = Annotated[Recorded, Count(1, 3)]
Several = Annotated[Recorded, Count(1)]
Heads = Annotated[Recorded, Count()]
Decibels = Annotated[Recorded, Count(0, 60)]
Place = Annotated[Recorded, Point()]
Corners = Annotated[Recorded, Outline()]
Polyline = Annotated[Recorded, Line()]
Size = Annotated[Recorded, Designation()]
RegionCode = Annotated[Recorded, Region()]
PlainText = Annotated[str | None, Plain(Text())]
