"""Tests draw off the screen unless somebody asks for another way."""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
