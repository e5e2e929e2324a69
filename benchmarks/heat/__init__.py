"""How fast and how exact the heat in a jar is: python -m benchmarks.heat."""
