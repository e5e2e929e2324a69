"""The process that serves pages never loads the solver, nor what draws and prints."""

import subprocess
import sys

HEAVY = ("ortools", "numpy", "pandas", "altair", "vl_convert", "typst")


def test_the_application_loads_no_solver_no_numerics_and_no_printer() -> None:
    code = f"""
import sys
import stillroom.web.app, stillroom.web.work.desk
print([name for name in {HEAVY!r} if name in sys.modules])
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.strip() == "[]"


def test_the_worker_loads_them_so_that_the_test_above_names_what_there_is() -> None:
    code = f"""
import sys
import stillroom.web.work.solve
from stillroom.paper.typeset import typeset
print(*[name for name in {HEAVY!r} if name in sys.modules])
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert {"ortools", "numpy"} <= set(done.stdout.split())
