"""The published processes: the tables, how to ask them, and where each row was printed.

>>> from stillroom.processes import lookup
>>> answer = lookup("green beans", jar="quart", method="dial-gauge", elevation="5200 ft")
>>> [(p.food, p.minutes, p.psi) for p in answer.processes]
[('snap beans', 25, 13)]
"""

from stillroom.processes.lookup import lookup, reading_notes
from stillroom.processes.model import Answer, Match, Process, Refusal

__all__ = ["Answer", "Match", "Process", "Refusal", "lookup", "reading_notes"]
