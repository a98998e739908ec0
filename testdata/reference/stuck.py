#!/usr/bin/python3
"""Resin that sticks in a bath and is not renewed, solved by SciPy: reference results for the Go code.

    ./stuck.py           solve stuck_cases.json, write stuck_results.json
    ./stuck.py --check   solve again, compare with stuck_results.json; exit 1 with a list if they differ

The bath is that of bath.py, with its equations, steps and accuracy. Beside it goes alpha_s, the degree of
cure of a film that was left on wiper and walls when the bath was filled and has the bath's temperature:
    dalpha_s/dt = dalpha/dt at (alpha_s, T);  a pour leaves it, but for a pot that is older
Results, times in s: when it gels; it and the bath's degree of cure and temperature at the end of every step.

The isothermal cases have no bath: the time to gel is the integral of dalpha/(dalpha/dt) from 0 to alpha_gel
by scipy.integrate.quad. In nine of ten baths it is that over exp(z ln(spread)/y), the times being
lognormal, a spread holding 9 times in 10 (within y = 1.645 standard deviations), z = 1.282 its 10 % quantile.
"""
import json
import math
import pathlib
import sys

from scipy.integrate import quad
from scipy.stats import norm

import bath

HERE = pathlib.Path(__file__).resolve().parent


class Stretch(bath.Stretch):
    def derivative(self, t, y):
        return super().derivative(t, y[:3]) + [bath.cure_rate(self.case, y[3], y[1])]


def follow(case, method):
    first = case["initial"]
    t, mass, gel = 0.0, first["mass_kg"], None
    y = [first["alpha"], first["temperature_K"], first["phi"], first["alpha"]]
    rows = []
    for step in case["steps"]:
        if step["kind"] == "pour":
            fresh, added = [step["alpha"], step["temperature_K"], step["phi"]], step["mass_kg"]
            y = [(mass * b + added * f) / (mass + added) for b, f in zip(y, fresh)] + [max(y[3], step["alpha"])]
            mass += added
        else:
            end = t + step["duration_s"]
            tow = step.get("tow_kg_per_s", 0.0) * step.get("tow_heat_capacity_J_per_kg_K", 0.0)
            kinks = {k for k, _ in case["room"] + (case["jacket"] or []) if t < k < end}
            for stop in sorted(kinks | {end}):
                stretch = Stretch(case, t, stop, mass, step.get("draw_kg_per_s", 0.0), tow)
                s = stretch.integrate(method, t, y, stop, dense=True)
                for i in range(len(s.t) - 1):
                    over = lambda state: state[3] - case["cure"]["gel"]
                    if gel is None and over(s.y[:, i]) < 0 <= over(s.y[:, i + 1]):
                        t0, y0, t1 = float(s.t[i]), s.y[:, i], float(s.t[i + 1])
                        gel = bath.polished(lambda at: over(stretch.state_after(method, t0, y0, at)), (t0 + t1) / 2, t0, t1)
                t, mass, y = stop, stretch.mass_at(stop), [float(v) for v in s.y[:, -1]]
        rows.append({"t_s": t, "mass_kg": mass, "alpha": y[0], "temperature_K": y[1], "stuck": y[3]})
    return {"name": case["name"], "stuck_gel_s": gel, "step_ends": rows}


def isothermal(case):
    rate = lambda alpha: bath.cure_rate(case, alpha, case["temperature_K"])
    time, error = quad(lambda alpha: 1 / rate(alpha), 0, case["cure"]["gel"], epsabs=0, epsrel=1e-11, limit=200)
    if error > 1e-9 * time:
        raise SystemExit(f"{case['name']}: the integral is known to {error} s only")
    faster = math.exp(norm.ppf(0.9) * math.log(case["spread"]) / norm.ppf(0.95))
    return {"name": case["name"], "gel_s": time, "nine_in_ten_s": time / faster}


def differences(a, b):
    for key in a:
        if key == "step_ends":
            for i, (x, y) in enumerate(zip(a[key], b[key], strict=True)):
                for part in x:
                    yield f"{a['name']}: {key}[{i}] {part}", bath.relative(x[part], y[part])
        elif key != "name":
            yield f"{a['name']}: {key}", bath.relative(a[key], b[key])


def main():
    if sys.argv[1:] not in ([], ["--check"]):
        raise SystemExit("usage: stuck.py [--check]")
    cases = json.loads((HERE / "stuck_cases.json").read_text())
    results, wrong, most = [], [], 0.0
    for case in cases["cases"]:
        main_result, other = (follow(case, method) for method in bath.METHODS)
        found = list(differences(main_result, other))
        most = max(most, max(d for _, d in found))
        wrong += bath.beyond(found, bath.BETWEEN_METHODS)
        results.append(main_result)
    written = {"cases": results, "isothermal": [isothermal(case) for case in cases["isothermal"]]}
    path = HERE / "stuck_results.json"
    if not wrong and sys.argv[1:]:
        stored = json.loads(path.read_text())
        for kind in written:
            if [r["name"] for r in written[kind]] != [r["name"] for r in stored[kind]]:
                raise SystemExit("the cases stored are not those of stuck_cases.json: run ./stuck.py")
            for a, b in zip(written[kind], stored[kind]):
                wrong += bath.beyond(differences(a, b), bath.AGAINST_STORED)
    if wrong:
        print("\n".join(wrong), file=sys.stderr)
        raise SystemExit(1)
    if not sys.argv[1:]:
        path.write_text(json.dumps(written, indent=1) + "\n")
    print(f"{len(results)} cases; the two methods differ by {most:.1e} at most")


if __name__ == "__main__":
    main()
