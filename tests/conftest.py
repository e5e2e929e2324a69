"""How property tests run: no deadlines (machines differ), and the same examples each time in CI."""

import os

from hypothesis import settings

settings.register_profile("here", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "here")
