//! Pieces that rig files are made of, for tests that put them together at
//! random: most of what comes out is wrong, and none of it may do harm.

/// Words, numbers, marks and spaces of the language, and some that are not.
pub const PIECES: &[&str] = &[
    " ", " ", " ", " ", "\n", "\n", "\n  ", "\n  ", "\n  ", "\n\n", "\r\n", "\t", "\u{A0}", "\u{FEFF}", "\u{200B}", "// ", "\"", "“",
    "”", "„", "rig a", "rig b from a", "rig a from b", "rod r", "water w", "bed b", "material m from nylon", "spool s", "knot k",
    "dressing d", "fly f", "rule u", "rulebook v", "use \"a.rig\"", "use \"../a.rig\"", "use \"\"", "line", "butt 60 in", "taper",
    "sighter", "tippet", "tippet 20 in of 6X fluoro", "dropper 8 in with f", "dropper", "inline f off bend", "point f", "point #14",
    "knot blood with tags 1 in", "ring 2 mm", "shot 0.4 g tin", "float 13 mm foam", "method dry", "method", "rod 10 ft #2", "water w",
    "water 2 ft to 3 ft at 2 ft/s over cobble", "reach 3 m", "tip", "off-bed 4 in", "drift free", "drift at 1 ft/s", "cast tuck",
    "note \"x\"", "let a = b", "let b = a", "let a = 2 m", "let c = total / tippet", "limit a 2 m", "expect total at least 2 m",
    "expect tippet-ratio between 1 and 2", "expect total is not dry or team", "allow x because \"y\"", "remove dropper", "remove",
    "change upper to 2 m", "change tippet 2 to 5X nylon", "change point to f", "add shot 1 g after upper", "add", "length 10 ft",
    "weight #2", "depth 2 ft", "surface 2 ft/s", "mean 1 m/s", "bed cobble", "bed 3 cm", "density 1 g/cm3", "size 6X", "hook #14",
    "hook 14", "bead 5/64 in tungsten", "bead 5/32 in", "wire 0.015 in lead, 8 turns", "dressed slim", "floats 1 g", "barbless",
    "mass 1 g", "sinks 1 m/s", "source \"s\"", "of", "to", "with", "as upper", "as", "on", "at", "over", "after", "because", "from",
    "and", "or", "is", "between", "times", "x", "X", "20", "1,200", "0,28", "1.2.3", "1/0", "1e309", "7 1/2", "½", "3'8\"", "3'8", "6X",
    "9X", "6 X", "5X-7X", "2-3 ft", "2 ft to 3 ft", "#", "#14", "#2/0", "in", "ft", "mm", "g", "lb", "%", "°C", "°", "ft/s", "m2/s",
    "kg/m3", "(", ")", "((((", "min(1 m, 2 m)", "max(", ",", ".", "..", "+", "-", "–", "*", "×", "/", "÷", "=", "<", ">", ":", ";", "depth",
    "total", "upper", "upper.length", "water.depth.low", "rod.length", "gap.hung", "point.mass", "tippet.role", "größe", "e\u{301}",
    "名前", "🎣", "nylon", "fluoro", "tungsten", "pink", "slotted", "turns", "```rig\n", "```\n", "```rig alone\n", "> ", "- ", "\0", "\u{7f}",
    "\u{202E}", "\u{2028}", "\u{85}",
];
