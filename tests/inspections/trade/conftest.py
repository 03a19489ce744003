"""Property tests run on machines that do other work at the same time: no test fails for being slow."""

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
