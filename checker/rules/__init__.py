"""The ruleset language: reading, types, layers, provisions, tables, sources and compiled expressions."""

from checker.rules.rulebook import Rulebook
from checker.rules.shelf import read_rulesets

__all__ = ["Rulebook", "read_rulesets"]
