#!/usr/bin/python3
"""A wound wall in an oven, solved by SciPy on finite elements: reference results for the Go code.

    ./wall.py           solve wall_cases.json, write wall_results.json
    ./wall.py --check   solve again, compare with wall_results.json; exit 1 with a list if they differ

Mandrel and laminate over the radius r. State: temperature T in K at every node, degree of cure alpha at the
nodes of the laminate. Laws as in bath.py, and the two-stage law of 1982. SI throughout.

    rho cp dT/dt = (1/r) d/dr (k r dT/dr) + rho_resin H dalpha/dt,   dalpha/dt = rate(alpha, T)
    k dT/dr = h_in (T - T_air) at the inner radius, -k dT/dr = h_out (T - T_air) at the outer
    T_air follows straight lines between the points given

Galerkin's method with linear elements and the consistent mass matrix; the Go code has finite volumes with one
temperature a cell and another integrator.

Results: the highest temperature in the laminate and when; at the moments named, T at the inner and outer radius of
the laminate and at its middle, least and greatest alpha.

Two cases are a published set-up, whose authors printed the temperatures of a coarse solution: as_published_peak_K is the
peak on elements and in steps as long as theirs, so that what these cost is known.

Accuracy: BDF on n elements and Radau on n/2; a case fails when they differ by more than 0.02 K, 3e-4 in alpha, or
3e-3 in the time of the peak. The differences stand in the results.
"""
import json
import sys

import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import cho_factor, cho_solve
from scipy.optimize import fsolve

from bath import HERE, R, on_line

ELEMENTS = {"mandrel": 12, "laminate": 64}
BETWEEN = {"K": 0.02, "alpha": 3e-4, "time": 3e-3}
AGAINST_STORED = {"K": 2e-3, "alpha": 3e-5, "time": 3e-4}  # another build of SciPy may take other steps


def rates(case, alpha, temperature):
    """dalpha/dt of arrays."""
    law = case["cure"]
    a, t = np.clip(alpha, 0, 1), temperature
    k = lambda n: law[f"A{n}_per_s"] * np.exp(-law[f"E{n}_J_per_mol"] / (R * t))
    if law["law"] == "two-stage":
        below = (k(1) + k(2) * a) * (1 - a) * (law["B"] - a)
        return np.where(a < law["switch"], below, k(3) * (1 - a))
    rate = (k(1) + k(2) * a ** law["m"]) * (1 - a) ** law["n"]
    if case["vitrification"]:
        v = case["vitrification"]
        rate /= 1 + np.exp(np.clip(v["sharpness"] * (a - glassy(v, case["glass"], t)), -200, 200))
    return rate


def glassy(v, g, t):
    """The degree of cure at which the resin turns to glass: a line, or where the glass temperature is t + shift."""
    if g is None:
        return v["a0"] + v["aT_per_K"] * t
    x = (t + v["shift_K"] - g["uncured_K"]) / (g["cured_K"] - g["uncured_K"])
    return x / (g["lambda"] + (1 - g["lambda"]) * x)


class Wall:
    def __init__(self, case, elements):
        self.case = case
        edges, kinds = [case["inner_m"]], []
        for layer in case["layers"]:
            n = elements["laminate" if layer["resin_kg_per_m3"] > 0 else "mandrel"]
            edges += list(edges[-1] + layer["thickness_m"] * np.arange(1, n + 1) / n)
            kinds += [layer] * n
        self.r = r = np.array(edges)
        n = len(r)
        mass, stiff, source = (np.zeros((n, n)) for _ in range(3))
        for e, layer in enumerate(kinds):
            h, a, b = r[e + 1] - r[e], r[e], r[e + 1]
            # integrals of N_i N_j r dr over an element with linear N
            m = h / 12 * np.array([[3 * a + b, a + b], [a + b, a + 3 * b]])
            here = np.ix_([e, e + 1], [e, e + 1])
            mass[here] += layer["density_kg_per_m3"] * layer["heat_capacity_J_per_kg_K"] * m
            source[here] += layer["resin_kg_per_m3"] * case["cure"]["heat_J_per_kg"] * m
            stiff[here] += layer["conductivity_W_per_m_K"] * (a + b) / 2 / h * np.array([[1, -1], [-1, 1]])
        self.loss = np.zeros(n)
        self.loss[0], self.loss[-1] = case["inner_loss_W_per_m2_K"] * r[0], case["outer_loss_W_per_m2_K"] * r[-1]
        factor = cho_factor(mass)
        self.conduct = -cho_solve(factor, stiff + np.diag(self.loss))
        self.air = cho_solve(factor, self.loss)
        laminate = [e for e, layer in enumerate(kinds) if layer["resin_kg_per_m3"] > 0]
        self.wet = np.arange(laminate[0], laminate[-1] + 2)
        self.source = cho_solve(factor, source)[:, self.wet]
        self.n = n

    def derivative(self, t, y):
        temperature, alpha = y[: self.n], y[self.n:]
        rate = rates(self.case, alpha, temperature[self.wet])
        return np.concatenate((self.conduct @ temperature + self.air * on_line(self.case["air"], t) + self.source @ rate, rate))

    def start(self):
        first = self.case["initial"]
        return np.concatenate((np.full(self.n, first["temperature_K"]), np.full(len(self.wet), first["alpha"])))

    def solve(self, method):
        case = self.case
        y = self.start()
        kinks = sorted({0.0, case["duration_s"], *case["moments_s"], *(t for t, _ in case["air"] if 0 < t < case["duration_s"])})
        peak, rows = (-1.0, 0.0), {}
        for begin, end in zip(kinks, kinks[1:]):
            s = solve_ivp(self.derivative, (begin, end), y, method=method, rtol=1e-7, atol=1e-9, dense_output=True, max_step=600)
            assert s.success, s.message
            for t in np.linspace(begin, end, 400):
                hottest = s.sol(t)[self.wet].max()
                if hottest > peak[0]:
                    peak = (float(hottest), float(t))
            y = s.y[:, -1]
            if end in case["moments_s"]:
                rows[end] = self.row(end, y)
        return {"name": case["name"], "peak_K": peak[0], "peak_at_s": peak[1], "rows": [rows[t] for t in case["moments_s"]]}

    def backward_euler(self, step):
        """The peak that steps of one length give by the backward Euler method, first order in time."""
        y, t, peak = self.start(), 0.0, 0.0
        while t < self.case["duration_s"] / 2:
            t += step
            before = y
            y = fsolve(lambda after: after - before - step * self.derivative(t, after), before, xtol=1e-8)
            peak = max(peak, float(y[self.wet].max()))
        return peak

    def row(self, t, y):
        temperature, alpha = y[self.wet], y[self.n:]
        r = self.r[self.wet]
        return {"t_s": t, "inner_K": float(temperature[0]), "outer_K": float(temperature[-1]),
                "middle_K": float(np.interp((r[0] + r[-1]) / 2, r, temperature)), "least_alpha": float(alpha.min()), "greatest_alpha": float(alpha.max())}


def differences(a, b):
    found = {"K": abs(a["peak_K"] - b["peak_K"]), "alpha": 0.0, "time": abs(a["peak_at_s"] / b["peak_at_s"] - 1)}
    for p, q in zip(a["rows"], b["rows"]):
        for key in p:
            kind = "K" if key.endswith("_K") else "alpha" if key.endswith("alpha") else None
            if kind:
                found[kind] = max(found[kind], abs(p[key] - q[key]))
    return found


def beyond(found, limits):
    return [f"{kind}: {value:.2g} > {limits[kind]:.2g}" for kind, value in found.items() if not value <= limits[kind]]


def main():
    cases = json.loads((HERE / "wall_cases.json").read_text())["cases"]
    results, faults = [], []
    for case in cases:
        elements = case.get("elements", ELEMENTS)
        result = Wall(case, elements).solve("BDF")
        found = differences(result, Wall(case, {kind: n // 2 for kind, n in elements.items()}).solve("Radau"))
        faults += [f"{case['name']}: methods differ, {what}" for what in beyond(found, BETWEEN)]
        result["between_methods"] = found
        if "as_published" in case:
            result["as_published_peak_K"] = Wall(case, case["as_published"]["elements"]).backward_euler(case["as_published"]["step_s"])
        results.append(result)
    if "--check" in sys.argv:
        stored = json.loads((HERE / "wall_results.json").read_text())["cases"]
        if len(stored) != len(results):
            faults.append("other cases are stored")
        for a, b in zip(results, stored):
            faults += [f"{a['name']}: stored otherwise, {what}" for what in beyond(differences(a, b), AGAINST_STORED)]
        print(f"{len(results)} walls solved again" if not faults else "\n".join(faults))
    elif not faults:
        (HERE / "wall_results.json").write_text(json.dumps({"note": "Written by wall.py.", "cases": results}, indent=1) + "\n")
    sys.exit("\n".join(faults) if faults else 0)


if __name__ == "__main__":
    main()
