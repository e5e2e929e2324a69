"""Jars into loads: parallel batching with incompatible families."""
