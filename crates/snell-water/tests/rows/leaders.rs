//! Rows of air, wind, and the line between water and tip.

use super::Row;
use crate::given::{Given, air, density, example as rig, force, metres, speed};
use snell_water::drift::{Drift, Lead, across, leader, states};
use snell_water::leader::{Hanging, Reach, Shear, Wind, hang};
use snell_water::sag::{self, Curve, From};
use snell_water::windy::{Blows, blown_aside, greatest_wind};
use snell_water::{BeyondTip, Strand};
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::ratio::ratio;

pub fn air_row(row: &Row) -> Option<f64> {
    let air = air(row.number("temp_C"));
    Some(match row.quantity.as_str() {
        "density kg/m3" => air.density().value,
        "viscosity Pa s" => air.viscosity().value,
        _ => row.odd(),
    })
}

pub fn profile(row: &Row) -> Option<f64> {
    let wind = Wind::new(speed(1.0), speed(0.0), metres(row.number("at_m")), air(15.0));
    let shear = match row.word("profile") {
        "log" => {
            assert_eq!(row.number("z0_m"), 0.2e-3, "{}: the water's own", row.id);
            Shear::OverWater
        }
        "power" => Shear::Power,
        other => panic!("{}: no law {other}", row.id),
    };
    Some(wind.with(shear).share_at(metres(row.number("height_m"))))
}

pub fn on_line(row: &Row) -> Option<f64> {
    let strand = Strand::new(
        metres(100.0),
        metres(row.number("diameter_mm") * 1e-3),
        density(1140.0),
    );
    let air = air(row.number("temp_C"));
    Some(snell_water::leader::broadside(&strand, speed(row.number("wind_mps")), &air).value)
}

fn one_line(row: &Row) -> Strand {
    Strand::new(
        metres(100.0),
        metres(row.number("d_mm") * 1e-3),
        density(row.number("density")),
    )
}

fn hangs(row: &Row, side: f64, wind: Option<Wind>) -> Hanging {
    let reach = Reach {
        along: metres(side * row.number("reach_m")),
        tip: metres(row.number("tip_height_m")),
        wind,
    };
    let goes = speed(row.maybe("leader_speed_mps").unwrap_or(0.0));
    let found = hang(&reach, &[one_line(row)], force(row.number("V_N")), goes);
    found.unwrap_or_else(|| panic!("{}: it does not hang", row.id))
}

/// The pull of a leader in air that does nothing.
pub fn hangs_calm(row: &Row) -> Option<f64> {
    Some(hangs(row, 1.0, None).pull[0].get::<newton>())
}

pub fn blown(row: &Row) -> Option<f64> {
    let side = match row.word("tip") {
        "upstream" => -1.0,
        "downstream" => 1.0,
        other => panic!("{}: no side {other}", row.id),
    };
    let [along, aside] =
        ["wind_downstream_mps", "wind_across_mps"].map(|name| row.maybe(name).unwrap_or(0.0));
    let height = metres(row.number("tip_height_m"));
    let wind = Wind::new(speed(along), speed(aside), height, air(15.0));
    // Where nothing blows and nothing moves the row is of the catenary.
    let moves = along != 0.0 || aside != 0.0 || row.maybe("leader_speed_mps") != Some(0.0);
    let found = hangs(row, side, moves.then_some(wind));
    Some(match row.quantity.as_str() {
        "H N" | "H N (on the rig, + downstream)" => found.pull[0].get::<newton>(),
        // Told as what the leader pulls with against the wind.
        "sideways pull N" => found.pull[1].get::<newton>().abs(),
        "bow m" => found.bow.get::<meter>(),
        _ => row.odd(),
    })
}

/// The lowest state that a rig stays in under a reach, and its leader.
fn led(given: &Given, reach: &Reach) -> (Drift, Hanging) {
    let rig = given.rig();
    let states =
        states(&rig.tackle, &rig.stream, rig.length, &Lead::Reach(*reach)).expect("there are states");
    let drift = states
        .into_iter()
        .find(|state| state.stays())
        .expect("it stays in one")
        .drift;
    let hangs = leader(&rig.tackle, &drift, reach).expect("it hangs");
    (drift, hangs)
}

fn aside(given: &Given, reach: &Reach) -> Drift {
    let rig = given.rig();
    across(&rig.tackle, &rig.stream, given_under(given), reach).expect("it is drawn aside")
}

fn given_under(given: &Given) -> snell_water::drift::Under {
    snell_water::drift::Under::Length(given.rig().length)
}

pub fn example(row: &Row) -> Option<f64> {
    let given = rig(row.word("example"));
    let reach = given.reach().expect("it has a reach");
    let still = || {
        let rig = given.rig();
        let held = Lead::Speed(speed(0.0));
        states(&rig.tackle, &rig.stream, rig.length, &held).expect("there are states")[0]
            .drift
            .clone()
    };
    Some(match row.quantity.as_str() {
        "led point_depth_m" => led(&given, &reach).0.rides[0].depth.value,
        "led c_mps" => led(&given, &reach).0.speed.value,
        "led H_N" => led(&given, &reach).0.pull.value,
        "still point_depth_m" => still().rides[0].depth.value,
        "still H_N" => still().pull.value,
        _ => row.odd(),
    })
}

/// The rig of the grid, with a leader of one size above its sighter.
fn on_grid(row: &Row) -> Given {
    assert_eq!(row.word("rig"), "base rig of gen_wind_examples", "{}", row.id);
    let mut given = rig("wind_up2_028_45");
    given.sections[0].diameter_m = row.number("butt_mm") * 1e-3;
    let air = given.air.as_mut().expect("it has a reach");
    air.entry_distance_m = row.number("reach_m");
    air.tip_height_m = row.number("tip_height_m");
    given
}

pub fn grid(row: &Row) -> Option<f64> {
    let given = on_grid(row);
    let (at, blows) = (row.number("wind_mps"), row.word("blows"));
    let calm = given.reach().expect("it has a reach");
    let windy = |blows: &str| given.reach_in(Some((at, blows))).expect("it has a reach");
    if row.quantity == "point_depth_m by the resultant pull" {
        let (drift, _) = blown_aside(&given.rig(), &windy("beam")).expect("it drifts");
        return Some(drift.rides[0].depth.value);
    }
    // Tip across: towards it is along the leader.
    let towards = |sign: f64| {
        let wind = Wind::new(speed(sign * at), speed(0.0), calm.tip, air(15.0));
        Reach {
            wind: Some(wind),
            ..calm
        }
    };
    let plane = match blows {
        "across calm" => Some(calm),
        "in" => Some(towards(1.0)),
        "out" => Some(towards(-1.0)),
        _ => None,
    };
    let (drift, hangs) = match plane {
        Some(reach) => {
            let drift = aside(&given, &reach);
            let reach = Reach {
                along: reach.along.abs(),
                ..reach
            };
            let hangs = leader(&given.rig().tackle, &drift, &reach).expect("it hangs");
            (drift, hangs)
        }
        None => led(&given, &if blows == "calm" { calm } else { windy(blows) }),
    };
    Some(match row.quantity.as_str() {
        "point_depth_m" => drift.rides[0].depth.value,
        "c_mps" | "sideways speed m/s" => drift.speed.value,
        "bow m" => hangs.bow.value,
        "sideways pull N" => hangs.pull[1].value.abs(),
        _ => row.odd(),
    })
}

/// The wind that an example tells.
fn told(given: &Given) -> (f64, String) {
    let wind = given
        .air
        .as_ref()
        .and_then(|air| air.wind.as_ref())
        .expect("it has a wind");
    (wind.speed_mps, wind.blows.clone())
}

pub fn wind_example(row: &Row) -> Option<f64> {
    let given = rig(row.word("example"));
    let (at, blows) = told(&given);
    let still_air = given.reach_in(None).expect("it has a reach");
    let windy = given.reach_in(Some((at, &blows))).expect("it has a reach");
    if let Some(way) = row.quantity.strip_prefix("greatest wind ") {
        return Some(greatest(&given, way.split(' ').next().expect("a way")));
    }
    let (which, figure) = row.quantity.split_once(' ').unwrap_or(("led", &row.quantity));
    match which {
        "tip" => return Some(rests(&given, &windy)),
        "resultant" => {
            let (drift, _) = blown_aside(&given.rig(), &windy).expect("it drifts");
            return Some(drift.rides[0].depth.value);
        }
        _ => {}
    }
    let (drift, hangs) = led(&given, if which == "still_air" { &still_air } else { &windy });
    Some(match figure {
        "point_depth_m" => drift.rides[0].depth.value,
        "c_mps" => drift.speed.value,
        "H_N" => drift.pull.value,
        "V_N" => drift.load.value,
        "Hy_N" => hangs.pull[1].value.abs(),
        "line_in_air_m" => hangs.length.value,
        "bow_m" => hangs.bow.value,
        _ => row.odd(),
    })
}

/// How far downstream of the tip a rig comes to rest when the tip is held still.
fn rests(given: &Given, reach: &Reach) -> f64 {
    let rig = given.rig();
    let held = Lead::Speed(speed(0.0));
    let found = states(&rig.tackle, &rig.stream, rig.length, &held).expect("there are states");
    -leader(&rig.tackle, &found[0].drift, reach)
        .expect("it hangs")
        .along
        .get::<meter>()
}

fn greatest(given: &Given, way: &str) -> f64 {
    let blows = match way {
        "up" => Blows::Up,
        "down" => Blows::Down,
        "beam" => Blows::Across,
        "in" => Blows::In,
        "out" => Blows::Out,
        other => panic!("no way {other}"),
    };
    let reach = given.reach().expect("it has a reach");
    let wind = given
        .air
        .as_ref()
        .and_then(|air| air.wind.as_ref())
        .expect("it has a wind");
    let height = wind.at_m.map_or(reach.tip, metres);
    let most = greatest_wind(
        &given.rig(),
        &reach,
        blows,
        Ratio::new::<ratio>(0.75),
        height,
        air(15.0),
    );
    most.expect("a storm is too much").value
}

pub fn cast(row: &Row) -> Option<f64> {
    let given = rig(row.word("example"));
    let (at, blows) = told(&given);
    let (calm, figure) = match row.quantity.strip_prefix("no wind: ") {
        Some(figure) => (true, figure),
        None => (false, row.quantity.as_str()),
    };
    let windy = given.reach_in(Some((at, &blows))).expect("it has a reach");
    let (_, hangs) = led(
        &given,
        &if calm {
            given.reach().expect("it has a reach")
        } else {
            windy
        },
    );
    let carried: BeyondTip = given.rig().beyond_tip(hangs.length);
    Some(match figure {
        "leader_kg" => carried.leader.value,
        "flies_kg" => carried.flies.value,
        "flies_share" => carried.share_of_flies().value,
        "line_out_m" => carried.line_out.value,
        _ => row.odd(),
    })
}

pub fn sag(row: &Row) -> Option<f64> {
    let tip = row.maybe("H").unwrap_or(0.0);
    let air = sag::Air::new(
        &[one_line_of_a_metre(row)],
        From::Tip,
        metres(row.number("D")),
        metres(tip),
    );
    let air = air.expect("there is line in the air");
    let with_length = || -> Curve {
        air.with_length(metres(row.number("L")))
            .expect("the line is longer than its chord")
    };
    Some(match row.quantity.as_str() {
        "Th_N" => with_length().pull.get::<newton>(),
        "V_tip_N" => with_length().at_tip.get::<newton>(),
        "sag_m" => air
            .under(force(row.number("Th")))
            .expect("it spans")
            .sag
            .get::<meter>(),
        _ => row.odd(),
    })
}

fn one_line_of_a_metre(row: &Row) -> Strand {
    one_line(row).of_length(metres(1.0))
}
