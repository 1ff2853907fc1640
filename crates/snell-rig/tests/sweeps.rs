//! Sweeps of what a rig's text says, two hundred steps each: where a fly rides leaps only where a state ends, and there
//! both states are told.

mod support;

use snell_rig::measure::{Drifting, drifting};
use std::rc::Rc;
use support::with_last;

const STEPS: u32 = 200;

/// What a sweep changes.
#[derive(Clone, Copy)]
struct Said {
    depth: f64,
    surface: f64,
    /// Of the surface's speed; free where there is none.
    lead: Option<f64>,
    length: f64,
    tippet: f64,
    cast: &'static str,
    dropper: bool,
    point: &'static str,
}

impl Said {
    fn text(&self) -> String {
        let lead = match self.lead {
            Some(share) => format!("drift at {:.4} %", share * 100.0),
            None => "drift free".to_owned(),
        };
        let Self {
            depth,
            surface,
            length,
            cast,
            point,
            ..
        } = self;
        let tippet = format!("of {:.5} mm fluoro", self.tippet * 1e3);
        let line = if self.dropper {
            format!(
                "tippet {:.4} m {tippet}\n  dropper 12 cm with #16 2 mm tungsten\n  tippet 50 cm {tippet}",
                length - 0.5
            )
        } else {
            format!("tippet {length:.4} m {tippet}")
        };
        format!(
            "water swept\n  depth {depth:.4} m\n  surface {surface:.4} m/s\n  bed cobble\n\nrig swept-over\n  water swept\n  \
             {lead}\n  cast {cast}\n  sighter 40 cm of 0.20 mm nylon\n  ring 2 mm\n  {line}\n  point {point}\n"
        )
    }

    fn drifts(&self) -> Option<Rc<Drifting>> {
        with_last(&self.text(), |evaluation| drifting(evaluation).ok())
    }
}

fn rides(state: &Drifting) -> f64 {
    state.drift.rides[0].depth.value
}

/// Whether a state at a depth is told beside the one that is shown.
fn tells(state: &Drifting, depth: f64) -> bool {
    let near = |other: f64| (other - depth).abs() < LEAP;
    state
        .settled
        .others()
        .any(|other| near(other.drift.rides[0].depth.value))
}

/// A step that a state does not take, m: the steepest sweeps move a fly by half of it.
const LEAP: f64 = 0.04;

/// How often a step is halved that seems to leap: a steep stretch is parted by it, and of a state that ends within the step
/// the other one is found.
const HALVINGS: u32 = 12;

/// Whether what was drifts over into what is: evenly, or where a state ends and both are told.
fn goes_over(drifts: &impl Fn(f64) -> Option<Rc<Drifting>>, from: f64, to: f64, halvings: u32) -> bool {
    let (Some(was), Some(is)) = (drifts(from), drifts(to)) else {
        return true;
    };
    let (before, after) = (rides(&was), rides(&is));
    if (before - after).abs() < LEAP || tells(&was, after) || tells(&is, before) {
        return true;
    }
    let middle = 0.5 * (from + to);
    halvings > 0
        && goes_over(drifts, from, middle, halvings - 1)
        && goes_over(drifts, middle, to, halvings - 1)
}

#[track_caller]
fn sweep(name: &str, start: Said, change: impl Fn(&mut Said, f64)) {
    let said = |part: f64| {
        let mut said = start;
        change(&mut said, part);
        said
    };
    let drifts = |part: f64| said(part).drifts();
    let mut before = drifts(0.0);
    let mut drifted = 0;
    for step in 1..=STEPS {
        let part = |step: u32| f64::from(step) / f64::from(STEPS);
        let now = drifts(part(step));
        let leaps = match (&before, &now) {
            (Some(was), Some(is)) => (rides(was) - rides(is)).abs() >= LEAP,
            _ => false,
        };
        assert!(
            !leaps || goes_over(&drifts, part(step - 1), part(step), HALVINGS),
            "{name}, step {step} leaps, and neither state is told beside the other in\n{}",
            said(part(step)).text()
        );
        drifted += u32::from(now.is_some());
        before = now;
    }
    assert!(drifted > STEPS * 9 / 10, "{name}: only {drifted} drift");
}

fn rigs() -> Vec<Said> {
    let base = Said {
        depth: 1.0,
        surface: 0.9,
        lead: None,
        length: 1.4,
        tippet: 0.127e-3,
        cast: "tuck",
        dropper: false,
        point: "#14 2.8 mm tungsten",
    };
    vec![
        base,
        Said {
            dropper: true,
            cast: "up",
            ..base
        },
        Said {
            surface: 1.4,
            lead: Some(0.733),
            length: 1.035,
            ..base
        },
        Said {
            surface: 1.2,
            lead: Some(0.75),
            cast: "up",
            point: "#16 2.4 mm tungsten",
            ..base
        },
    ]
}

#[test]
fn depth_leaps_where_a_state_ends_only() {
    for rig in rigs() {
        sweep("depth", rig, |said, part| said.depth = 0.4 + 2.0 * part);
    }
}

#[test]
fn speed_leaps_where_a_state_ends_only() {
    for rig in rigs() {
        sweep("speed", rig, |said, part| said.surface = 0.25 + 1.6 * part);
    }
}

#[test]
fn lead_leaps_where_a_state_ends_only() {
    for rig in rigs() {
        sweep("lead", rig, |said, part| said.lead = Some(0.6 + 0.39 * part));
    }
}

#[test]
fn length_leaps_where_a_state_ends_only() {
    for rig in rigs() {
        sweep("length", rig, |said, part| said.length = 0.7 + 1.2 * part);
    }
}

#[test]
fn tippet_leaps_where_a_state_ends_only() {
    for rig in rigs() {
        sweep("tippet", rig, |said, part| {
            said.tippet = 0.08e-3 + 0.22e-3 * part;
        });
    }
}
