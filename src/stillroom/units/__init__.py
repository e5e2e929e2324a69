"""Quantities a person writes: elevations, jar sizes, kitchen amounts, clock times."""
