"""Build hook: the process tables are audited before a wheel is made."""

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class AuditTables(BuildHookInterface[Any]):
    """Stops the build when the process library does not prove whole."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Run the audit; a broken table raises ``DataError`` and no wheel is made."""
        sys.path.insert(0, str(Path(self.root) / "src"))
        try:
            from stillroom.processes.audit import audit
        finally:
            sys.path.pop(0)
        audit()
