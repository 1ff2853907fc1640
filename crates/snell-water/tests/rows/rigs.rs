//! Rows of whole rigs in their drift, their states and their sink.

use super::Row;
use crate::given::{Given, example, metres};
use snell_water::drift::{Drift, Standing, State, drift, states};
use snell_water::sink::sink;
use uom::si::f64::Time;
use uom::si::force::newton;
use uom::si::time::second;

fn all(given: &Given) -> Vec<State> {
    let (tackle, stream) = (given.tackle(), given.stream());
    match given.drift.submerged_length_m {
        Some(length) => states(&tackle, &stream, metres(length), &given.lead()).expect("there are states"),
        None => {
            let drift = drift(&tackle, &stream, given.under(), given.lead()).expect("it drifts");
            vec![State {
                standing: Standing::Stable,
                drift,
            }]
        }
    }
}

/// The state that the rig's own cast comes to, as the crate tells it.
fn settled(given: &Given) -> Drift {
    let states = all(given);
    if states.len() == 1 {
        return states.into_iter().next().expect("there is one").drift;
    }
    let rig = given.rig();
    rig.settles().expect("it settles").shown().drift.clone()
}

/// The fly that the last word of a quantity names.
fn fly(given: &Given, quantity: &str) -> usize {
    let name = quantity.rsplit(' ').next().expect("a name");
    let place = given
        .flies
        .iter()
        .position(|fly| fly.name.as_deref() == Some(name));
    place.unwrap_or_else(|| panic!("no fly {name}"))
}

pub fn steady(row: &Row) -> Option<f64> {
    let given = example(row.word("example"));
    let drift = settled(&given);
    Some(match row.quantity.as_str() {
        "V_top_N" => drift.load.get::<newton>(),
        "H_top_N" => drift.pull.get::<newton>(),
        "c_mps" => drift.speed.value,
        depth if depth.starts_with("depth_m ") => drift.rides[fly(&given, depth)].depth.value,
        offset if offset.starts_with("offset_from_entry_m ") => drift.rides[fly(&given, offset)].ahead.value,
        _ => row.odd(),
    })
}

pub fn float(row: &Row) -> Option<f64> {
    let given = example(row.word("example"));
    let drift = settled(&given);
    let (float, stream) = (given.float().expect("it has a float"), given.stream());
    let rides = float.under(drift.load, stream.profile.surface() - drift.speed, &stream.fluid);
    Some(match row.quantity.as_str() {
        "lift_used" => rides.share.value,
        "slip" => rides.slip.value,
        "immersed_m" => rides.immersed.value,
        _ => row.odd(),
    })
}

pub fn state(row: &Row) -> Option<f64> {
    let states = all(&example(row.word("example")));
    let wanted = |state: &&State| match row.inputs.get("stable") {
        Some(stable) => stable.as_bool() == Some(state.stays()),
        None => true,
    };
    // Where several are of one kind the row is of the one that is nearest.
    let nearest = |of: fn(&State) -> f64| {
        let off = |state: &&State| (of(state) - row.expected).abs();
        let state = states
            .iter()
            .filter(wanted)
            .min_by(|a, b| off(a).total_cmp(&off(b)));
        of(state.expect("there is one of its kind"))
    };
    Some(match row.quantity.as_str() {
        "number of steady states" => states.len() as f64,
        "height of the point m" => nearest(|state| state.drift.rides[0].off_bed.value),
        "bed reaction N" => nearest(|state| match state.standing {
            Standing::OnBed { bears, .. } => bears.get::<newton>(),
            Standing::Stable | Standing::Unstable => 0.0,
        }),
        _ => row.odd(),
    })
}

pub fn sink_time(row: &Row) -> Option<f64> {
    let given = example(row.word("example"));
    let drift = settled(&given);
    // The reference leaves tags out of the sink: a fly hangs where its tag is tied.
    let (tackle, stream) = (given.tackle_without_tags(), given.stream());
    let longest = Time::new::<second>(given.transient.t_end_s);
    let sunk = sink(&tackle, &stream, &drift, given.cast(), 0.95, longest);
    let time = sunk.reaches(metres(row.number("depth_m")));
    Some(time.expect("it gets there").value)
}
