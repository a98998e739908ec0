#!/usr/bin/python3
"""The stirred resin bath, solved by SciPy: reference results for the Go code.

    ./bath.py           solve bath_cases.json, write bath_results.json
    ./bath.py --check   solve again, compare with bath_results.json; exit 1 with a list if they differ

State of the mixed resin: degree of cure alpha (0 fresh, 1 fully reacted), temperature T in K, and phi,
the growth of ln(viscosity) in the dual-Arrhenius law (it stays as it is in the other). SI throughout,
R = 8.314462618 J/(mol K).

Cure rate, S. Sourour, M.R. Kamal, Thermochim. Acta 14 (1976) 41:
    dalpha/dt = f (k1 + k2 alpha^m)(1 - alpha)^n,  ki = Ai exp(-Ei/(R T))
Vitrification factor, f = 1 where a case has none:
    f = 1/(1 + exp(C (alpha - alpha_v))),  Tg(alpha_v) = T + shift; alpha_v may exceed 1
Glass temperature (DiBenedetto):
    Tg = Tg0 + (Tg1 - Tg0) lambda alpha/(1 - (1 - lambda) alpha)
Viscosity (Castro-Macosko), infinite from alpha_gel on:
    eta = eta_ref exp((E/R)(1/T - 1/Tref)) (alpha_gel/(alpha_gel - alpha))^(a + b alpha)
Viscosity (dual-Arrhenius), by the same convention infinite once alpha has reached the gel of the cure law:
    ln eta = ln eta_ref + (E/R)(1/T - 1/Tref) + phi,  dphi/dt = k_g exp(-E_g/(R T))
Heat of a stirred bath of mass m, free surface A, perimeter P, depth d = m/(rho A):
    m cp dT/dt = m H dalpha/dt - h_s A (T - T_room) - h_w (A + P d)(T - T_wall) - mdot_f c_f (T - T_room)
T_wall is the jacket's temperature if there is one, else the room's; mdot_f is the tow's mass per second.
Both follow straight lines between the points given and stay constant outside them.

Steps: `stand`; `wind` (resin leaves at the draw rate, so m falls linearly; tow carries off heat);
`pour` (at once; alpha and phi mix by mass, T by m cp with one cp, so by mass as well).
After a pour viscosity is the law at the mean alpha: the log-mean excess of an aged heel is left out here.

Results, times in s from the start of a case: first upward crossing of the viscosity limit, the
temperature limit, gel, and twice the viscosity at the start (null: never; a state that starts above a
limit has to fall below it first; a jump at a pour counts); the highest temperature and when; the state at
the end of every step and at tenths of the whole time (at a pour: after it). Viscosity is null from gel on.

Accuracy: every stretch between kinks of room and jacket and ends of steps is integrated afresh, with
DOP853 and again with Radau, rtol 1e-10, atol 1e-12. The dense output only finds the step of the
integrator that holds an event or output time; the time and state come from integrating from the start of
that step again. A case fails if the methods differ by more than 1e-6 relative in a time, alpha, T or
ln(viscosity). The differences found stand in the results, that in the time of the peak apart: on a flat
summit the time is known less well than the temperature.
"""
import json
import math
import pathlib
import sys
from dataclasses import dataclass

from scipy.integrate import solve_ivp
from scipy.optimize import brentq, newton

R = 8.314462618
RTOL, ATOL = 1e-10, 1e-12
METHODS = ("DOP853", "Radau")  # explicit order 8 and implicit order 5: nothing in common but the equations
BETWEEN_METHODS = 1e-6
EXACT = 1e-9  # closed forms: ten times rtol, seen 2e-11
AGAINST_STORED = 1e-7  # same code on another build of SciPy: rounding amplified by the runaway, seen far below
SAME_TEMPERATURE = 1e-9  # K; a later peak must be higher by more
EVENTS = ("viscosity_limit_s", "temperature_limit_s", "gel_s", "doubled_s")
HERE = pathlib.Path(__file__).resolve().parent


def arrhenius(prefactor, activation, temperature):
    return prefactor * math.exp(-activation / (R * temperature))


def on_line(points, t):
    """Value at t of straight lines through points, constant outside."""
    if t <= points[0][0]:
        return points[0][1]
    for (t0, v0), (t1, v1) in zip(points, points[1:]):
        if t <= t1:
            return v0 + (v1 - v0) * (t - t0) / (t1 - t0)
    return points[-1][1]


def vitrification(case, alpha, temperature):
    law, glass = case["vitrification"], case["glass"]
    if law is None:
        return 1.0
    x = (temperature + law["shift_K"] - glass["uncured_K"]) / (glass["cured_K"] - glass["uncured_K"])
    alpha_v = x / (glass["lambda"] + (1 - glass["lambda"]) * x)  # DiBenedetto solved for alpha
    return 1 / (1 + math.exp(law["sharpness"] * (alpha - alpha_v)))


def cure_rate(case, alpha, temperature):
    c = case["cure"]
    k1 = arrhenius(c["A1_per_s"], c["E1_J_per_mol"], temperature)
    k2 = arrhenius(c["A2_per_s"], c["E2_J_per_mol"], temperature)
    # A trial stage of an integrator may step outside 0..1, where a fractional power has no real value.
    rate = (k1 + k2 * max(alpha, 0.0) ** c["m"]) * max(1 - alpha, 0.0) ** c["n"]
    return rate * vitrification(case, alpha, temperature)


def growth_rate(case, temperature):
    v = case["viscosity"]
    if v["law"] != "dual-arrhenius":
        return 0.0
    return arrhenius(v["growth_per_s"], v["growth_activation_J_per_mol"], temperature)


def fluidity(case, alpha, temperature, phi):
    """1/viscosity in 1/(Pa s): 0 from gel on, so it stays finite and its crossings are safe to bracket."""
    v = case["viscosity"]
    if alpha >= case["cure"]["gel"]:
        return 0.0
    flow = math.exp(-v["activation_J_per_mol"] / R * (1 / temperature - 1 / v["ref_K"])) / v["value_Pa_s"]
    if v["law"] == "dual-arrhenius":
        return flow * math.exp(-phi)
    left = max(v["gel"] - alpha, 0.0) / v["gel"]
    return flow * left ** (v["a"] + v["b"] * alpha)


@dataclass
class Stretch:
    """A time span in which every input is smooth."""

    case: dict
    start: float
    end: float
    mass: float  # kg at start
    draw: float = 0.0  # kg/s
    tow_loss: float = 0.0  # W/K

    def mass_at(self, t):
        return self.mass - self.draw * (t - self.start)

    def derivative(self, t, y):
        alpha, temperature, _ = y
        case, vessel, thermal = self.case, self.case["vessel"], self.case["thermal"]
        area, mass = vessel["surface_area_m2"], self.mass_at(t)
        wetted = area + vessel["perimeter_m"] * mass / (thermal["density_kg_per_m3"] * area)
        room = on_line(case["room"], t)
        wall = room if case["jacket"] is None else on_line(case["jacket"], t)
        rate = cure_rate(case, alpha, temperature)
        heat = mass * case["cure"]["heat_J_per_kg"] * rate
        heat -= (vessel["surface_loss_W_per_m2_K"] * area + self.tow_loss) * (temperature - room)
        heat -= vessel["wall_loss_W_per_m2_K"] * wetted * (temperature - wall)
        return [rate, heat / (mass * thermal["heat_capacity_J_per_kg_K"]), growth_rate(case, temperature)]

    def integrate(self, method, t0, y0, t1, dense=False):
        s = solve_ivp(self.derivative, (t0, t1), y0, method, rtol=RTOL, atol=ATOL, dense_output=dense)
        if s.status != 0:
            raise SystemExit(f"{self.case['name']}: {method} stopped at {s.t[-1]} s: {s.message}")
        return s

    def state_after(self, method, t0, y0, t1):
        if t1 <= t0:
            return [float(v) for v in y0]
        return [float(v) for v in self.integrate(method, t0, y0, t1).y[:, -1]]


class Run:
    """One case with one method."""

    def __init__(self, case, method):
        self.case, self.method = case, method
        first = case["initial"]
        self.t, self.mass = 0.0, first["mass_kg"]
        self.y = [first["alpha"], first["temperature_K"], first["phi"]]
        self.initial_viscosity = 1 / fluidity(case, *self.y)
        self.events = dict.fromkeys(EVENTS)
        self.peak = (self.t, self.y[1])
        self.step_ends, self.tenths = [], []
        total = sum(s.get("duration_s", 0.0) for s in case["steps"])
        self.due = [total * k / 10 for k in range(1, 11)]
        for step in case["steps"]:
            self.take(step)
        self.tenths.append(self.row(total, self.mass, self.y))

    def excess(self, name, y):
        """Negative below the limit of an event, positive above, finite everywhere."""
        if name == "gel_s":
            return y[0] - self.case["cure"]["gel"]
        if name == "temperature_limit_s":
            return y[1] - self.case["limits"]["bath_temperature_K"]
        threshold = 2 * self.initial_viscosity if name == "doubled_s" else self.case["limits"]["bath_viscosity_Pa_s"]
        return 1 - threshold * fluidity(self.case, *y)

    def row(self, t, mass, y):
        flow = fluidity(self.case, *y)
        return {
            "t_s": t, "alpha": float(y[0]), "phi": float(y[2]), "temperature_K": float(y[1]),
            "mass_kg": mass, "viscosity_Pa_s": 1 / flow if flow > 0 else None,
        }

    def take(self, step):
        if step["kind"] == "pour":
            self.pour(step)
        else:
            self.pass_time(step)
        self.step_ends.append(self.row(self.t, self.mass, self.y))

    def pour(self, step):
        before, added = self.y, step["mass_kg"]
        fresh = (step["alpha"], step["temperature_K"], step["phi"])
        self.y = [(self.mass * b + added * f) / (self.mass + added) for b, f in zip(before, fresh)]
        self.mass += added
        for name in EVENTS:
            if self.events[name] is None and self.excess(name, before) < 0 <= self.excess(name, self.y):
                self.events[name] = self.t
        self.raise_peak(self.t, self.y[1])

    def pass_time(self, step):
        end = self.t + step["duration_s"]
        kinks = {t for t, _ in self.case["room"] + (self.case["jacket"] or [])}
        tow_loss = step.get("tow_kg_per_s", 0.0) * step.get("tow_heat_capacity_J_per_kg_K", 0.0)
        for stop in sorted({k for k in kinks if self.t < k < end} | {end}):
            stretch = Stretch(self.case, self.t, stop, self.mass, step.get("draw_kg_per_s", 0.0), tow_loss)
            if stretch.mass_at(stop) <= 0:
                raise SystemExit(f"{self.case['name']}: the bath runs dry before {stop} s; shorten the step")
            self.cross(stretch)

    def cross(self, stretch):
        s = stretch.integrate(self.method, stretch.start, self.y, stretch.end, dense=True)
        for i, dense in enumerate(s.sol.interpolants):
            self.search(stretch, float(s.t[i]), s.y[:, i], float(s.t[i + 1]), dense)
        self.t, self.mass = stretch.end, stretch.mass_at(stretch.end)
        self.y = [float(v) for v in s.y[:, -1]]
        self.raise_peak(self.t, self.y[1])

    def search(self, stretch, t0, y0, t1, dense):
        """Events, outputs and peaks within one step of the integrator, quarter by quarter."""
        while self.due and self.due[0] < t1 and len(self.tenths) < 9:
            t = self.due.pop(0)
            y = stretch.state_after(self.method, t0, y0, t)
            self.tenths.append(self.row(t, stretch.mass_at(t), y))
        times = [t0 + (t1 - t0) * k / 4 for k in range(4)] + [t1]
        states = [dense(t) for t in times]
        for name in EVENTS:
            if self.events[name] is None:
                self.events[name] = self.crossing(stretch, y0, times, states, dense, name)
        slopes = [stretch.derivative(t, y)[1] for t, y in zip(times, states)]
        for k in range(4):
            if slopes[k] > 0 >= slopes[k + 1]:
                self.summit(stretch, t0, y0, times[k], times[k + 1], dense)

    def crossing(self, stretch, y0, times, states, dense, name):
        values = [self.excess(name, y) for y in states]
        for k in range(4):
            if values[k] < 0 <= values[k + 1]:
                near = brentq(lambda t: self.excess(name, dense(t)), times[k], times[k + 1], xtol=1e-9)
                exact = lambda t: self.excess(name, stretch.state_after(self.method, times[0], y0, t))
                return polished(exact, near, times[0], times[-1])
        return None

    def summit(self, stretch, t0, y0, low, high, dense):
        near = brentq(lambda t: stretch.derivative(t, dense(t))[1], low, high, xtol=1e-9)
        if dense(near)[1] <= self.peak[1] + SAME_TEMPERATURE:
            return
        state = lambda t: stretch.state_after(self.method, t0, y0, t)
        t = polished(lambda t: stretch.derivative(t, state(t))[1], near, t0, high)
        self.raise_peak(t, state(t)[1])

    def raise_peak(self, t, temperature):
        if temperature > self.peak[1] + SAME_TEMPERATURE:
            self.peak = (t, float(temperature))

    def result(self):
        return {
            "name": self.case["name"], "initial_viscosity_Pa_s": self.initial_viscosity, **self.events,
            "peak_temperature_K": self.peak[1], "peak_at_s": self.peak[0],
            "step_ends": self.step_ends, "tenths": self.tenths,
        }


def polished(function, near, low, high):
    """The root of function next to near: secant steps on states that owe nothing to the dense output."""
    beside = near - 1e-4 * (near - low) if near - low > high - near else near + 1e-4 * (high - near)
    try:
        return float(newton(function, near, x1=beside, tol=1e-9, maxiter=20))
    except RuntimeError as err:
        raise SystemExit(f"no smooth crossing near {near} s ({err}); where gel cuts viscosity off, lower the limit")


def relative(a, b):
    """Relative difference; one of two values missing is as far apart as can be."""
    if a is None or b is None:
        return 0.0 if a is b else math.inf
    if a == b:
        return 0.0
    return abs(a - b) / max(abs(a), abs(b))


def row_difference(a, b):
    """Largest difference of two table rows: relative, viscosity in ln (near gel 1/(gel - alpha) amplifies)."""
    keys = ("t_s", "alpha", "phi", "temperature_K", "mass_kg")
    logs = [None if r["viscosity_Pa_s"] is None else math.log(r["viscosity_Pa_s"]) for r in (a, b)]
    if None in logs:
        in_ln = 0.0 if logs[0] is logs[1] else math.inf
    else:
        in_ln = abs(logs[0] - logs[1])
    return max([in_ln] + [relative(a[k], b[k]) for k in keys])


def differences(a, b):
    """What differs between two results of one case: (label, difference)."""
    for key in EVENTS + ("initial_viscosity_Pa_s", "peak_temperature_K", "peak_at_s"):
        yield f"{a['name']}: {key}", relative(a[key], b[key])
    for table in ("step_ends", "tenths"):
        if len(a[table]) != len(b[table]):
            yield f"{a['name']}: {table}", math.inf
        for i, (x, y) in enumerate(zip(a[table], b[table])):
            yield f"{a['name']}: {table}[{i}]", row_difference(x, y)


def beyond(found, tolerance):
    return [f"{label} differs by {d:.3g}, allowed {tolerance:g}" for label, d in found if not d <= tolerance]


def exact_errors(case, result):
    """Closed forms, for the cases that have one: (label, relative error)."""
    c, first, rows = case["cure"], case["initial"], result["tenths"]
    if case.get("exact") == "kamal m = n = 1, isothermal":
        t = first["temperature_K"]
        k1 = arrhenius(c["A1_per_s"], c["E1_J_per_mol"], t)
        k2 = arrhenius(c["A2_per_s"], c["E2_J_per_mol"], t)
        for row in rows:
            e = math.exp((k1 + k2) * row["t_s"])
            yield f"{case['name']}: alpha at {row['t_s']} s", relative(row["alpha"], (e - 1) / (e + k2 / k1))
    if case.get("exact") == "adiabatic":
        rise = c["heat_J_per_kg"] / case["thermal"]["heat_capacity_J_per_kg_K"]
        for row in rows:
            t = first["temperature_K"] + rise * (row["alpha"] - first["alpha"])
            yield f"{case['name']}: T at {row['t_s']} s", relative(row["temperature_K"], t)


def sound(case):
    """Refuse a case on which this script and the equations could be read two ways."""
    v = case["viscosity"]
    if v["law"] == "castro-macosko" and v["gel"] != case["cure"]["gel"]:
        raise SystemExit(f"{case['name']}: the gel of viscosity and cure differ; give both the same")
    t, pours = 0.0, set()
    for step in case["steps"]:
        t += step.get("duration_s", 0.0)
        pours |= {t} if step["kind"] == "pour" else set()
    if pours & {t * k / 10 for k in range(11)}:
        raise SystemExit(f"{case['name']}: a pour falls on a tenth of the whole time; shift one of them")


def solve(case):
    sound(case)
    main, other = (Run(case, method).result() for method in METHODS)
    found = list(differences(main, other))
    wrong = beyond(found, BETWEEN_METHODS) + beyond(exact_errors(case, main), EXACT)
    gel, thick = main["gel_s"], main["viscosity_limit_s"]
    if gel is not None and (thick is None or thick >= gel):
        wrong.append(f"{case['name']}: gel comes before the viscosity limit; lower the limit")
    of_peak = {label: d for label, d in found if label.endswith("peak_at_s")}
    main["methods_differ_by"] = worst(d for label, d in found if label not in of_peak)
    main["methods_differ_in_peak_at_by"] = worst(of_peak.values())
    return main, wrong


def worst(found):
    return float(f"{max(found):.1e}")


def check(results):
    path = HERE / "bath_results.json"
    if not path.exists():
        return [f"{path} is missing: run ./bath.py"], math.inf
    stored = json.loads(path.read_text())["cases"]
    names = [r["name"] for r in results]
    if names != [r["name"] for r in stored]:
        return ["the cases stored are not those of bath_cases.json: run ./bath.py"], math.inf
    found = [d for a, b in zip(results, stored) for d in differences(a, b)]
    return beyond(found, AGAINST_STORED), max(d for _, d in found)


def write(results):
    """One table row to a line: short enough to read, and a changed row is one changed line."""
    text = json.dumps({"rtol": RTOL, "atol": ATOL, "methods": METHODS, "cases": results}, indent=1)
    rows = {json.dumps(row, indent=1): json.dumps(row) for r in results for row in r["step_ends"] + r["tenths"]}
    for long, short in rows.items():
        text = text.replace(long.replace("\n", "\n    "), short)
    (HERE / "bath_results.json").write_text(text + "\n")


def main():
    if sys.argv[1:] not in ([], ["--check"]):
        raise SystemExit("usage: bath.py [--check]")
    cases = json.loads((HERE / "bath_cases.json").read_text())["cases"]
    solved = [solve(case) for case in cases]
    results, wrong = [r for r, _ in solved], sum((w for _, w in solved), [])
    if not wrong and sys.argv[1:]:
        wrong, difference = check(results)
    if wrong:
        print("\n".join(wrong), file=sys.stderr)
        raise SystemExit(1)
    between, at_peak = (worst(r[k] for r in results) for k in ("methods_differ_by", "methods_differ_in_peak_at_by"))
    methods = f"the two methods differ by {between} at most, in the time of a peak by {at_peak}"
    if sys.argv[1:]:
        print(f"{len(results)} cases, worst difference from the stored ones {difference:.1e}; {methods}")
    else:
        write(results)
        print(f"{len(results)} cases written; {methods}")


if __name__ == "__main__":
    main()
