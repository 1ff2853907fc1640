//! Bands and chances of a hundred draws against two thousand that are as random as a generator makes them.

use super::super::band::at;
use super::*;

const MANY: usize = 2000;

/// Standard normal numbers (Box and Muller 1958) of a generator that always starts alike (SplitMix64: Steele, Lea and Flood
/// 2014).
pub(super) struct Normal(pub(super) u64);

impl Normal {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(super) fn next(&mut self) -> f64 {
        let (one, other) = (self.uniform().max(1e-300), self.uniform());
        (-2.0 * one.ln()).sqrt() * (2.0 * std::f64::consts::PI * other).cos()
    }
}

/// A figure in as many random draws.
fn brute(
    rig: &Rig,
    (needed_at, sink_to): (Option<Length>, Option<f64>),
    figure: impl Fn(&Answer) -> Option<f64>,
) -> Vec<f64> {
    let settled = rig.settles().expect("it settles");
    let known = Followed::of(settled.shown(), &rig.stream);
    let needed = needed_at.map(|height| Needed::at(height, rig, settled.shown()));
    let mut normal = Normal(1);
    let draw = || {
        let off: Off = std::array::from_fn(|_| normal.next());
        let drawn = Uncertain::default().drawn(rig, &off);
        let mut answer = Answer::near(&drawn, &known)?;
        answer.needed = needed.and_then(|needed| needed.of(&drawn));
        answer.sink = sink_to.and_then(|share| answer.time(&drawn, share, 1.0));
        figure(&answer)
    };
    let mut values: Vec<f64> = std::iter::repeat_with(draw).take(MANY).flatten().collect();
    values.sort_by(f64::total_cmp);
    values
}

#[track_caller]
fn holds(rig: usize, what: &str, drawn: &Drawn, many: &[f64]) {
    let band = drawn.band().expect("most draws have it");
    assert!(many.len() > MANY * 9 / 10, "{rig} {what}: {} draws", many.len());
    for (share, value) in [(0.1, band.low), (0.5, band.middle), (0.9, band.high)] {
        let off = (value - at(many, share)).abs();
        assert!(
            off <= 0.2 * band.width(),
            "{rig} {what} at {share}: {value}, not {}; {band:?}",
            at(many, share)
        );
    }
    let inside = many
        .iter()
        .filter(|value| (band.low..=band.high).contains(*value))
        .count();
    let covers = inside as f64 / many.len() as f64;
    assert!(
        (0.75..=0.85).contains(&covers),
        "{rig} {what}: the band covers {covers}"
    );
    chances_hold(rig, what, drawn, many);
}

/// How many draws lie on a side of a limit, by counting them.
#[track_caller]
fn chances_hold(rig: usize, what: &str, drawn: &Drawn, many: &[f64]) {
    for share in [0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95] {
        let limit = at(many, share);
        let counted =
            |so: &dyn Fn(f64) -> bool| many.iter().filter(|value| so(**value)).count() as f64 / MANY as f64;
        let sides = [
            (drawn.chance_below(limit), counted(&|value| value <= limit)),
            (drawn.chance_above(limit), counted(&|value| value >= limit)),
        ];
        for (found, counted) in sides {
            assert!(
                (found - counted).abs() <= 0.06,
                "{rig} {what} beside {limit}: {found}, by counting {counted}"
            );
        }
    }
}

#[test]
fn bands_of_drifts_are_those_of_two_thousand_draws() {
    type Figure = (&'static str, fn(&Answer) -> Option<f64>);
    let figures: [Figure; 3] = [
        ("depth", |answer| Some(answer.flies[0].depth)),
        ("off the bed", |answer| Some(answer.flies[0].off_bed)),
        ("line needed", |answer| answer.needed),
    ];
    for (place, rig) in rigs().iter().enumerate() {
        for (what, figure) in figures {
            let needed_at = (what == "line needed").then(|| metres(0.1));
            let asked = (needed_at, None);
            let spread = drawn(rig, &Uncertain::default(), asked);
            holds(place, what, &spread.figure(figure), &brute(rig, asked, figure));
        }
    }
}

#[test]
fn bands_of_sinks_are_those_of_two_thousand_draws() {
    for (place, rig) in rigs().iter().enumerate() {
        let asked = (None, Some(0.9));
        let spread = drawn(rig, &Uncertain::default(), asked);
        let seconds = |answer: &Answer| answer.sink;
        holds(
            place,
            "sink",
            &spread.figure(seconds),
            &brute(rig, asked, seconds),
        );
    }
}
