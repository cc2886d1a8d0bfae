"""What can be wrong with an expression, before it is known in which file and line it stands."""

from msgspec import Struct


class Fault(Struct, frozen=True):
    """One thing wrong with an expression: where in its text, what is wrong, what was found, what would be right."""

    offset: int
    says: str
    found: str
    wanted: str


class Refused(Exception):
    """An expression that cannot be a rule. Raised by parsing and by the check of types; holds every fault found."""

    def __init__(self, faults: list[Fault]) -> None:
        """Keep the faults in the order of the text."""
        self.faults = tuple(sorted(faults, key=lambda fault: fault.offset))
        super().__init__("; ".join(f"{fault.says} (found {fault.found})" for fault in self.faults))
