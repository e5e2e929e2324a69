"""So that ``python -m stillroom`` is the same command."""

import sys

from stillroom.cli import main

sys.exit(main())
