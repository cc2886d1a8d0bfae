"""The ruleset language: reading, types, layers, provisions, tables, sources and compiled expressions."""

from checker.rules.opening import read_rulesets
from checker.rules.rulebook import Rulebook

__all__ = ["Rulebook", "read_rulesets"]
