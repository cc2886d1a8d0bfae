"""Checks a dynamometer workshop against the rules that bind it."""

__version__ = "0.1.0"
