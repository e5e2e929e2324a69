"""Recipes pasted as text: lines, method, facts and foods met."""
