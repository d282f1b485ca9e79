"""Settings of the property tests: how long an example takes is no failure, since a loaded machine is slow."""

from hypothesis import settings

settings.register_profile("steady", deadline=None)
settings.load_profile("steady")
