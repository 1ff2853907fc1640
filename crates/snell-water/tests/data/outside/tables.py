"""Works out the tables beside it with independent libraries.

It knows nothing of the crate: what is published or closed is taken from the
libraries that the tables name, or integrated here by quadrature. Run through
`tests/tools/tables.sh`: `write` makes the tables, `check` holds those that are
there against fresh ones.
"""

import math
import random
import sys
from importlib.metadata import version
from pathlib import Path

import chemicals
import chemicals.iapws
import fluids
from aerosandbox import library
from moorpy.Catenary import catenary
from moorpy.helpers import CatenaryError
from scipy.integrate import quad
from scipy.optimize import brentq, root

G = 9.80665
HERE = Path(__file__).parent
# Between machines the last digits of a library may differ.
SAME = 1e-7


def kelvin(celsius):
    return celsius + 273.15


def water(celsius):
    """Density and viscosity of water at one atmosphere."""
    rho = chemicals.iapws.iapws95_rho(kelvin(celsius), 101325.0)
    return rho, chemicals.mu_IAPWS(kelvin(celsius), rho)


def water_rows(_):
    for celsius in [0.01, *range(1, 31)]:
        yield (celsius, *water(celsius))


def drag_rows(_):
    for turn in range(61):
        re = 10 ** (-1 + turn * 5.4 / 60)
        yield re, fluids.drag_sphere(re), fluids.drag_sphere(re, Method="Clift")


def speed_rows(chance):
    for _ in range(60):
        celsius = chance.randint(0, 25) or 0.01
        material = chance.choice([1200, 2500, 7850, 8500, 11340, 14000, 17800])
        millimetres = round(chance.uniform(0.5, 5.5), 2)
        rho, mu = water(celsius)
        yield celsius, material, millimetres, fluids.v_terminal(D=millimetres * 1e-3, rhop=material, rho=rho, mu=mu)


def cylinder_rows(_):
    """A fit to measured cylinders that another program uses."""
    for turn in range(51):
        re = 10 ** (-1 + turn * 6 / 50)
        yield re, float(library.aerodynamics.viscous.Cd_cylinder(re, mach=0.0))


def slow_cylinder_rows(_):
    """Slow flow past a cylinder, from theory: Kaplun 1957, from memory."""
    for re in [1e-4, 3e-4, 1e-3, 3e-3, 0.01, 0.03, 0.1, 0.2]:
        delta = 1 / (math.log(8 / re) + 0.5 - 0.57721566)
        yield re, 8 * math.pi / re * (delta - 0.87 * delta**3)


def pode(pull, angle, across, along, weight, length):
    """Pode's equations by quadrature over the angle from the stream.

    `across(a)` and `along(a)` are the forces on a metre; `pull` and `angle` hold
    at the lower end. Returns the upper end: x, z, tension.
    """

    def turns(a):
        return across(a) - weight * math.cos(a)

    # No line of any length turns farther than where it has nothing left to turn it.
    flattest = brentq(turns, 1e-12, angle) if turns(1e-12) * turns(angle) < 0 else 1e-12

    def tension(a):
        grown, _ = quad(lambda b: (along(b) + weight * math.sin(b)) / turns(b), a, angle, epsabs=0, epsrel=1e-11, limit=200)
        return pull * math.exp(grown)

    def over(a, what):
        return quad(lambda b: what(b) * tension(b) / turns(b), a, angle, epsabs=1e-13, epsrel=1e-10, limit=200)[0]

    # The length has no bound at the flattest angle, so near enough to it is found first.
    gap = angle - flattest
    while over(flattest + gap, lambda _: 1.0) < length:
        gap /= 2
    top = brentq(lambda a: over(a, lambda _: 1.0) - length, flattest + gap, min(angle, flattest + 2 * gap), xtol=1e-14)
    return -over(top, math.cos), over(top, math.sin), tension(top)


def constant_rows(chance):
    for _ in range(24):
        fly, drag = round(chance.uniform(0.001, 0.05), 5), round(chance.choice([0, chance.uniform(0, 0.01)]), 5)
        across, length = round(chance.uniform(0.005, 0.08), 5), round(chance.uniform(0.3, 2.0), 3)
        weight, along = round(chance.uniform(1e-4, 0.004), 6), round(chance.choice([0, chance.uniform(0, 0.004)]), 6)
        angle = math.atan2(fly, drag)
        x, z, tension = pode(
            math.hypot(fly, drag), angle, lambda a: across * math.sin(a) ** 2, lambda _: along, weight, length
        )
        yield fly, drag, across, along, weight, length, x, z, tension


def cylinder_across(re):
    """Sucker and Brauer 1975."""
    return 1.18 + 6.8 / re**0.89 + 1.96 / re**0.5 - 0.0004 * re / (1 + 3.64e-7 * re * re)


def sphere(re):
    """Clift and Gauvin 1971."""
    return 24 / re * (1 + 0.15 * re**0.687) + 0.42 / (1 + 42500 * re**-1.16)


def held_rows(chance):
    """A ball held in an even stream, with the drag of the crate's laws and the water of its formulas."""
    for _ in range(30):
        celsius = chance.randint(2, 22)
        ball, material = round(chance.uniform(1.5, 5.0), 2), chance.choice([8500, 11340, 17800])
        line, stuff = round(chance.uniform(0.076, 0.5), 3), chance.choice([1050, 1140, 1780])
        speed, length = round(chance.uniform(0.03, 0.8), 3), round(chance.uniform(0.3, 2.5), 3)
        rho, mu = kell(celsius), kestin(celsius)
        across_re = rho * speed * line * 1e-3 / mu
        re = rho * speed * ball * 1e-3 / mu
        drag = 0.5 * rho * sphere(re) * math.pi / 4 * (ball * 1e-3) ** 2 * speed**2
        fly = (material - rho) * math.pi / 6 * (ball * 1e-3) ** 3 * G
        weight = (stuff - rho) * math.pi / 4 * (line * 1e-3) ** 2 * G
        x, z, tension = pode(
            math.hypot(fly, drag),
            math.atan2(fly, drag),
            lambda a: 0.5 * rho * line * 1e-3 * cylinder_across(across_re * math.sin(a)) * (speed * math.sin(a)) ** 2,
            lambda a: math.sqrt(4 + 2.7**2 * across_re * math.sin(a)) * mu * speed * math.cos(a),
            weight,
            length,
        )
        yield celsius, ball, material, line, stuff, speed, length, x, z, tension


def kell(t):
    terms = [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12]
    return sum(term * t**power for power, term in enumerate(terms)) / (1 + 16.87985e-3 * t)


def kestin(t):
    return 1.002e-3 * 10 ** ((20 - t) / (t + 96) * (1.2364 - 1.37e-3 * (20 - t) + 5.7e-6 * (20 - t) ** 2))


def air_weight(millimetres, material):
    return math.pi / 4 * (millimetres * 1e-3) ** 2 * material * G


def catenary_rows(chance):
    for _ in range(50):
        reach, rise = round(chance.uniform(1.5, 9), 2), round(chance.uniform(0.2, 3), 2)
        length = round(math.hypot(reach, rise) * chance.uniform(1.002, 1.35), 3)
        millimetres, material = round(chance.uniform(0.15, 0.5), 3), chance.choice([1000, 1140, 1780])
        weight = air_weight(millimetres, material)
        yield reach, rise, length, millimetres, material, *forces(reach, rise, length, weight)


def forces(reach, rise, length, weight):
    """The pull along, the force up at the lower end and the force down at the upper, of a line that does not stretch."""
    pull, low, _, high, _ = catenary(reach, rise, length, 1e9, weight, CB=-1e3, Tol=1e-13, MaxIter=500)
    return pull, low, -high


def joined_rows(chance):
    """Two lines in a row, the heavier at the tip: the join lies where both bear the same."""
    made = 0
    while made < 15:
        reach, rise = round(chance.uniform(2, 8), 2), round(chance.uniform(0.5, 3), 2)
        share, over = round(chance.uniform(0.2, 0.8), 2), chance.uniform(1.005, 1.15)
        length = round(math.hypot(reach, rise) * over, 3)
        thin, thick = round(chance.uniform(0.1, 0.2), 3), round(chance.uniform(0.25, 0.5), 3)
        light, heavy = air_weight(thin, 1780), air_weight(thick, 1140)
        lower = round(share * length, 3)

        def apart(join):
            below = forces(join[0], join[1], lower, light)
            above = forces(reach - join[0], rise - join[1], length - lower, heavy)
            return [(below[0] - above[0]) / below[0], (below[2] - above[1]) / below[0]]

        # The join of a straight line, pulled to where both lines reach it, is where the search sets out.
        at = [share * reach, share * rise - 0.3 * math.sqrt(over - 1) * reach]
        try:
            found = root(apart, at, method="hybr", tol=1e-11)
        except CatenaryError:  # The search went where the line does not reach.
            continue
        if max(map(abs, found.fun)) > 1e-9:
            continue
        made += 1
        below = forces(*found.x, lower, light)
        above = forces(reach - found.x[0], rise - found.x[1], length - lower, heavy)
        yield reach, rise, lower, thin, length - lower, thick, below[0], below[1], above[2]


def header(what, libraries, columns):
    named = ", ".join(f"{library} {version(library)}" for library in libraries) or "no library"
    return f"# {what}; {named}.\n# Made by tables.py; see tests/tools/tables.sh.\n# " + "\t".join(columns) + "\n"


TABLES = {
    "water": ("Water by IAPWS-95 and IAPWS 2008", ["chemicals"], ["C", "kg/m3", "Pa s"], water_rows),
    "sphere_drag": (
        "Drag coefficients of a sphere by the library's choice and by Clift, Grace and Weber",
        ["fluids"],
        ["Re", "usual", "Clift"],
        drag_rows,
    ),
    "sphere_speed": ("Speeds of sinking spheres", ["fluids", "chemicals"], ["C", "kg/m3", "mm", "m/s"], speed_rows),
    "cylinder_drag": ("Drag coefficients of a cylinder", ["aerosandbox"], ["Re", "Cd"], cylinder_rows),
    "cylinder_slow": (
        "Drag coefficients of a cylinder in slow flow (Kaplun 1957)",
        [],
        ["Re", "Cd"],
        slow_cylinder_rows,
    ),
    "cable_constant": (
        "Pode's equations with constant forces on a metre, by quadrature",
        ["scipy"],
        ["W N", "drag N", "R N/m", "F N/m", "w N/m", "L m", "x m", "z m", "T N"],
        constant_rows,
    ),
    "cable_held": (
        "A ball held in an even stream, by quadrature of Pode's equations",
        ["scipy"],
        ["C", "ball mm", "kg/m3", "line mm", "kg/m3", "m/s", "L m", "x m", "z m", "T N"],
        held_rows,
    ),
    "catenary": (
        "Lines in the air",
        ["moorpy"],
        ["reach m", "rise m", "L m", "mm", "kg/m3", "pull N", "at entry N", "at tip N"],
        catenary_rows,
    ),
    "catenary_joined": (
        "Two lines in the air in a row, counted from the entry, of 1780 and of 1140 kg/m3",
        ["moorpy", "scipy"],
        ["reach m", "rise m", "lower m", "mm", "upper m", "mm", "pull N", "at entry N", "at tip N"],
        joined_rows,
    ),
}


def main(deed):
    off = 0
    for name, (what, libraries, columns, rows) in TABLES.items():
        rows = list(rows(random.Random(name)))
        path = HERE / f"{name}.tsv"
        if deed == "write":
            with open(path, "w", encoding="utf-8", newline="\n") as table:
                table.write(header(what, libraries, columns))
                table.writelines("\t".join(repr(float(value)) for value in row) + "\n" for row in rows)
            continue
        lines = [line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
        kept = [[float(value) for value in line.split("\t")] for line in lines]
        same = len(kept) == len(rows) and all(
            len(old) == len(new) and all(math.isclose(a, b, rel_tol=SAME, abs_tol=1e-12) for a, b in zip(old, new))
            for old, new in zip(kept, rows)
        )
        print(f"{'holds' if same else 'FAILS'}: {name}.tsv is what the libraries give")
        off += not same
    return 1 if off else 0


if __name__ == "__main__":
    if len(sys.argv) != 2 or sys.argv[1] not in ("write", "check"):
        sys.exit("usage: tables.py write|check")
    sys.exit(main(sys.argv[1]))
