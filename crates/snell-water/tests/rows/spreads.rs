//! Rows of draws, bands, shares of variance and differences on the same draws.

use super::Row;
use crate::given::{self, Given, metres, own_folder};
use serde_json::Value;
use snell_water::spread::{Answer, Input, Paired, Spread, Uncertain, draws};
use std::collections::BTreeMap;
use std::sync::Mutex;

pub fn draw(row: &Row) -> Option<f64> {
    let [draw, column] = ["row", "column"].map(|name| row.number(name) as usize);
    Some(draws()[draw][column])
}

/// The spread of an example, or of one of its variants; each is drawn once.
fn spread(example: &str, variant: Option<&str>, name: &str) -> Spread {
    static ALL: Mutex<BTreeMap<String, Spread>> = Mutex::new(BTreeMap::new());
    let sinks = name == "sink_time";
    let name = format!("{example} {variant:?} {sinks}");
    let mut all = ALL.lock().expect("nobody failed while drawing");
    let drawn = all.entry(name).or_insert_with(|| {
        let mut rig: Value = given::read(&own_folder().join(format!("{example}.in.json")));
        let spread = rig["spread"].clone();
        if let Some(variant) = variant {
            let edits = spread["variants"][variant].as_object().expect("a variant");
            for (path, value) in edits {
                let path = format!("/{}", path.replace('.', "/"));
                *rig.pointer_mut(&path).expect("a place of the rig") = value.clone();
            }
        }
        let given: Given = serde_json::from_value(rig).expect("a rig");
        let needed_at = spread["off_bed_m"].as_f64().map(metres);
        let rig = if sinks {
            given.rig_without_tags()
        } else {
            given.rig()
        };
        let (settled, uncertain) = (rig.settles().expect("it drifts"), Uncertain::default());
        let drawn = Spread::of(&rig, settled.shown(), &uncertain);
        let drawn = match needed_at {
            Some(height) => drawn.with_needed(&rig, settled.shown(), &uncertain, height),
            None => drawn,
        };
        if sinks {
            drawn.with_sinks(&rig, &uncertain, 0.9)
        } else {
            drawn
        }
    });
    drawn.clone()
}

fn figure(name: &str) -> fn(&Answer) -> Option<f64> {
    match name {
        "depth" => |answer| Some(answer.flies[0].depth),
        "off_bed" => |answer| Some(answer.flies[0].off_bed),
        "tippet_needed" => |answer| answer.needed,
        "sink_time" => |answer| answer.sink,
        other => panic!("no figure {other}"),
    }
}

pub fn band(row: &Row) -> Option<f64> {
    let (name, at) = row.quantity.split_once(' ').expect("a figure and a share");
    let band = spread(row.word("example"), None, name)
        .band(figure(name))
        .expect("most draws have it");
    Some(match at {
        "p10" => band.low,
        "p50" => band.middle,
        "p90" => band.high,
        _ => row.odd(),
    })
}

fn input(name: &str) -> Input {
    match name {
        "drag of the point" => Input::PointDrag,
        "drag of the others" => Input::OtherDrag,
        "hook and dressing mass" => Input::HookAndDressing,
        "bead mass" => Input::Bead,
        "bed grain" => Input::Grain,
        "surface speed" => Input::Speed,
        "depth" => Input::Depth,
        "line drag" => Input::LineDrag,
        "line diameter" => Input::LineDiameter,
        other => panic!("no input {other}"),
    }
}

pub fn share(row: &Row) -> Option<f64> {
    let name = row
        .quantity
        .strip_prefix("share of variance of ")
        .expect("a share");
    let shares = spread(row.word("example"), None, name).shares(figure(name));
    let wanted = input(row.word("input"));
    Some(
        shares
            .iter()
            .find(|(input, _)| *input == wanted)
            .map_or(0.0, |(_, share)| *share),
    )
}

pub fn pair(row: &Row) -> Option<f64> {
    let (example, variant) = (row.word("example"), row.word("variant"));
    let difference = |name: &str| -> Paired {
        let (one, other) = (spread(example, None, name), spread(example, Some(variant), name));
        other
            .figure(figure(name))
            .over(&one.figure(figure(name)))
            .expect("most draws have it")
    };
    if let Some(name) = row.quantity.strip_prefix("sd of the difference of ") {
        return Some(difference(name).band.deviation);
    }
    let name = row
        .quantity
        .strip_prefix("difference of ")
        .and_then(|rest| rest.strip_suffix(", p50"));
    Some(difference(name.unwrap_or_else(|| row.odd())).band.middle)
}
