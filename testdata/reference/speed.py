#!/usr/bin/python3
"""The tables of DEVELOPERS.md, section Speed: run by speed.sh, which builds what is run here.

    ./speed.py FOLDER TURNS

In each turn every program solves every problem, one after the other; of all turns the least time counts, since
what else a machine does only ever adds to it. The other integrators are given the loosest relative tolerance with
which gel errs no more than twice as far as with potlife, against potlife's strict solution, which CVODE confirms first.
"""
import json
import os
import platform
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
LADDER = [3e-3, 1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 3e-6, 1e-6, 3e-7, 1e-7, 3e-8, 1e-8]
STRICT, CONFIRMS = "1e-9", 1e-6  # CVODE's at that tolerance is itself that good
PROBLEMS = {
    "stirred bath": "stirred bath, 1 kg, 8 h through runaway",
    "still tray": "still tray, 9 cells here, 64 there, 8 h through runaway",
    "still cup": "still cup, 6 × 9 cells here, 16 × 16 there, 4 h through runaway",
    "wall": "wall of 30 mm on a liner, 27 cells, 10 h of oven",
    "hundred baths": "100 stirred baths, 8 h",
}
COMMANDS = [
    ("worktime of a bath", ["worktime", "--resin", "epoxy-ipda", "--mass", "250g", "--room", "23C", "--vessel", "{length: 300 mm, width: 120 mm}"]),
    ("worktime of a cup", ["worktime", "--resin", "epoxy-ipda", "--mass", "250g", "--room", "23C", "--vessel", "{cup: 90 mm}"]),
    ("plan of the strut", ["plan", "testdata/jobs/telescope-strut.yaml"]),
    ("plan of the shell", ["plan", "testdata/jobs/softener-shell.yaml"]),
    ("check", ["check", "--session", "testdata/sessions/strut.session", "--at", "10:22"]),
    ("replan", ["replan", "--session", "testdata/sessions/strut.session", "--at", "10:46"]),
    ("report", ["report", "testdata/sessions/strut.session"]),
    ("learn", ["learn", "testdata/sessions/strut.session"]),
    ("cure of the strut", ["cure", "testdata/jobs/telescope-strut.yaml"]),
    ("cure of the shell", ["cure", "testdata/jobs/softener-shell.yaml"]),
    ("resins fit", ["resins", "fit", "testdata/resins/club-epoxy-medium.yaml"]),
]


class Problem:
    def __init__(self, folder, name):
        self.path = folder / f"{name}.txt"
        numbers = iter(self.path.read_text().split())
        count = int(next(numbers))
        next(numbers)
        self.strict = []
        for _ in range(count):
            self.strict.append(float(next(numbers)))
            cells = int(next(numbers))
            for _ in range(2 + 7 + 5 + 2):
                next(numbers)
            for _ in range(2):
                for _ in range(2 * int(next(numbers))):
                    next(numbers)
            for _ in range(6 * cells):
                next(numbers)

    def error(self, gels):
        """The worst of gel; infinite where one gels and the other does not."""
        worst = 0.0
        for gel, strict in zip(gels, self.strict, strict=True):
            if gel is None:
                worst = max(worst, 0.0 if strict == float("inf") else float("inf"))
            else:
                worst = max(worst, abs(gel / strict - 1))
        return worst


def asked(*command, **env):
    return subprocess.run([str(c) for c in command], check=True, capture_output=True, text=True, env={**os.environ, **env}).stdout


def benchmarks(test, pattern, folder, cores):
    """{name: {unit: value}} of the parts of one benchmark."""
    out = subprocess.run([test, "-test.run", "^$", "-test.bench", pattern, "-test.benchtime", "0.3s", "-test.cpu", str(cores)],
                         check=True, capture_output=True, text=True, cwd=folder).stdout
    found = {}
    for line in out.splitlines():
        if line.startswith("Benchmark"):
            words = line.split()
            name = words[0].partition("/")[2].removesuffix(f"-{cores}").replace("_", " ")
            found[name] = {unit: float(value) for value, unit in zip(words[2::2], words[3::2])}
    return found


def go(tools, name, cores):
    test = f"^BenchmarkYardsticks$/^{name.replace(' ', '_')}$"
    return benchmarks(tools / "still.test", test, ROOT / "kinetics/still", cores)[name]


def loosest(problem, solve, allowed):
    """The loosest tolerance of the ladder that is good enough with the next one too."""
    good = None
    for rtol in LADDER:
        error = problem.error(json.loads(solve(problem.path, rtol))["gel_s"])
        if error > allowed:
            good = None
        elif good is None:
            good = rtol, error
        else:
            return good
    return good


def row(*cells):
    print("| " + " | ".join(cells) + " |", flush=True)


def short(ms):
    return f"{ms:.3g}"


def yardsticks(tools, turns):
    cvode = lambda path, rtol, *more: asked(tools / "cvode", path, rtol, *more)
    scipy = lambda path, rtol, *more: asked("/usr/bin/python3", HERE / "speed_scipy.py", path, rtol, *more)
    row("problem", "potlife, ms", "error of gel", "kB", "CVODE, ms", "rtol, error", "times", "SciPy, ms", "rtol, error", "times")
    row(*["---"] * 10)
    for name, told in PROBLEMS.items():
        p = Problem(tools, name)
        off = p.error(json.loads(cvode(p.path, STRICT))["gel_s"])
        if not off <= CONFIRMS:
            raise SystemExit(f"speed.py: CVODE's gel of the {name} is {off:.1e} from potlife's strict one, more than {CONFIRMS:.0e}")
        cores = 2 if len(p.strict) > 1 else 1
        first = go(tools, name, cores)
        error = first["ppb-of-gel"] * 1e-9
        others = {"cvode": (cvode, loosest(p, cvode, 2 * error)), "scipy": (scipy, loosest(p, scipy, 2 * error))}
        best = {"go": first["best-ns/op"] * 1e-6}
        for _ in range(turns):
            best["go"] = min(best["go"], go(tools, name, cores)["best-ns/op"] * 1e-6)
            for other, (solve, found) in others.items():
                if found is None:
                    continue
                more = (0.3, cores) if other == "cvode" else (0.3,)
                best[other] = min(best.get(other, float("inf")), json.loads(solve(p.path, found[0], *more))["ms"])
        cells = [told, short(best["go"]), f"{error:.0e}", f"{first['B/op'] / 1000:.0f}"]
        for other, (_, found) in others.items():
            if found is None:
                cells += ["not that exact", "", ""]
            else:
                cells += [short(best[other]), f"{found[0]:.0e}, {found[1]:.0e}", f"{best[other] / best['go']:.1f}"]
        row(*cells)


def peak(command):
    """Seconds from start to end of a process, and the most memory that it had, MB."""
    start = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=ROOT)
    _, status, usage = os.wait4(child.pid, 0)
    took = time.perf_counter() - start
    if os.waitstatus_to_exitcode(status) not in (0, 3):
        raise SystemExit(f"speed.py: {command} failed")
    return took, usage.ru_maxrss / 1000


def commands(tools, turns):
    inside = benchmarks(tools / "commands.test", "^Benchmark(Commands|ManyEvents)$", ROOT / "cmd/potlife", 2)
    many = json.loads((tools / "many.json").read_text())
    row("command", "process, s", "allocates, MB", "peak, MB")
    row(*["---"] * 4)
    for name, args in COMMANDS + list(many.items()):
        runs = [peak([str(tools / "potlife"), *args]) for _ in range(turns)]
        row(name, f"{min(t for t, _ in runs):.3f}", f"{inside[name]['B/op'] / 1e6:.1f}", f"{max(m for _, m in runs):.0f}")


def main():
    tools, turns = Path(sys.argv[1]), int(sys.argv[2])
    model = next((line.partition(":")[2].strip() for line in open("/proc/cpuinfo") if line.startswith("model name")), platform.machine())
    version = asked("go", "env", "GOVERSION").strip()
    library = "built with -O2" if os.environ.get("SUNDIALS") else "Debian's, built without -O2"
    print(f"{os.cpu_count()} cores of {model}, load {os.getloadavg()[0]:.1f}, {version}, SUNDIALS {library}; the least of {turns + 1} turns.\n")
    yardsticks(tools, turns)
    print()
    commands(tools, turns)


if __name__ == "__main__":
    main()
