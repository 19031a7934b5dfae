"""What holds for every test."""

from __future__ import annotations

import os

from hypothesis import settings

# Other work on the machine must not fail a test: no deadlines; and CI tries the same cases each time.
settings.register_profile("here", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") == "true" else "here")
