"""The published file format, read from an invented file, and the benchmark's command."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from benchmarks.batching.instance import read_instance
from benchmarks.batching.plain import solve_plain
from stillroom.errors import InputError
from stillroom.loads.problem import Canner, Job, Weights
from stillroom.loads.result import Status
from tests.loads.checker import complaints
from tests.loads.small import best

ROOT = Path(__file__).resolve().parents[2]
# Two jars of one family share a load of 5 on canner 1 and are in time; the third, late whatever
# is done, has a load of 3 on canner 2. Setups: 0 on canner 1 (no state), 1 -> 2 costs 7 on 2.
# 2 * (5 + 3) + 100 * 1 + 1 * 7 = 123.
INVENTED = """
l=90;
a=2;
setup_costs=[|0,7,
|7,0,
|0,0|];
setup_times=[|0,1,
|1,0,
|0,0|];
m=2;
max_cap=[4,3];
initState=[3,1];
m_a_s = [|0,50,
|0,0|];
m_a_e = [|40,90,
|0,60|];
n=3;
eligible_machine = [{1},
{2,1},
{2}];
earliest_start=[0,1,2];
latest_end=[9,9,3];
min_time=[5,4,3];
max_time=[6,6,9];
size=[2,2,3];
attribute=[1,1,2];
mult_factor_total_runtime=2;
mult_factor_finished_toolate=100;
mult_factor_total_setuptimes=0;
mult_factor_total_setupcosts=1;
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "instances").mkdir()
    (tmp_path / "instances" / "osp007.dzn").write_text(INVENTED, encoding="utf-8")
    (tmp_path / "best_known.csv").write_text(
        "instance,best_known_integer_objective\n7,123\n", encoding="utf-8"
    )
    return tmp_path


def test_an_instance_is_read_as_it_is_written(folder: Path) -> None:
    instance = read_instance(folder / "instances" / "osp007.dzn")

    problem = instance.problem
    assert instance.number == 7
    assert problem.jobs[1] == Job("2", 0, 2, 4, 6, (0, 1), release=1, due=9)
    # Family 3 of 2 stands for no state; an interval without length is none.
    assert problem.canners == (
        Canner("1", 4, ((0, 40), (50, 90)), None),
        Canner("2", 3, ((0, 60),), 0),
    )
    assert problem.weights == Weights(runtime=2, late=100, setup_time=0, setup_cost=1)
    assert problem.setup_cost == ((0, 7), (7, 0))


def test_engine_and_plain_model_agree_on_it(folder: Path) -> None:
    problem = read_instance(folder / "instances" / "osp007.dzn").problem

    assert best(problem).objective == 123
    plain = solve_plain(problem, 10.0, 1, 1)
    assert plain.status is Status.OPTIMAL
    assert plain.objective == 123
    assert complaints(problem, plain) == []


def test_a_file_that_lacks_a_list_is_named(folder: Path) -> None:
    file = folder / "instances" / "osp007.dzn"
    file.write_text(INVENTED.replace("size=[2,2,3];", ""), encoding="utf-8")

    with pytest.raises(InputError, match=r"osp007\.dzn: size is missing"):
        read_instance(file)


def test_a_job_that_cannot_be_meant_is_named_with_its_file(folder: Path) -> None:
    file = folder / "instances" / "osp007.dzn"
    file.write_text(INVENTED.replace("size=[2,2,3];", "size=[2,0,3];"), encoding="utf-8")

    with pytest.raises(InputError, match=r"osp007\.dzn: Job 2: a jar takes room 0"):
        read_instance(file)


@pytest.mark.parametrize(
    ("written", "instead", "told"),
    [
        ("|0,0|];\nm_a_e", "|0|];\nm_a_e", "machine 2 has 1 starts in m_a_s, 2 ends"),
        ("max_cap=[4,3]", "max_cap=[4]", r"max_cap is no list of 2 entries \(m\)"),
        # An entry too many would otherwise be a job or canner left out in silence.
        ("size=[2,2,3]", "size=[2,2,3,1]", r"size is no list of 3 entries \(n\)"),
        ("initState=[3,1]", "initState=3", r"initState is no list of 2 entries \(m\)"),
    ],
)
def test_lists_of_another_length_are_named(
    folder: Path, written: str, instead: str, told: str
) -> None:
    file = folder / "instances" / "osp007.dzn"
    assert written in INVENTED
    file.write_text(INVENTED.replace(written, instead), encoding="utf-8")

    with pytest.raises(InputError, match=rf"osp007\.dzn: {told}"):
        read_instance(file)


def test_a_file_that_is_no_text_is_named(folder: Path) -> None:
    file = folder / "instances" / "osp007.dzn"
    file.write_bytes(b"\xff\xfe" + INVENTED.encode("utf-16-le"))

    with pytest.raises(InputError, match=r"osp007\.dzn: this is no text file"):
        read_instance(file)


def _run(*words: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-m", "benchmarks.batching", *words],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_command_prints_one_document_and_writes_solutions(folder: Path) -> None:
    done = _run(str(folder), "--time-limit", "10", "--out", str(folder / "out"), "--json")

    assert done.returncode == 0, done.stderr
    line = json.loads(done.stdout)["instances"][0]
    assert (line["instance"], line["objective"], line["bound"], line["status"]) == (
        7, 123, 123, "optimal",
    )  # fmt: skip
    assert (line["best_known"], line["ratio"]) == (123, 1.0)
    written = json.loads((folder / "out" / "osp007.solution.json").read_text("utf-8"))
    batches = [(b["machine"], b["end"] - b["start"], b["jobs"]) for b in written["batches"]]
    assert batches == [(1, 5, [1, 2]), (2, 3, [3])]


def test_a_number_that_is_not_there_ends_with_2(folder: Path) -> None:
    done = _run(str(folder), "--instances", "9")

    assert done.returncode == 2
    assert "there is no instance 9" in done.stderr


def test_a_folder_without_instances_ends_with_2(tmp_path: Path) -> None:
    done = _run(str(tmp_path))

    assert done.returncode == 2
    assert "there is no .dzn file" in done.stderr
