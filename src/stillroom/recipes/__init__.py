"""Recipes: the file a person writes, and jars turned into amounts and lists."""
