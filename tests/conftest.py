"""Tests draw off the screen unless somebody asks for another way; in CI properties are tried on the same cases."""

import os

from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

settings.register_profile("the same cases", derandomize=True, deadline=None)
settings.register_profile("other cases", derandomize=False, deadline=None, print_blob=True)
settings.load_profile("the same cases" if os.environ.get("CI") else "other cases")
