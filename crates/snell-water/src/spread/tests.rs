//! Rigs in all their draws.

mod many;
mod paired;

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

/// The draws of a rig in the state that it settles in, with the line that holds its point at a height and its sink to a share
/// of its depth where they are asked for.
fn drawn(rig: &Rig, uncertain: &Uncertain, (needed_at, sink_to): (Option<Length>, Option<f64>)) -> Spread {
    let settled = rig.settles().expect("it drifts");
    let drawn = Spread::of(rig, settled.shown(), uncertain);
    let drawn = match needed_at {
        Some(height) => drawn.with_needed(rig, settled.shown(), uncertain, height),
        None => drawn,
    };
    match sink_to {
        Some(share) => drawn.with_sinks(rig, uncertain, share),
        None => drawn,
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
    let asked = (None, Some(0.9));
    let spread = drawn(&rigs()[0], &Uncertain::default(), asked);
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
    let asked = (Some(metres(0.1)), None);
    let spread = drawn(rig, &Uncertain::default(), asked);
    let depth = spread.figure(|answer| Some(answer.flies[0].depth));
    let none = depth.over(&depth).expect("they drift");
    assert_eq!((none.band.low, none.band.high, none.agree), (0.0, 0.0, 0.0));
    let exact = Uncertain {
        hook_and_dressing: Known::Exactly,
        bead: Known::Exactly,
        grain: Known::Exactly,
        speed: Known::Exactly,
        depth: Known::Exactly,
        line_drag: Known::Exactly,
        line_diameter: Known::Exactly,
    };
    let sure = drawn(rig, &exact, asked);
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
    let asked = (Some(metres(0.1)), None);
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
        let band = drawn(&over(grain), &known, asked);
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
        let asked = (Some(metres(0.1)), Some(0.9));
        let spread = drawn(&rig, &Uncertain::default(), asked);
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
    let asked = (None, None);
    let width = |rig: &Rig| {
        let spread = drawn(rig, &Uncertain::default(), asked);
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
    let asked = (Some(metres(0.1)), Some(0.9));
    let spread = drawn(&rigs()[0], &Uncertain::default(), asked);
    let sum = |figure: fn(&Answer) -> Option<f64>| -> f64 {
        spread.draws.iter().flatten().filter_map(figure).sum()
    };
    let found = [
        sum(|answer| Some(answer.flies[0].depth)),
        sum(|answer| answer.needed),
        sum(|answer| answer.sink),
    ];
    let known = [89.05345322177725, 117.87986859444081, 167.57386922642323];
    for (found, known) in found.iter().zip(known) {
        assert!((found / known - 1.0_f64).abs() < 1e-9, "{found:?}, not {known}");
    }
}
