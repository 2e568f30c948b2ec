"""The families of conditions, one a file; none knows another.

Each has `ASKS`, the kind of facts it reads, and `CONDITIONS`, its named functions.
"""
