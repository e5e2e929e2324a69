"""Measured claims: each module prints a ratio to a named baseline of the same run."""
