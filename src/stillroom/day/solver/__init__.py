"""The day as a constraint model: variables, rules, objective, solve, in four modules.

Steps of a load, on one canner:

1. hands prepare its food;
2. a pot heats the food or its covering liquid on a burner;
3. hands fill the jars and lower them while the pot stays hot and the canner warms;
4. the canner heats, vents, comes up, processes, cools and waits;
5. hands unload it, and it is free again.

Loads are slots on a canner, used from the first on; how many jars of each order a slot takes is
part of the solution.
"""

from stillroom.day.solver.search import Control, Progress
from stillroom.day.solver.solve import possible, solve

__all__ = ["Control", "Progress", "possible", "solve"]
