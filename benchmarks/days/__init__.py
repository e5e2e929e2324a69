"""Twelve invented days, from seven jars to 600 jars and 20 canners, and how they are solved."""
