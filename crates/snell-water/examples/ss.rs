#[path = "../tests/given/mod.rs"]
mod given;
use given::*;
use snell_water::drift::*;
use snell_water::sink::*;
use uom::si::f64::Time;
fn main() {
    for (name, depths) in [
        ("held_back", vec![0.31605, 0.47408, 0.5689]),
        ("rig_base", vec![0.408372, 0.612558, 0.73507]),
        ("held_three_states_tuck", vec![0.36607, 0.5491, 0.65892]),
    ] {
        let g = example(name);
        for tags in [false] {
            let (tackle, stream) = (
                if tags { g.tackle() } else { g.tackle_without_tags() },
                g.stream(),
            );
            let d = states(
                &g.tackle(),
                &stream,
                metres(g.drift.submerged_length_m.unwrap()),
                &g.lead(),
            )
            .unwrap();
            let d = &d.last().unwrap().drift;
            let s = sink(
                &tackle,
                &stream,
                d,
                g.cast(),
                0.95,
                Time::new::<uom::si::time::second>(25.0),
            );
            print!("{name} tags {tags}: ");
            for x in &depths {
                print!("{:.4} ", s.reaches(metres(*x)).map_or(0.0, |t| t.value));
            }
            println!();
        }
    }
}
