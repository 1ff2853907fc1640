//! A drift as figures for people: what was taken, how the rig drifts, and how
//! deep each fly is on the way down.

use super::plain::Page;
use super::unsaid;
use crate::sheet::entry::{Named, named};
use crate::terminal::Terminal;
use snell_units::{Dimension, Quantity, System};
use snell_view::{HangsOn, ShownDrift, ShownMoment, ShownRide, ShownSink, Steady};

/// Shares of the sink's time at which depths are told.
const TOLD: [f64; 4] = [0.25, 0.5, 0.75, 1.0];

/// A fly that is no further up or down the stream than this, in metres, is below the line's entry.
const BESIDE: f64 = 0.01;

/// Writes a drift, without its picture.
pub fn write(drift: &ShownDrift, terminal: &Terminal) -> String {
    let mut page = Page::new(terminal);
    page.title(&drift.name, drift.title.as_deref());
    page.gap();
    page.paragraphs(&drift.answer);
    page.gap();
    let inputs = drift
        .inputs
        .iter()
        .map(|(name, written)| named(input(name), &written.text));
    page.named(&inputs.collect::<Vec<_>>());
    page.gap();
    if let (Some(steady), Some(sink)) = (&drift.steady, &drift.sink) {
        page.named(&drifting(steady));
        page.gap();
        page.named(&rides(steady));
        page.gap();
        page.named(&sinking(steady, sink, drift.system));
        page.gap();
    }
    if let Some(steady) = &drift.steady {
        page.list(
            "to know better",
            &steady.hangs_on.iter().map(remedy).collect::<Vec<_>>(),
        );
        page.gap();
    }
    page.list("assumed", &unsaid::assumed(&drift.assumed));
    page.gap();
    page.list("no drift without", &drift.needs);
    page.finish()
}

/// `sink-time: time the point fly in still water (82 % of what it may be off by)`
fn remedy(on: &HangsOn) -> String {
    let share = (on.share * 100.0).round();
    format!(
        "{}: {} ({share} % of what it may be off by)",
        on.measure, on.remedy
    )
}

fn input(name: &str) -> &str {
    match name {
        "line" => "line to go under",
        "surface" => "surface speed",
        "mean" => "mean speed",
        _ => name,
    }
}

fn drifting(steady: &Steady) -> Vec<Named> {
    let measures = steady
        .measures
        .iter()
        .map(|(name, written)| named(name, &written.told()));
    let mut told = vec![
        named("drifts at", &steady.speed.text),
        named("line under water", &steady.submerged.text),
    ];
    if steady.on_bed {
        told.push(named(
            "on the bed",
            "the point lies on it with so much line under water",
        ));
    }
    if !steady.others.is_empty() {
        let depths: Vec<&str> = steady.others.iter().map(|depth| &*depth.text).collect();
        let text = format!(
            "the point may as well ride {}: another cast or a push leaves it there",
            depths.join(" or ")
        );
        told.push(named("also steady", &text));
    }
    told.extend(measures);
    told
}

fn rides(steady: &Steady) -> Vec<Named> {
    let told = |ride: &ShownRide| {
        let text = format!(
            "rides {}, {} off the bed, {}, {} against its water",
            ride.told(),
            ride.off_bed.text,
            beside(ride),
            ride.lag.text
        );
        named(&ride.name, &text)
    };
    steady.flies.iter().map(told).collect()
}

/// A depth to a centimetre or half an inch.
fn coarse(depth: f64, system: System) -> String {
    let step = match system {
        System::Metric => 0.01,
        System::Imperial => 0.0127,
    };
    let si = (depth / step).round() * step;
    snell_units::write(Quantity::new(si, Dimension::LENGTH), system)
}

/// Where a fly is along the stream.
fn beside(ride: &ShownRide) -> String {
    let ahead = ride.ahead.value.unwrap_or_default();
    let text = ride.ahead.text.trim_start_matches('-');
    if ahead.abs() < BESIDE {
        "below the line's entry".to_owned()
    } else {
        let side = if ahead < 0.0 { "upstream" } else { "downstream" };
        format!("{text} {side} of the line's entry")
    }
}

/// The depths of the flies at a few moments of the sink.
fn sinking(steady: &Steady, sink: &ShownSink, system: System) -> Vec<Named> {
    let Some(end) = sink.moments.last().map(|moment| moment.time) else {
        return Vec::new();
    };
    let at = |share: f64| {
        sink.moments
            .iter()
            .find(|moment| moment.time >= end * share - 1e-9)
    };
    let told = |moment: &ShownMoment| {
        let fly = |((depth, _), ride): (&(f64, f64), &ShownRide)| {
            format!("{} {}", ride.name, coarse(*depth, system))
        };
        let flies: Vec<String> = moment.flies.iter().zip(&steady.flies).map(fly).collect();
        named(
            &format!("after {:.1} s", moment.time),
            &format!("{} deep", flies.join(", ")),
        )
    };
    let mut lines: Vec<Named> = TOLD.into_iter().filter_map(at).map(told).collect();
    lines.dedup();
    let cast = format!("cast {}", sink.cast);
    let down = match &sink.down {
        Some(down) => format!("the point is at nine tenths of its depth after {}", down.text),
        None => "the point does not get down within a minute".to_owned(),
    };
    let check = sink.half_straight_down.as_ref();
    let check = check.map(|time| format!("; half way down after {}, did it sink straight", time.text));
    lines.insert(0, named(&cast, &format!("{down}{}", check.unwrap_or_default())));
    lines
}
