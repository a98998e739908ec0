#!/usr/bin/python3
"""Published cure and viscosity laws of hot-cure epoxies, recomputed with plain numpy.

    ./laws.py           compute, print beside the printed values, write laws_results.json
    ./laws.py --check   compute again, compare with laws_results.json; exit 1 with a list if they differ

At one temperature a rate law is separable: t = integral of dalpha/rate. The integral is taken by
Gauss-Legendre quadrature and solved for alpha by bisection; the classical Runge-Kutta method in t has to
give the same. R = 8.314462618 J/(mol K), temperatures in K, times in min, viscosities in Pa s.

Laws and printed values (transcriptions; the papers themselves were not seen):
    two_stage_1982              W.I. Lee, A.C. Loos, G.S. Springer, J. Compos. Mater. 16 (1982) 510
    first_order_1977            DGEBA/HHPA/BDMA, J. Appl. Polym. Sci. 21 (1977) 2359
    nth_order_1995              J. Reinf. Plast. Compos. 14 (1995) 495
    autocatalytic_diffusion_1997  A.A. Johnston, PhD thesis, University of British Columbia, 1997
"""
import json
import pathlib
import sys

import numpy as np

R = 8.314462618
CALORIE = 4.184  # J, thermochemical
BETWEEN_METHODS = 1e-8  # alpha; Runge-Kutta with 20000 steps, and bisection to the last bit, seen below 1e-11
AGAINST_STORED = 1e-9  # relative; only rounding may differ
STORED = pathlib.Path(__file__).resolve().parent / "laws_results.json"
NODES, WEIGHTS = np.polynomial.legendre.leggauss(40)


def two_stage(alpha, temperature):
    """dalpha/dt in 1/min; k2 is negative and the rate jumps at 0.3."""
    k1 = 2.101e9 * np.exp(-80700 / (R * temperature))
    k2 = -2.014e9 * np.exp(-77800 / (R * temperature))
    k3 = 1.960e5 * np.exp(-56600 / (R * temperature))
    return np.where(alpha <= 0.3, (k1 + k2 * alpha) * (1 - alpha) * (0.47 - alpha), k3 * (1 - alpha))


def first_order(alpha, temperature):
    """dalpha/dt in 1/min: 25 kcal/mol, ln A = 25 with A in 1/s."""
    return 60 * np.exp(25 - 25000 * CALORIE / (R * temperature)) * (1 - alpha)


def nth_order(alpha, temperature):
    """dalpha/dt in 1/min, A in 1/s."""
    return 60 * 1.914e5 * np.exp(-60500 / (R * temperature)) * (1 - alpha) ** 1.69


def autocatalytic_diffusion(alpha, temperature):
    """dalpha/dt in 1/min, A in 1/s; the denominator is the vitrification with alpha_v = a0 + aT T."""
    k = 60 * 1.528e5 * np.exp(-66500 / (R * temperature))
    return k * alpha**0.8129 * (1 - alpha) ** 2.736 / (1 + np.exp(43.09 * (alpha + 1.684 - 5.475e-3 * temperature)))


def viscosity_1982(alpha, temperature):
    return 7.93e-14 * np.exp(90800 / (R * temperature) + 14.1 * alpha)


def viscosity_1997(alpha, temperature):
    return 3.45e-10 * np.exp(76536 / (R * temperature)) * (0.47 / (0.47 - alpha)) ** (3.8 + 2.5 * alpha)


# name, law, temperature, alpha at start, conversions where the law breaks, {minutes: printed alpha}
CURES = [
    ("two_stage_1982", two_stage, 400.0, 0.0, [0.3], {10: "0.16442", 30: "0.27455", 60: "0.40559", 120: "0.63142"}),
    ("first_order_1977", first_order, 373.15, 0.0, [], {60: "0.446337"}),
    ("nth_order_1995", nth_order, 400.0, 0.0, [], {1: "0.128648", 5: "0.443497", 10: "0.632943", 30: "0.865426"}),
    ("autocatalytic_diffusion_1997", autocatalytic_diffusion, 450.0, 0.01, [],
     {10: "0.14791", 30: "0.55301", 60: "0.74011", 120: "0.80570"}),
]
VISCOSITIES = [
    ("two_stage_1982", viscosity_1982, 400.0, {0.0: "0.05706", 0.2: "0.95723"}),
    ("autocatalytic_diffusion_1997", viscosity_1997, 373.15, {0.0: "17.838", 0.2: "193.42"}),
]


def minutes(law, temperature, start, end):
    """Time from conversion start to end within one branch of a law, 64 panels of 40 Gauss points."""
    edges = np.linspace(start, end, 65)
    half = np.diff(edges)[:, None] / 2
    alpha = edges[:-1, None] + half * (1 + NODES)
    return float(np.sum(half * WEIGHTS / law(alpha, temperature)))


def conversion_by_quadrature(law, temperature, start, breaks, time):
    low, left = start, time
    for at in breaks:
        needed = minutes(law, temperature, low, at)
        if needed > left:
            break
        low, left = at, left - needed
    bottom, lower, upper = low, low, next((b for b in breaks if b > low), 1 - 1e-6)
    while (middle := (lower + upper) / 2) not in (lower, upper):
        if minutes(law, temperature, bottom, middle) < left:
            lower = middle
        else:
            upper = middle
    return middle


def runge_kutta(rate, alpha, time, steps=20000):
    h = time / steps
    for _ in range(steps):
        a = rate(alpha)
        b = rate(alpha + h / 2 * a)
        c = rate(alpha + h / 2 * b)
        alpha += h / 6 * (a + 2 * b + 2 * c + rate(alpha + h * c))
    return float(alpha)


def conversion_by_runge_kutta(law, temperature, start, breaks, time):
    """Each branch on its own: the rate of the branch above a break is taken just above it."""
    rate = lambda alpha: law(alpha, temperature)
    for at in breaks:
        needed = minutes(law, temperature, start, at)
        if needed > time:
            break
        reached = runge_kutta(rate_below(rate, at), start, needed)
        if not abs(reached - at) <= BETWEEN_METHODS:
            raise SystemExit(f"quadrature reaches {at} in {needed} min, Runge-Kutta {reached}")
        start, time = np.nextafter(at, 1), time - needed
    return runge_kutta(rate, start, time)


def rate_below(rate, at):
    """The rate with its branch below a break continued flat, for a stage that steps over it by rounding."""
    return lambda alpha: rate(min(alpha, at))


def compute():
    rows = []
    for name, law, temperature, start, breaks, printed in CURES:
        for time, text in printed.items():
            value = conversion_by_quadrature(law, temperature, start, breaks, float(time))
            other = conversion_by_runge_kutta(law, temperature, start, breaks, float(time))
            if not abs(value - other) <= BETWEEN_METHODS:
                raise SystemExit(f"{name} at {time} min: quadrature {value}, Runge-Kutta {other}")
            rows.append({"law": name, "temperature_K": temperature, "initial_alpha": start,
                         "time_min": time, "alpha": value, "printed": text})
    for name, law, temperature, printed in VISCOSITIES:
        for alpha, text in printed.items():
            rows.append({"law": name, "temperature_K": temperature, "alpha": alpha,
                         "viscosity_Pa_s": float(law(alpha, temperature)), "printed": text})
    return rows


def result_of(row):
    return "viscosity_Pa_s" if "viscosity_Pa_s" in row else "alpha"


def agrees(row):
    """Whether the value rounds to the printed digits."""
    text = row["printed"]
    return f"{row[result_of(row)]:.{len(text.split('.')[1])}f}" == text


def show(rows):
    for row in rows:
        at = f"{row['time_min']} min" if "time_min" in row else f"alpha {row['alpha']}"
        verdict = "" if agrees(row) else "  DISAGREES"
        print(f"{row['law']:30}{at:>10} {result_of(row):>15} {row[result_of(row)]:14.9f}  printed {row['printed']}{verdict}")


def check(rows):
    """Problems found and the worst relative difference from the stored rows."""
    if not STORED.exists():
        return [f"{STORED} is missing: run ./laws.py"], np.inf
    stored = json.loads(STORED.read_text())["rows"]
    given = lambda row: {k: v for k, v in row.items() if k != result_of(row)}
    if [given(r) for r in rows] != [given(r) for r in stored]:
        return ["the stored rows are not those of laws.py: run ./laws.py"], np.inf
    found = [(r, abs(r[result_of(r)] / s[result_of(r)] - 1)) for r, s in zip(rows, stored)]
    return [f"{given(r)} differs by {d:.3g}" for r, d in found if not d <= AGAINST_STORED], max(d for _, d in found)


def main():
    if sys.argv[1:] not in ([], ["--check"]):
        raise SystemExit("usage: laws.py [--check]")
    rows = compute()
    if not sys.argv[1:]:
        show(rows)
        lines = ",\n".join("  " + json.dumps(row) for row in rows)
        STORED.write_text('{\n "rows": [\n' + lines + "\n ]\n}\n")
        return
    wrong, difference = check(rows)
    if wrong:
        print("\n".join(wrong), file=sys.stderr)
        raise SystemExit(1)
    print(f"{len(rows)} values, worst difference from the stored ones {difference:.1e}")


if __name__ == "__main__":
    main()
