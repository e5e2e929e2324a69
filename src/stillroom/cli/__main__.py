"""So that ``python -m stillroom.cli`` is the same command."""

import sys

from stillroom.cli import main

sys.exit(main())
