"""What every test shares: property tests draw the same examples each run, and have no deadline."""

from hypothesis import settings

settings.register_profile("ci", derandomize=True, deadline=None)
settings.load_profile("ci")
