"""The closed choices of words in rulesets and results."""

from typing import Literal

Authority = Literal[
    "workplace law",
    "fire code",
    "building code",
    "mechanical code",
    "wiring rules",
    "standard",
    "guidance",
    "good practice",
    "house",
    "insurer",
    "landlord",
    "maker",
]
LIE_ON_ANY_REGION = frozenset({"house", "insurer", "landlord", "maker"})
"""Authorities of layers that have no parent and are laid on any region."""
Trade = Literal[
    "shop",
    "landlord",
    "electrician",
    "structural engineer",
    "extraction firm",
    "fire equipment firm",
    "compressor firm",
    "maker",
]
Severity = Literal["critical", "major", "minor", "observation"]
Evidence = Literal["assumed", "estimated", "told", "drawing", "read", "seen", "paper", "measured", "tested"]
Outcome = Literal["met", "not met", "undetermined", "not applicable"]
Status = Literal["verified", "secondary", "memory", "common practice"]
ReadIn = Literal["copy", "letter", "state text", "NI text", "TS", "scope abstract", "handbook", "contents list"]
Judges = Literal["operation", "new work", "existing"]
SourceKind = Literal["law", "code", "standard", "guidance", "handbook", "contract", "own standard", "manual"]
Binding = Literal["law", "adopted code", "contract", "own standard", "manual", "standard", "guidance", "good practice"]
Because = Literal[
    "not recorded", "not reached", "evidence too weak", "outside range", "within uncertainty", "rule broke"
]
