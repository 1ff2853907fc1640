//! A hundred draws against two thousand that are as random as a generator makes them.

use super::band::at;
use super::*;
use crate::drift::Lead;
use crate::float::Float;
use crate::fluid::Fluid;
use crate::fly::{Bead, Dressing, Fly, Hook, Parts};
use crate::leader::Reach;
use crate::profile::Profile;
use crate::sink::Cast;
use crate::strand::Strand;
use crate::stream::Stream;
use crate::tackle::{Hung, Tackle};
use uom::si::f64::{Length, MassDensity, ThermodynamicTemperature, Velocity};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;

fn metres(of: f64) -> Length {
    Length::new::<meter>(of)
}

fn density(of: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(of)
}

fn fly(size: f64, bead: f64, dressing: &str) -> Fly {
    let parts = Parts {
        hook: Some(Hook::of_size(size)),
        bead: Some(Bead {
            diameter: metres(bead),
            density: density(18_000.0),
            fill: Bead::BORED,
        }),
        dressing: Dressing::named(dressing),
        ..Parts::default()
    };
    Fly::tied(&parts).expect("its parts have sizes")
}

/// Ten rigs: one and two flies, thin and thick tippet, slow and fast water, free and led, short and long.
fn rigs() -> Vec<Rig> {
    let rig = |depth: f64,
               surface: f64,
               share: f64,
               tippet: f64,
               bead: f64,
               dressing: &str,
               two: bool,
               lead: Lead,
               cast| {
        let line = Strand::new(metres(3.0), metres(tippet), density(1780.0));
        let dropper = Hung {
            fly: fly(16.0, 0.002, "hackled"),
            above_point: metres(0.5),
            tag: Some(line.of_length(metres(0.12))),
        };
        let hung = if two { vec![dropper] } else { Vec::new() };
        let tackle = Tackle::new(fly(14.0, bead, dressing), vec![line], hung).expect("its parts have sizes");
        let surface = Velocity::new::<meter_per_second>(surface);
        Rig {
            tackle,
            stream: Stream {
                profile: Profile::over_bed(metres(depth), surface, metres(0.1)),
                fluid: Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(10.0)),
            },
            length: metres(depth * share),
            lead,
            cast,
        }
    };
    let share = |of: f64| Lead::Share(uom::si::f64::Ratio::new::<uom::si::ratio::ratio>(of));
    vec![
        rig(
            1.2,
            0.8,
            0.75,
            0.152e-3,
            0.0028,
            "slim",
            true,
            Lead::Free,
            Cast::Tuck,
        ),
        rig(
            0.9,
            0.7,
            0.85,
            0.127e-3,
            0.0028,
            "dressed",
            true,
            Lead::Free,
            Cast::Up,
        ),
        rig(
            0.6,
            0.5,
            0.80,
            0.102e-3,
            0.0020,
            "thread",
            false,
            Lead::Free,
            Cast::Tuck,
        ),
        rig(
            1.5,
            1.2,
            0.70,
            0.127e-3,
            0.0038,
            "slim",
            false,
            Lead::Free,
            Cast::Tuck,
        ),
        rig(
            0.8,
            1.0,
            0.70,
            0.203e-3,
            0.0033,
            "hackled",
            false,
            Lead::Free,
            Cast::Down,
        ),
        rig(
            1.0,
            0.8,
            0.80,
            0.152e-3,
            0.0028,
            "thread",
            false,
            share(0.70),
            Cast::Up,
        ),
        rig(
            1.0,
            0.8,
            0.85,
            0.127e-3,
            0.0033,
            "slim",
            false,
            share(0.75),
            Cast::Tuck,
        ),
        rig(
            0.7,
            0.6,
            0.90,
            0.102e-3,
            0.0024,
            "slim",
            true,
            share(0.80),
            Cast::Tuck,
        ),
        rig(
            1.3,
            0.9,
            0.60,
            0.127e-3,
            0.0028,
            "bushy",
            true,
            Lead::Free,
            Cast::Tuck,
        ),
        rig(
            2.0,
            0.6,
            0.80,
            0.152e-3,
            0.0046,
            "dressed",
            false,
            Lead::Free,
            Cast::Tuck,
        ),
    ]
}

const MANY: usize = 2000;

/// Standard normal numbers (Box and Muller 1958) of a generator that always starts alike (SplitMix64: Steele, Lea and Flood
/// 2014).
struct Normal(u64);

impl Normal {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn next(&mut self) -> f64 {
        let (one, other) = (self.uniform().max(1e-300), self.uniform());
        (-2.0 * one.ln()).sqrt() * (2.0 * std::f64::consts::PI * other).cos()
    }
}

/// A figure in as many random draws.
fn brute(rig: &Rig, asked: &Asked, figure: impl Fn(&Answer) -> Option<f64>) -> Vec<f64> {
    let settled = rig.settles().expect("it settles");
    let known = Followed::of(settled.shown(), &rig.stream);
    let mut normal = Normal(1);
    let draw = || {
        let off: Off = std::array::from_fn(|_| normal.next());
        let drawn = Uncertain::default().drawn(rig, &off);
        let mut answer = Answer::near(&drawn, &known, asked)?;
        answer.sink = asked.sink_to.and_then(|share| answer.time(&drawn, share));
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
            let asked = Asked {
                needed_at,
                sink_to: None,
            };
            let spread = Spread::of(rig, &Uncertain::default(), &asked).expect("it drifts");
            holds(place, what, &spread.figure(figure), &brute(rig, &asked, figure));
        }
    }
}

#[test]
fn bands_of_sinks_are_those_of_two_thousand_draws() {
    for (place, rig) in rigs().iter().enumerate() {
        let asked = Asked {
            needed_at: None,
            sink_to: Some(0.9),
        };
        let spread = Spread::of(rig, &Uncertain::default(), &asked).expect("it drifts");
        let seconds = |answer: &Answer| answer.sink;
        holds(
            place,
            "sink",
            &spread.figure(seconds),
            &brute(rig, &asked, seconds),
        );
    }
}

/// A rig that never gets down in some draws is down in time in no more than the others, and neither side of any limit has
/// them.
#[test]
fn a_draw_without_the_figure_is_on_no_side_of_a_limit() {
    let drawn = Drawn {
        told: Some(3.0),
        draws: (0..DRAWS)
            .map(|draw| (draw < 60).then_some(draw as f64))
            .collect(),
        apart: Vec::new(),
    };
    assert_eq!((drawn.chance_below(29.0), drawn.chance_above(29.0)), (0.30, 0.31));
    assert_eq!((drawn.chance_below(1e9), drawn.chance_above(1e9)), (0.6, 0.0));
    assert_eq!(drawn.dominated_by(), None);
}

#[test]
fn what_moves_a_figure_most_is_named_first() {
    let asked = Asked {
        needed_at: None,
        sink_to: Some(0.9),
    };
    let spread = Spread::of(&rigs()[0], &Uncertain::default(), &asked).expect("it drifts");
    let (input, share) = spread
        .figure(|answer| answer.sink)
        .dominated_by()
        .expect("it moves");
    assert!(input == Input::PointDrag && share > 0.6, "{input:?} {share}");
    let (input, share) = spread
        .figure(|answer| Some(answer.flies[0].off_bed))
        .dominated_by()
        .expect("it moves");
    assert!(input == Input::Depth && share > 0.9, "{input:?} {share}");
}

#[test]
fn the_same_rig_is_no_different_and_what_is_known_exactly_does_not_spread() {
    let rig = &rigs()[0];
    let asked = Asked {
        needed_at: Some(metres(0.1)),
        sink_to: None,
    };
    let spread = Spread::of(rig, &Uncertain::default(), &asked).expect("it drifts");
    let none = spread
        .to(&spread, |answer| Some(answer.flies[0].depth))
        .expect("they drift");
    assert_eq!((none.band.low, none.band.high, none.cancels), (0.0, 0.0, 1.0));
    let exact = Uncertain {
        hook_and_dressing: Known::Exactly,
        bead: Known::Exactly,
        grain: Known::Exactly,
        speed: Known::Exactly,
        depth: Known::Exactly,
        line_drag: Known::Exactly,
        line_diameter: Known::Exactly,
    };
    let sure = Spread::of(rig, &exact, &asked).expect("it drifts");
    let shares = sure.shares(|answer| Some(answer.flies[0].depth));
    assert!(
        shares[0].0 == Input::PointDrag || shares[0].0 == Input::OtherDrag,
        "only the flies' drag is left"
    );
    let width = |spread: &Spread| {
        spread
            .band(|answer| Some(answer.flies[0].off_bed))
            .expect("they drift")
            .width()
    };
    assert!(
        width(&sure) < 0.1 * width(&spread),
        "{} and {}",
        width(&sure),
        width(&spread)
    );
    let lies = spread.figure(|answer| Some(f64::from(u8::from(answer.on_bed))));
    assert!(lies.chance_above(1.0) <= 0.01);
}

/// Water over coarse stones may be slowed as a law that was fitted to measured streams has it (Mazi and others, depth-averaged
/// from surface speed, abstract): the bands reach as far, and where that law says nothing else they stay as they are.
#[test]
fn bands_over_coarse_stones_hold_the_law_that_was_measured_there() {
    let mean = |grains: f64, rougher: f64| Profile::mean_to_surface(metres(grains), metres(rougher)).value;
    // Of the mean over the surface speed that law has 0.62 at five grains, 0.77 at ten.
    for (grains, found) in [(5.0, 0.62), (10.0, 0.77)] {
        let Known::UpTo { most, .. } = Uncertain::default().over(metres(grains), metres(1.0)).grain else {
            panic!("{grains} grains are few");
        };
        assert!(
            (mean(grains, most) - found).abs() < 0.01,
            "{grains}: {}",
            mean(grains, most)
        );
    }
    let rig = rigs().swap_remove(1);
    let asked = Asked {
        needed_at: Some(metres(0.1)),
        sink_to: None,
    };
    for (depth, grain) in [(0.9, 0.15), (1.2, 0.10), (0.6, 0.04)] {
        let (depth, grain) = (metres(depth), metres(grain));
        let over = |grain: Length| {
            let mut over = rig.clone();
            over.stream.profile = Profile::over_bed(depth, rig.stream.profile.surface(), grain);
            over
        };
        let known = Uncertain::default().over(depth, grain);
        let Known::UpTo { most, .. } = known.grain else {
            assert!((depth / grain).value >= 15.0, "{depth:?}");
            continue;
        };
        let band = Spread::of(&over(grain), &known, &asked).expect("it drifts");
        let band = band.band(|answer| answer.needed).expect("it is drawn");
        let measured = over(grain * most).with_point_at(metres(0.1)).expect("it drifts");
        assert!(
            (band.low..=band.high * 1.03).contains(&measured.submerged.value),
            "{depth:?}: {} beside {band:?}",
            measured.submerged.value
        );
    }
}

#[test]
fn a_rig_below_a_float_or_a_tip_is_drawn_too() {
    let mut rig = rigs().swap_remove(2);
    let water = rig.stream.fluid;
    let float = Float::ball(metres(0.013), density(150.0), &water).expect("it floats");
    let reach = Reach {
        along: metres(-3.0),
        tip: metres(2.5),
        wind: None,
    };
    for lead in [Lead::Float(float), Lead::Reach(reach)] {
        rig.lead = lead;
        let asked = Asked {
            needed_at: Some(metres(0.1)),
            sink_to: Some(0.9),
        };
        let spread = Spread::of(&rig, &Uncertain::default(), &asked).expect("it drifts");
        let band = spread
            .band(|answer| Some(answer.flies[0].depth))
            .expect("it drifts");
        assert!(band.of == DRAWS && band.width() > 0.0, "{lead:?}: {band:?}");
        let sink = spread.band(|answer| answer.sink).expect("it sinks");
        assert!(
            sink.low < sink.middle && sink.middle < sink.high,
            "{lead:?}: {sink:?}"
        );
    }
}

#[test]
fn told_as_a_share_of_the_surface_a_lead_is_known_better() {
    let mut rig = rigs().swap_remove(5);
    let asked = Asked {
        needed_at: None,
        sink_to: None,
    };
    let width = |rig: &Rig| {
        let spread = Spread::of(rig, &Uncertain::default(), &asked).expect("it drifts");
        let band = spread
            .band(|answer| Some(answer.flies[0].depth))
            .expect("it drifts");
        (
            band.width(),
            spread.shares(|answer| Some(answer.flies[0].depth))[0],
        )
    };
    let (by_share, _) = width(&rig);
    rig.lead = Lead::Speed(rig.stream.profile.surface() * 0.70);
    let (by_speed, (input, share)) = width(&rig);
    assert!(by_share < 0.5 * by_speed, "{by_share} and {by_speed}");
    assert!(input == Input::Speed && share > 0.9, "{input:?} {share}");
}

/// The same figures on every machine, a browser's too: nothing here takes its powers from the platform. The figures are
/// those of this crate; they move when it does.
#[test]
fn figures_are_the_same_on_every_machine() {
    let asked = Asked {
        needed_at: Some(metres(0.1)),
        sink_to: Some(0.9),
    };
    let spread = Spread::of(&rigs()[0], &Uncertain::default(), &asked).expect("it drifts");
    let sum = |figure: fn(&Answer) -> Option<f64>| -> f64 {
        spread.draws.iter().flatten().filter_map(figure).sum()
    };
    let found = [
        sum(|answer| Some(answer.flies[0].depth)),
        sum(|answer| answer.needed),
        sum(|answer| answer.sink),
    ];
    let known = [89.05345322177725, 117.87986859444081, 167.57260490817598];
    for (found, known) in found.iter().zip(known) {
        assert!((found / known - 1.0_f64).abs() < 1e-9, "{found:?}, not {known}");
    }
}
