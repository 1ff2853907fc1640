#[path = "../tests/given/mod.rs"]
mod given;
use given::*;
use snell_water::drift::*;
use snell_water::sink::*;
use std::hint::black_box;
use uom::si::f64::Time;
fn main() {
    let a: Vec<String> = std::env::args().collect();
    let n: usize = a[2].parse().unwrap();
    let g = example("rig_base");
    let (tackle, stream, under) = (g.tackle(), g.stream(), g.under());
    let h = example("held_three_states_up");
    let (ht, hs, hl) = (h.tackle(), h.stream(), h.lead());
    let d = drift(&tackle, &stream, under, Lead::Free).unwrap();
    let reach = Lead::Reach(g.reach().unwrap());
    let wind = Lead::Reach(g.reach_in(Some((4.0, "up"))).unwrap());
    for _ in 0..n {
        match a[1].as_str() {
            "length" => {
                black_box(drift(&tackle, &stream, black_box(under), Lead::Free)).unwrap();
            }
            "height" => {
                black_box(drift(
                    &tackle,
                    &stream,
                    black_box(Under::PointOffBed(metres(0.1))),
                    Lead::Free,
                ))
                .unwrap();
            }
            "states" => {
                black_box(states(&tackle, &stream, black_box(metres(0.85)), &Lead::Free)).unwrap();
            }
            "held" => {
                black_box(states(&ht, &hs, black_box(metres(1.035)), &hl)).unwrap();
            }
            "reach" => {
                black_box(states(&tackle, &stream, black_box(metres(0.85)), &reach)).unwrap();
            }
            "wind" => {
                black_box(states(&tackle, &stream, black_box(metres(0.85)), &wind)).unwrap();
            }
            "tuck" => {
                black_box(sink(
                    &tackle,
                    &stream,
                    &d,
                    Cast::Tuck,
                    0.9,
                    Time::new::<uom::si::time::second>(25.0),
                ));
            }
            "up" => {
                black_box(sink(
                    &tackle,
                    &stream,
                    &d,
                    Cast::Up,
                    0.9,
                    Time::new::<uom::si::time::second>(25.0),
                ));
            }
            "down" => {
                black_box(sink(
                    &tackle,
                    &stream,
                    &d,
                    Cast::Down,
                    0.9,
                    Time::new::<uom::si::time::second>(25.0),
                ));
            }
            _ => {}
        }
    }
}
