"""The Qt window and its places."""
