#!/usr/bin/python3
"""Resin at rest, solved by SciPy on Chebyshev points: reference results for the Go code.

    ./still.py           solve still_cases.json, write still_results.json
    ./still.py --check   solve again, compare with still_results.json; exit 1 with a list if they differ

A tray is solved through its depth z, a cup over radius r and height z. State at every point: degree of
cure alpha, temperature T in K and, for the dual-Arrhenius viscosity, phi. Laws and symbols as in bath.py,
from which they are imported. SI throughout.

    rho cp dT/dt = k (T_rr + T_r/r + T_zz) + rho H dalpha/dt                 dalpha/dt = rate(alpha, T)
    k T_z = h_f (T - T_room) at the floor, -k T_z = h_s (T - T_room) on top, -k T_r = h_w (T - T_room) at the wall
h_f is floor_loss where a case has it, else h_w. A tray has no upright walls: tray.py shows in three dimensions what that costs.

Points: Chebyshev-Gauss-Lobatto in z; in r the positive half of an even number of them on (-R, R), on which T is
even, so that the axis needs no condition. T on the boundary follows from the interior by the conditions there;
alpha and phi are followed on the boundary too. The Go code has polynomials of less than half the degree on
other points, in the weak form, with other conditions on the boundary and at the axis, and another integrator.

Results: the first time at which alpha anywhere reaches gel, at which the resin that has grown most reaches the
viscosity limit at the temperature of the hottest, at which the hottest reaches the temperature limit (null:
never within the duration); the highest temperature anywhere and when; T and alpha at the hottest point and their means over the volume at the end. "Anywhere" is
a fine grid on which the polynomials are evaluated.

Accuracy: each case is solved by Radau on the fine points and by BDF on fewer; it fails when they differ by
more than 3e-4 relative, in the state at the end by 3e-3. The differences stand in the results.

And "critical": the largest delta of Frank-Kamenetskii for a cylinder as high as wide with its surface held
at the temperature outside, the fold of the steady solutions of  lap(theta) + delta exp(theta) = 0.
"""
import json
import math
import sys

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

from bath import HERE, R, beyond, fluidity, on_line, relative, worst

FINE, COARSE = {"tray": (32,), "cup": (10, 18)}, {"tray": (24,), "cup": (9, 15)}
BETWEEN = 3e-4  # a tenth of the tolerance with which the Go code is compared; seen 2.6e-4
BETWEEN_ENDS = 3e-3  # seen 1.9e-3: burnt and unburnt resin side by side make the polynomials swing a little
AGAINST_STORED = 2e-6  # another build of SciPy may take other steps within rtol
TIMES = ("gel_s", "viscosity_limit_s", "temperature_limit_s")


def chebyshev(n):
    """n + 1 points from 1 to -1 and the matrix of d/dx on them (Trefethen, Spectral Methods in MATLAB, ch. 6)."""
    x = np.cos(np.pi * np.arange(n + 1) / n)
    c = np.r_[2, np.ones(n - 1), 2] * (-1) ** np.arange(n + 1)
    dx = x[:, None] - x[None, :]
    d = np.outer(c, 1 / c) / (dx + np.eye(n + 1))
    return x, d - np.diag(d.sum(axis=1))


def evaluation(n, at):
    """Matrix from values on the n + 1 points to values at other places (barycentric formula)."""
    x, _ = chebyshev(n)
    w = (-1.0) ** np.arange(n + 1)
    w[0] /= 2
    w[-1] /= 2
    gap = at[:, None] - x[None, :]
    hit = np.abs(gap) < 1e-14
    m = w / np.where(hit, 1.0, gap)
    m /= m.sum(axis=1, keepdims=True)
    rows = hit.any(axis=1)
    m[rows] = hit[rows]
    return m


class Axis:
    """One direction: all points, second derivative, values anywhere, and how the boundary follows from inside.

    full = lift @ inside for temperatures above that outside."""

    def __init__(self, laplace, first, edges, fine, weights):
        """edges: {index of a boundary point: (sign of outward slope, h/k)}"""
        b = sorted(edges)
        inside = [i for i in range(len(first)) if i not in edges]
        # sign*T' + (h/k)*T = 0 on each edge, solved for the boundary values.
        rows = np.array([edges[i][0] * first[i] + edges[i][1] * np.eye(len(first))[i] for i in b])
        lift = np.zeros((len(first), len(inside)))
        lift[inside] = np.eye(len(inside))
        lift[b] = -np.linalg.solve(rows[:, b], rows[:, inside])
        self.inside, self.lift, self.fine, self.weights = inside, lift, fine, weights
        self.laplace = laplace[inside] @ lift


def gauss(n, low, high):
    x, w = np.polynomial.legendre.leggauss(n)
    return (x * (high - low) + high + low) / 2, w * (high - low) / 2


def height(n, depth, floor, top):
    x, d = chebyshev(n)
    d = d * 2 / depth
    at, w = gauss(n, -1, 1)
    return Axis(d @ d, d, {0: (1, top), n: (-1, floor)}, evaluation(n, np.linspace(-1, 1, 301)), w / 2 @ evaluation(n, at))


def radius(half, r, wall):
    n = 2 * half - 1
    x, d = chebyshev(n)
    d = d / r
    fold = lambda m: m[:half, :half] + m[:half, ::-1][:, :half]
    even = lambda m: m[:, :half] + m[:, ::-1][:, :half]
    first = fold(d)
    laplace = fold(d @ d) + np.diag(1 / (r * x[:half])) @ first
    at, w = gauss(n, 0, 1)
    return Axis(laplace, first, {0: (1, wall)}, even(evaluation(n, np.linspace(0, 1, 31))), 2 * w * at @ even(evaluation(n, at)))


class Body:
    def __init__(self, case, points):
        self.case = case
        t, v = case["thermal"], case["vessel"]
        k, self.storage = t["conductivity_W_per_m_K"], t["density_kg_per_m3"] * t["heat_capacity_J_per_kg_K"]
        hs, hw = v["surface_loss_W_per_m2_K"] / k, v["wall_loss_W_per_m2_K"] / k
        hf = v.get("floor_loss_W_per_m2_K", v["wall_loss_W_per_m2_K"]) / k
        area = v["surface_area_m2"]
        depth = case["initial"]["mass_kg"] / (t["density_kg_per_m3"] * area)
        if case["body"] == "tray":
            axes = [height(points[0], depth, hf, hs)]
        else:
            r = math.sqrt(area / math.pi)
            axes = [radius(points[0], r, hw), height(points[1], depth, hf, hs)]
        join = lambda pick: pick(axes[0]) if len(axes) == 1 else np.kron(pick(axes[0]), pick(axes[1]))
        self.lift, self.fine = join(lambda a: a.lift), join(lambda a: a.fine)
        self.weights = join(lambda a: a.weights)
        one = lambda a: np.eye(len(a.inside))
        parts = [a.laplace for a in axes]
        lap = parts[0] if len(axes) == 1 else np.kron(parts[0], one(axes[1])) + np.kron(one(axes[0]), parts[1])
        self.conduct = k / self.storage * lap
        shape = [len(a.lift) for a in axes]
        grid = np.zeros(shape, bool)
        grid[np.ix_(*[a.inside for a in axes])] = True
        self.inside = grid.ravel()
        self.n, self.m = self.inside.size, int(self.inside.sum())
        self.dual = case["viscosity"]["law"] == "dual-arrhenius"
        self.rise = case["cure"]["heat_J_per_kg"] / t["heat_capacity_J_per_kg_K"]

    def room(self, t):
        return on_line(self.case["room"], t)

    def rate(self, alpha, temperature):
        c, v = self.case["cure"], self.case["vitrification"]
        k1 = c["A1_per_s"] * np.exp(-c["E1_J_per_mol"] / (R * temperature))
        k2 = c["A2_per_s"] * np.exp(-c["E2_J_per_mol"] / (R * temperature))
        rate = (k1 + k2 * np.maximum(alpha, 0) ** c["m"]) * np.maximum(1 - alpha, 0) ** c["n"]
        if v is not None:
            g = self.case["glass"]
            x = (temperature + v["shift_K"] - g["uncured_K"]) / (g["cured_K"] - g["uncured_K"])
            av = x / (g["lambda"] + (1 - g["lambda"]) * x)
            rate = rate / (1 + np.exp(np.clip(v["sharpness"] * (alpha - av), -500, 500)))
        return rate

    def growth(self, temperature):
        v = self.case["viscosity"]
        return v["growth_per_s"] * np.exp(-v["growth_activation_J_per_mol"] / (R * temperature))

    def split(self, y):
        """alpha, temperature above the room and phi on all points."""
        return y[: self.n], self.lift @ y[self.n : self.n + self.m], y[self.n + self.m :]

    def derivative(self, slope, t, y):
        alpha, above, _ = self.split(y)
        temperature = above + self.room(t)
        rate = self.rate(alpha, temperature)
        out = [rate, self.conduct @ y[self.n : self.n + self.m] + self.rise * rate[self.inside] - slope]
        if self.dual:
            out.append(self.growth(temperature))
        return np.concatenate(out)

    def jacobian(self, t, y):
        alpha, above, _ = self.split(y)
        temperature = above + self.room(t)
        da = (self.rate(alpha + 1e-7, temperature) - self.rate(alpha - 1e-7, temperature)) / 2e-7
        dt = (self.rate(alpha, temperature + 1e-4) - self.rate(alpha, temperature - 1e-4)) / 2e-4
        n, m = self.n, self.m
        j = np.zeros((len(y), len(y)))
        j[:n, :n] = np.diag(da)
        j[:n, n : n + m] = dt[:, None] * self.lift
        j[n : n + m] = self.rise * j[:n][self.inside]
        j[n : n + m, n : n + m] += self.conduct
        if self.dual:
            slope = (self.growth(temperature + 1e-4) - self.growth(temperature - 1e-4)) / 2e-4
            j[n + m :, n : n + m] = slope[:, None] * self.lift
        return j


class Run:
    def __init__(self, case, points, method, rtol):
        self.body, self.case = Body(case, points), case
        b, first = self.body, case["initial"]
        self.events = dict.fromkeys(TIMES)
        self.peak = (first["temperature_K"], 0.0)
        y = np.concatenate([np.full(b.n, first["alpha"]), np.full(b.m, first["temperature_K"] - b.room(0.0)),
                            np.full(b.n if b.dual else 0, first["phi"])])
        end, t = case["duration_s"], 0.0
        atol = np.concatenate([np.full(b.n, rtol / 10), np.full(b.m, rtol * 10), np.full(b.n if b.dual else 0, rtol)])
        for stop in sorted({k for k, _ in case["room"] if 0 < k < end} | {end}):
            slope = (b.room(stop) - b.room(t)) / (stop - t)
            s = solve_ivp(lambda u, z: b.derivative(slope, u, z), (t, stop), y, method, rtol=rtol, atol=atol,
                          jac=b.jacobian, dense_output=True, first_step=1.0)
            if s.status != 0:
                raise SystemExit(f"{case['name']}: {method} stopped at {s.t[-1]} s: {s.message}")
            for low, high, dense in zip(s.t, s.t[1:], s.sol.interpolants):
                self.search(low, high, dense)
            y, t = s.y[:, -1], stop
        self.last = y

    def anywhere(self, t, y):
        alpha, above, phi = self.body.split(y)
        fine = self.body.fine
        return fine @ alpha, fine @ above + self.body.room(t), fine @ phi if len(phi) else None

    def margins(self, t, y):
        """Negative below the limit of an event, positive above."""
        alpha, temperature, phi = self.anywhere(t, y)
        hot, limits = temperature.max(), self.case["limits"]
        flow = fluidity(self.case, alpha.max(), hot, 0.0 if phi is None else phi.max())
        return {"gel_s": alpha.max() - self.case["cure"]["gel"], "viscosity_limit_s": 1 - limits["viscosity_Pa_s"] * flow,
                "temperature_limit_s": hot - limits["temperature_K"]}

    def search(self, low, high, dense):
        at_low, at_high = self.margins(low, dense(low)), self.margins(high, dense(high))
        for name in TIMES:
            if self.events[name] is None and at_low[name] < 0 <= at_high[name]:
                self.events[name] = float(brentq(lambda t: self.margins(t, dense(t))[name], low, high, xtol=1e-8))
        hottest = lambda t: float(self.anywhere(t, dense(t))[1].max())
        if max(hottest(low), hottest(high)) > self.peak[0] - 2:
            best = minimize_scalar(lambda t: -hottest(t), bounds=(low, high), method="bounded", options={"xatol": 1e-6 * (high - low)})
            if -best.fun > self.peak[0] + 1e-9:
                self.peak = (-best.fun, float(best.x))

    def result(self):
        alpha, temperature, _ = self.anywhere(self.case["duration_s"], self.last)
        a, above, _ = self.body.split(self.last)
        w = self.body.weights
        return {"name": self.case["name"], **self.events, "peak_temperature_K": self.peak[0], "peak_at_s": self.peak[1],
                "end": {"hottest_K": float(temperature.max()), "most_alpha": float(alpha.max()), "mean_alpha": float(w @ a),
                        "mean_K": float(w @ above + self.body.room(self.case["duration_s"]))}}


def differences(a, b):
    for key in TIMES + ("peak_temperature_K", "peak_at_s"):
        yield f"{a['name']}: {key}", relative(a[key], b[key])
    for key in a["end"]:
        yield f"{a['name']}: {key} at the end", relative(a["end"][key], b["end"][key])


def solve(case):
    fine = Run(case, FINE[case["body"]], "Radau", 1e-6).result()
    coarse = Run(case, COARSE[case["body"]], "BDF", 1e-6).result()
    found = list(differences(fine, coarse))
    ends = [f for f in found if f[0].endswith("at the end")]
    rest = [f for f in found if f not in ends]
    fine["differ_by"] = worst(d for _, d in rest)
    return fine, beyond(rest, BETWEEN) + beyond(ends, BETWEEN_ENDS)


def critical_cylinder(points):
    """Fold of theta(0) against delta on a cylinder as high as wide, theta 0 on its surface."""
    cold = 1e12
    axes = [radius(points, 1.0, cold), radius_plane(points, cold)]
    one = lambda a: np.eye(len(a.inside))
    lap = np.kron(axes[0].laplace, one(axes[1])) + np.kron(one(axes[0]), axes[1].laplace)
    centre = np.kron((axes[0].fine @ axes[0].lift)[0], (axes[1].fine @ axes[1].lift)[0])

    def delta(top):
        theta, d = np.zeros(len(lap)), 0.3
        for _ in range(60):
            e = np.exp(theta)
            residual = np.r_[lap @ theta + d * e, centre @ theta - top]
            step = np.linalg.solve(np.block([[lap + np.diag(d * e), e[:, None]], [centre[None], np.zeros((1, 1))]]), -residual)
            theta, d = theta + step[:-1], d + step[-1]
            if np.abs(step).max() < 1e-11:
                return d
        raise SystemExit(f"no steady solution with {top} in the middle")

    best = minimize_scalar(lambda top: -delta(top), bounds=(1.3, 2.0), method="bounded", options={"xatol": 1e-8})
    return float(-best.fun)


def radius_plane(half, wall):
    """Half of a plane layer of half thickness 1, even about its middle."""
    n = 2 * half - 1
    _, d = chebyshev(n)
    fold = lambda m: m[:half, :half] + m[:half, ::-1][:, :half]
    even = lambda m: m[:, :half] + m[:, ::-1][:, :half]
    return Axis(fold(d @ d), fold(d), {0: (1, wall)}, even(evaluation(n, np.linspace(0, 1, 31))), None)


def check(results, critical):
    path = HERE / "still_results.json"
    if not path.exists():
        return [f"{path} is missing: run ./still.py"], math.inf
    stored = json.loads(path.read_text())
    if [r["name"] for r in results] != [r["name"] for r in stored["cases"]]:
        return ["the cases stored are not those of still_cases.json: run ./still.py"], math.inf
    found = [d for a, b in zip(results, stored["cases"]) for d in differences(a, b)]
    found.append(("critical delta of a cylinder", relative(critical, stored["critical"]["cylinder_high_as_wide"])))
    return beyond(found, AGAINST_STORED), max(d for _, d in found)


def main():
    if sys.argv[1:] not in ([], ["--check"]):
        raise SystemExit("usage: still.py [--check]")
    cases = json.loads((HERE / "still_cases.json").read_text())["cases"]
    solved = [solve(case) for case in cases]
    results, wrong = [r for r, _ in solved], sum((w for _, w in solved), [])
    critical = critical_cylinder(12)
    wrong += beyond([("critical delta on fewer points", relative(critical, critical_cylinder(9)))], 1e-5)
    if not wrong and sys.argv[1:]:
        wrong, difference = check(results, critical)
    if wrong:
        print("\n".join(wrong), file=sys.stderr)
        raise SystemExit(1)
    between = worst(r["differ_by"] for r in results)
    if sys.argv[1:]:
        print(f"{len(results)} cases, worst difference from the stored ones {difference:.1e}; fine and coarse differ by {between}")
        return
    text = json.dumps({"critical": {"cylinder_high_as_wide": critical}, "cases": results}, indent=1)
    (HERE / "still_results.json").write_text(text + "\n")
    print(f"{len(results)} cases written; fine and coarse differ by {between} at most")


if __name__ == "__main__":
    main()
