"""How quick the pages are: ``python -m benchmarks.pages``."""
