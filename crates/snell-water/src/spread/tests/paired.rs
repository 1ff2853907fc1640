//! Differences of two rigs on the same hundred draws against five hundred random ones that both rigs share.

use super::super::band::at;
use super::many::Normal;
use super::*;

/// The height over the bed that the line is needed for, and the share of its depth that a sink is timed to.
type Asked = (Option<Length>, Option<f64>);

const MANY: usize = 500;

/// A figure of two rigs in as many random draws, the second less the first.
fn brute(
    one: &Rig,
    other: &Rig,
    (needed_at, sink_to): Asked,
    figure: impl Fn(&Answer) -> Option<f64>,
) -> Vec<f64> {
    let near = |rig: &Rig| {
        let settled = rig.settles().expect("it settles");
        let known = Followed::of(settled.shown(), &rig.stream);
        let needed = needed_at.map(|height| Needed::at(height, rig, settled.shown()));
        (known, needed)
    };
    let (near_one, near_other) = (near(one), near(other));
    let answer = |rig: &Rig, (known, needed): &(Followed, Option<Needed>), off: &Off| {
        let drawn = Uncertain::default().drawn(rig, off);
        let mut answer = Answer::near(&drawn, known)?;
        answer.needed = needed.and_then(|needed| needed.of(&drawn));
        answer.sink = sink_to.and_then(|share| answer.time(&drawn, share, 1.0));
        figure(&answer)
    };
    let mut normal = Normal(7);
    let draw = || {
        let off: Off = std::array::from_fn(|_| normal.next());
        Some(answer(other, &near_other, &off)? - answer(one, &near_one, &off)?)
    };
    let mut values: Vec<f64> = std::iter::repeat_with(draw).take(MANY).flatten().collect();
    values.sort_by(f64::total_cmp);
    values
}

fn with_tippet(rig: &Rig, diameter: f64) -> Rig {
    let line = |strand: &Strand| Strand::new(metres(strand.length), metres(diameter), density(1780.0));
    Rig {
        tackle: rig.tackle.changed(|_, fly| *fly, line),
        ..rig.clone()
    }
}

fn with_bead(rig: &Rig, bead: f64) -> Rig {
    let point = |place: usize, own: &Fly| match place {
        0 => fly(14.0, bead, "dressed"),
        _ => *own,
    };
    Rig {
        tackle: rig.tackle.changed(point, |strand| *strand),
        ..rig.clone()
    }
}

#[track_caller]
fn agrees(what: &str, one: &Rig, other: &Rig, asked: Asked, figure: fn(&Answer) -> Option<f64>) {
    let drawn = |rig: &Rig| drawn(rig, &Uncertain::default(), asked).figure(figure);
    let paired = drawn(other).over(&drawn(one)).expect("most draws have both");
    let many = brute(one, other, asked, figure);
    assert!(many.len() > MANY * 9 / 10, "{what}: {} draws", many.len());
    let width = at(&many, 0.9) - at(&many, 0.1);
    for (share, value) in [
        (0.1, paired.band.low),
        (0.5, paired.band.middle),
        (0.9, paired.band.high),
    ] {
        let off = (value - at(&many, share)).abs();
        assert!(
            off <= 0.2 * width + 1e-6,
            "{what} at {share}: {value}, not {}",
            at(&many, share)
        );
    }
    let alike = many
        .iter()
        .filter(|value| *value * paired.band.middle > 0.0)
        .count();
    let counted = alike as f64 / many.len() as f64;
    assert!(
        (counted - paired.agree).abs() <= 0.08,
        "{what}: {} agree, by counting {counted}",
        paired.agree
    );
}

#[test]
fn differences_of_tippets_and_beads_are_those_of_random_draws() {
    let all = rigs();
    let drift = (Some(metres(0.1)), None);
    let sink = (None, Some(0.9));
    // Free and led, one fly and two.
    for place in [0, 1, 6] {
        let rig = &all[place];
        let tippets = [0.152e-3, 0.127e-3, 0.102e-3].map(|diameter| with_tippet(rig, diameter));
        let beads = [0.0024, 0.0028, 0.0033, 0.0038].map(|bead| with_bead(rig, bead));
        let pairs = [(&tippets[0], &tippets[1]), (&tippets[0], &tippets[2])];
        let of_beads = (1..4).map(|heavier| (&beads[0], &beads[heavier]));
        for (index, (one, other)) in pairs.into_iter().chain(of_beads).enumerate() {
            let what = |figure: &str| format!("rig {place}, pair {index}, {figure}");
            agrees(&what("line"), one, other, drift, |answer| answer.needed);
            agrees(&what("drag"), one, other, drift, |answer| {
                Some(answer.flies[0].lag)
            });
            agrees(&what("seconds"), one, other, sink, |answer| answer.sink);
        }
    }
}
