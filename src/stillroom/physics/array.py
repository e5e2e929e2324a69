"""The one array type of the room: real numbers, whose shape and unit each docstring tells."""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.floating]
