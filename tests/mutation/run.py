"""Put random small faults into a part of the package and see whether the tests near it notice.

    uv run python tests/mutation/run.py --seed 1 --count 60 equations
    uv run python tests/mutation/run.py rigcalc/models/machine/grip.py --count 0      (every fault of one file)

The same seed gives the same faults. Work is done in copies of the checkout in a temporary folder, on two cores. Exit 1 when
less than `--least` percent are noticed, faults that docs/mutation.md calls harmless not counted. Never part of the ordinary
tests.
"""

from __future__ import annotations

import argparse
import json
import os
import queue
import random
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from mutants import Mutant, all_mutants

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "mutation.md"

# The tests near a folder, the quick and telling ones first. What isn't there (yet) is left out.
NEAR = {
    "rigcalc/core": ["tests/core"],
    "rigcalc/equations": [
        "tests/published",
        "tests/equations",
        "tests/core/test_dimension_proof.py",
        "tests/core/test_formula.py",
    ],
    "rigcalc/models/rig": ["tests/models/rig", "tests/models/machine", "tests/cli/test_bad_input.py"],
    "rigcalc/models/machine": ["tests/models/machine", "tests/models/size"],
    "rigcalc/models/size": [
        "tests/models/size",
        "tests/words/test_size_words.py",
        "tests/words/test_working_words.py",
        "tests/words/test_cautions.py",
    ],
    "rigcalc/models/compare": ["tests/models/compare", "tests/words/compare"],
    "rigcalc/models/ballast": ["tests/models/ballast", "tests/words/ballast"],
    "rigcalc/models": ["tests/models"],
    "rigcalc/words": ["tests/words", "tests/models", "tests/views", "tests/cli"],
    "rigcalc/cli": ["tests/cli"],
}
# Asked when the near ones noticed nothing: the demo rigs' figures from end to end. Counted apart, for they only tell that
# something moved.
LAST = ["tests/regression"]
OPTIONS = [
    "-x", "-q", "-o", "addopts=--import-mode=importlib", "-p", "no:playwright", "-p", "no:nbval", "-p", "no:cacheprovider",
    "--hypothesis-profile=ci", "-W", "ignore",
]  # fmt: skip


def folder_of(path: str) -> str:
    """Give the deepest folder in the map that holds a file."""
    return max((name for name in NEAR if path.startswith(name + "/")), key=len)


def near(path: str) -> list[str]:
    """Give the tests for a file: first those near it that bear its name, which notice most."""
    tests = [test for test in NEAR[folder_of(path)] if (ROOT / test).exists()]
    stem = Path(path).stem
    own = [str(file.relative_to(ROOT)) for test in tests for file in sorted((ROOT / test).rglob(f"test_*{stem}.py"))]
    return [*own, *tests]


def copy(to: Path) -> None:
    """Copy what git knows or would add, never what it ignores."""
    listed = subprocess.run(
        ["git", "ls-files", "-co", "--exclude-standard"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    for name in listed.stdout.splitlines():
        if (ROOT / name).is_file():
            (to / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, to / name)


class Copy:
    """One copy of the checkout with a process that runs tests in it."""

    def __init__(self, folder: Path):
        self.folder = folder
        copy(folder)
        env = os.environ | {"PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1", "OMP_NUM_THREADS": "1"}
        env.pop("CI", None)
        self.worker = subprocess.Popen([sys.executable, str(Path(__file__).with_name("worker.py"))], cwd=folder, env=env,
                                       stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)  # fmt: skip

    def passes(self, tests: list[str], within: float) -> tuple[bool, str]:
        """Run tests; give whether they pass, and the first that doesn't."""
        self.worker.stdin.write(json.dumps([within, [*OPTIONS, *tests]]) + "\n")
        self.worker.stdin.flush()
        answer = self.worker.stdout.readline()
        if not answer:
            raise EOFError
        code, why = json.loads(answer)
        return code == 0, why

    def judge(self, mutant: Mutant, within: float) -> str:
        """Give what noticed a fault: a test's name, `regression: ...`, or nothing."""
        target = self.folder / mutant.path
        source = target.read_text(encoding="utf-8")
        target.write_text(mutant.text(source), encoding="utf-8")
        try:
            ok, why = self.passes(near(mutant.path), within)
            if not ok:
                return why
            ok, why = self.passes(LAST, within) if mutant.path.startswith("rigcalc/models") else (True, "")
            return "" if ok else f"regression: {why}"
        finally:
            target.write_text(source, encoding="utf-8")


def main() -> int:
    """Read the command line, put the faults in, say what survived."""
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("part", help="a folder or file of rigcalc: equations, models/size, rigcalc/models/machine/grip.py")
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--count", type=int, default=60, help="how many faults; 0 for all there are")
    ask.add_argument("--cores", type=int, default=2)
    ask.add_argument("--least", type=float, default=90, help="percent that must be noticed")
    ask.add_argument("--list", action="store_true", help="only say which faults would be put in")
    given = ask.parse_args()
    part = given.part if given.part.startswith("rigcalc") else f"rigcalc/{given.part}"
    if not (ROOT / part).exists():
        ask.error(f"there is no {part}")
    there = all_mutants(ROOT, part)
    chosen = there if not given.count else sorted(random.Random(given.seed).sample(there, min(given.count, len(there))))
    if given.list:
        for mutant in chosen:
            was, now = mutant.shown((ROOT / mutant.path).read_text(encoding="utf-8"))
            print(f"{mutant.path}:{mutant.line} {mutant.kind}: {was} -> {now}")
        return 0
    print(f"{len(chosen)} of {len(there)} faults in {part}, seed {given.seed}", flush=True)
    sources = {mutant.path: (ROOT / mutant.path).read_text(encoding="utf-8") for mutant in chosen}
    judged = run(chosen, given.cores)
    code = report(judged, sources, given.least)
    return code if len(judged) == len(chosen) else 1


def run(chosen: list[Mutant], cores: int) -> list[tuple[Mutant, str]]:
    """Judge each fault in one of `cores` copies; stop when the tests fail without any fault."""
    waiting: queue.SimpleQueue[Mutant] = queue.SimpleQueue()
    for mutant in chosen:
        waiting.put(mutant)
    judged: list[tuple[Mutant, str]] = []
    with tempfile.TemporaryDirectory(prefix="mutants-") as place:
        copies = [Copy(Path(place) / str(number)) for number in range(cores)]
        within = {}
        for folder, path in {folder_of(mutant.path): mutant.path for mutant in chosen}.items():
            begin = time.monotonic()
            ok, why = copies[0].passes(near(path), 1800)
            if not ok:
                raise SystemExit(f"the tests fail without any fault: {why}")
            within[folder] = 30 + 5 * (time.monotonic() - begin)

        def work(place: Copy) -> None:
            while True:
                try:
                    mutant = waiting.get_nowait()
                except queue.Empty:
                    place.worker.stdin.close()
                    place.worker.wait()
                    return
                try:
                    why = place.judge(mutant, within[folder_of(mutant.path)])
                except (EOFError, BrokenPipeError):
                    print("\nthe process that runs the tests was ended from outside", flush=True)
                    return
                judged.append((mutant, why))
                # Said at once: a run of an hour that is broken off has then told what it found.
                print("." if why else f"\nsurvives: {mutant.path}:{mutant.line} -> {mutant.new!r}\n", end="", flush=True)

        workers = [threading.Thread(target=work, args=(place,)) for place in copies]
        for worker in workers:
            worker.start()
        for worker in workers:
            worker.join()
    print()
    if len(judged) < len(chosen):
        print(f"broken off: {len(judged)} of {len(chosen)} were judged")
    return sorted(judged)


def report(judged: list[tuple[Mutant, str]], sources: dict[str, str], least: float) -> int:
    """Print the survivors and the share noticed; give the exit code."""
    known = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    harmless = regression = 0
    survivors = []
    for mutant, why in judged:
        was, now = mutant.shown(sources[mutant.path])
        if not why:
            is_known = f"`{was}` -> `{now}`" in known
            harmless += is_known
            note = " (on the page)" if is_known else ""
            survivors.append(f"{mutant.path}:{mutant.line} {mutant.kind}{note}\n  `{was}` -> `{now}`")
        elif why.startswith("regression"):
            regression += 1
            print(f"only by regression: {mutant.path}:{mutant.line} {mutant.kind}\n  `{was}` -> `{now}`")
    print("\n".join(survivors))
    count = len(judged) - harmless
    noticed = sum(bool(why) for _, why in judged)
    share = 100 * noticed / count if count else 100.0
    print(f"{noticed} of {count} noticed ({share:.0f} %), {regression} of them by regression alone; {harmless} harmless")
    return 0 if share >= least else 1


if __name__ == "__main__":
    raise SystemExit(main())
