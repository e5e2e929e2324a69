"""Stillroom: published processes, recipes and a planned day for home canners."""

__version__ = "0.1.0"
