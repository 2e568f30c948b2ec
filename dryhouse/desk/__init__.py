"""The Qt window and its places."""

from dryhouse.desk.steady_none import steady_none

steady_none()
