"""The same evaluation with something changed: another day, another value."""
