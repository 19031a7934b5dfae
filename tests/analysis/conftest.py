"""Settings of the tests of numbers."""

from hypothesis import settings

# No test here asserts on wall time, and a busy machine must not fail one.
settings.register_profile("numbers", deadline=None)
settings.load_profile("numbers")
