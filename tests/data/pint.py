"""Writes pint.tsv: units of the table, converted to SI by an independent library.

Run as the header of pint.tsv says. It knows nothing of the table in
crates/snell-units; each row pairs a spelling of ours with pint's name for that unit.
Python needs -P, or it takes this file for the library of the same name.
"""

import platform
from pathlib import Path

import pint

ROWS = [
    ("mm", "millimeter", [0.127, 2.8]),
    ("cm", "centimeter", [52.5]),
    ("metres", "meter", [4.57]),
    ("in", "inch", [1, 52, 0.0055]),
    ("inches", "inch", [190.5]),
    ('"', "inch", [8]),
    ("ft", "foot", [1, 15.5]),
    ("'", "foot", [9]),
    ("yards", "yard", [1, 30]),
    ("thou", "thou", [1, 5.5]),
    ("mg", "milligram", [6]),
    ("g", "gram", [0.123]),
    ("kilos", "kilogram", [1.8]),
    ("gr", "grain", [1, 140]),
    ("oz", "ounce", [1, 0.25]),
    ("lb", "pound", [1, 5.5]),
    ("lbs", "pound", [4]),
    ("N", "newton", [17.8]),
    ("m/s", "meter/second", [0.67]),
    ("cm/s", "centimeter/second", [8.5]),
    ("ft/s", "foot/second", [2.2]),
    ("in/s", "inch/second", [3]),
    ("km/h", "kilometer/hour", [1, 3.5]),
    ("mph", "mile/hour", [1, 2.5]),
    ("sec", "second", [12]),
    ("min", "minute", [1.5]),
    ("hrs", "hour", [0.25]),
    ("deg", "degree", [1, 45]),
    ("%", "percent", [80]),
    ("C", "degree_Celsius", [-1.5, 12]),
    ("F", "degree_Fahrenheit", [0, 32.5, 54, 212]),
    ("g/cm3", "gram/centimeter**3", [1.14, 18]),
    ("kg/m3", "kilogram/meter**3", [998.2]),
    ("oz/in3", "ounce/inch**3", [1]),
    ("lb/ft3", "pound/foot**3", [62.4]),
    ("Pa", "pascal", [101325]),
    ("MPa", "megapascal", [1100]),
    ("GPa", "gigapascal", [2.5]),
    ("N/mm2", "newton/millimeter**2", [350]),
    ("mm2", "millimeter**2", [0.0127]),
    ("in2", "inch**2", [1.5]),
    ("ft2", "foot**2", [2]),
    ("mm3", "millimeter**3", [11.5]),
    ("in3", "inch**3", [0.7]),
    ("ft3", "foot**3", [1.25]),
    ("g/m", "gram/meter", [0.31]),
    ("gr/ft", "grain/foot", [4.66]),
    ("oz/yd", "ounce/yard", [0.2]),
    ("m2/s", "meter**2/second", [0.65]),
    ("ft2/s", "foot**2/second", [7]),
    ("ft/min", "foot/minute", [40]),
    ("ft3/s", "foot**3/second", [35]),
    ("N/m", "newton/meter", [2]),
    ("deg/s", "degree/second", [90]),
]

HEADER = f"""\
# Units converted to SI by pint {pint.__version__} (Python {platform.python_version()}).
# Temperatures are in degrees Celsius. Made from this folder with:
#   pip install pint=={pint.__version__} && python -P pint.py
# written\tpint\tnumber\tsi
"""


def si(registry, number, unit):
    quantity = registry.Quantity(number, unit)
    if quantity.check("[temperature]"):
        return quantity.to("degree_Celsius").magnitude
    return quantity.to_base_units().magnitude


def main():
    registry = pint.UnitRegistry()
    with open(Path(__file__).with_suffix(".tsv"), "w", encoding="utf-8", newline="\n") as table:
        table.write(HEADER)
        for written, unit, numbers in ROWS:
            for number in numbers:
                value = float(si(registry, number, unit))
                table.write(f"{written}\t{unit}\t{number}\t{value!r}\n")


main()
