//! Flies as a text tells them: what they weigh and how they fall, over all hooks, beads and dressings.

mod support;

use snell_rig::blocks::Read;
use snell_rig::faults::Faults;
use snell_rig::lack::Lack;
use snell_rig::measure::{self, Kind};
use snell_rig::project::Project;
use snell_rig::thing::Thing;
use snell_rig::{Evaluation, World, read};
use snell_syntax::BlockKind;
use support::{project, rigs};

const HOOKS: [&str; 21] = [
    "2/0", "1/0", "1", "2", "4", "5", "6", "7", "8", "10", "11", "12", "13", "14", "15", "16", "18", "20",
    "22", "24", "28",
];
/// Beads that are sold, mm. Source: the trade's table, common practice.
const BEADS: [f64; 10] = [1.5, 2.0, 2.4, 2.8, 3.0, 3.3, 3.5, 3.8, 4.0, 4.6];
/// From the lightest to the heaviest.
const METALS: [&str; 3] = ["brass", "lead", "tungsten"];
const DRESSINGS: [&str; 6] = ["bare", "thread", "slim", "dressed", "hackled", "bushy"];

/// A fly's own lines, as a rig of nothing else.
fn rig_of(lines: &str) -> String {
    let lines: String = lines.lines().map(|line| format!("  {line}\n")).collect();
    format!("fly asked\n{lines}\nrig asked-of\n  tippet 1 m of 5X fluoro\n  point asked\n")
}

fn asked(text: &str, measures: &[&str]) -> Vec<Result<f64, Lack>> {
    let project: Project = project(text);
    let world = World::new(&project);
    let rig = read(
        &world,
        *rigs(&project).last().expect("it has a rig"),
        &Faults::default(),
    );
    let evaluation = Evaluation::new(&world, &rig);
    let (fly, _) = rig.chain.flies().next().expect("it has a fly");
    let ask = |name: &&str| {
        let measure = measure::of(Kind::Fly, name).expect("there is such a measure");
        evaluation
            .measure(measure, Thing::Fly(fly))
            .map(|value| value.si())
    };
    measures.iter().map(ask).collect()
}

/// Mass in mg and fall in m/s; no fall where it floats.
fn told(lines: &str) -> (f64, f64) {
    let told = asked(&rig_of(lines), &["mass", "sinks"]);
    let mass = told[0].as_ref().expect("its parts weigh something");
    (mass * 1e6, told[1].as_ref().map_or(0.0, |speed| *speed))
}

fn falls(lines: &str) -> f64 {
    told(lines).1
}

fn beaded(hook: &str, bead: f64, of: &str, dressing: &str) -> String {
    format!("hook #{hook}\nbead {bead} mm {of}\ndressed {dressing}")
}

/// Source: an independent program of the same equations, worked by others.
#[test]
fn a_14_falls_as_the_table_of_falls_says() {
    let tungsten = [
        (2.0, [0.57, 0.53, 0.43, 0.31]),
        (2.8, [0.75, 0.70, 0.61, 0.45]),
        (3.8, [0.98, 0.94, 0.84, 0.65]),
    ];
    let dressings = ["thread", "slim", "dressed", "hackled"];
    for (bead, speeds) in tungsten {
        for (dressing, speed) in dressings.iter().zip(speeds) {
            let fall = falls(&beaded("14", bead, "tungsten", dressing));
            assert!(
                (fall - speed).abs() < 0.006,
                "{bead} mm {dressing}: {fall}, not {speed}"
            );
        }
    }
    for (dressing, speed) in dressings.iter().zip([0.25, 0.22, 0.18, 0.15]) {
        let fall = falls(&format!("hook #14\ndressed {dressing}"));
        assert!(
            (fall - speed).abs() < 0.006,
            "none, {dressing}: {fall}, not {speed}"
        );
    }
    for (dressing, speed) in dressings.iter().zip([0.54, 0.51, 0.44, 0.32]) {
        let fall = falls(&beaded("14", 2.8, "brass", dressing));
        assert!(
            (fall - speed).abs() < 0.006,
            "brass, {dressing}: {fall}, not {speed}"
        );
    }
}

#[test]
fn every_hook_weighs_something_and_less_the_smaller_it_is() {
    let masses = HOOKS.map(|hook| told(&format!("hook #{hook}\ndressed bare")).0);
    assert!(masses.windows(2).all(|pair| pair[1] < pair[0]), "{masses:?}");
    // Source: nwcutthroat.com, hooks of #14 weighed at 50 to 60 mg; by their size they may differ by 35 %.
    let of_14 = told("hook #14\ndressed bare").0;
    assert!((of_14 / 55.0 - 1.0).abs() < 0.35, "{of_14}");
}

#[test]
fn what_is_no_hook_has_no_mass_and_says_so() {
    for hook in ["99", "44/0"] {
        let told = asked(&rig_of(&format!("hook #{hook}")), &["mass"]);
        assert!(matches!(&told[0], Err(Lack::Unknown(_))), "#{hook}: {told:?}");
    }
}

#[test]
fn a_heavier_bead_never_falls_slower_on_one_hook_and_dressing() {
    for hook in HOOKS {
        for dressing in DRESSINGS {
            let none = falls(&format!("hook #{hook}\ndressed {dressing}"));
            for of in METALS {
                let speeds = BEADS.map(|bead| falls(&beaded(hook, bead, of, dressing)));
                let slower = speeds.windows(2).find(|pair| pair[1] < pair[0] * (1.0 - 1e-9));
                assert!(slower.is_none(), "#{hook} {dressing} {of}: {speeds:?}");
                assert!(
                    speeds[0] >= none,
                    "#{hook} {dressing} {of}: {} and {none}",
                    speeds[0]
                );
            }
            for bead in [1.5, 2.8, 4.6] {
                let by_metal = METALS.map(|of| falls(&beaded(hook, bead, of, dressing)));
                assert!(by_metal.is_sorted(), "#{hook} {dressing} {bead} mm: {by_metal:?}");
            }
        }
    }
}

#[test]
fn at_one_weight_a_bulkier_fly_never_falls_faster() {
    let order = ["thread", "slim", "dressed", "bushy"];
    for hook in ["1/0", "8", "12", "14", "18", "24"] {
        for bead in [2.0, 2.8, 3.8] {
            let speeds = order.map(|dressing| {
                falls(&format!(
                    "{}\nmass 0.9 g",
                    beaded(hook, bead, "tungsten", dressing)
                ))
            });
            assert!(
                speeds.windows(2).all(|pair| pair[1] <= pair[0]),
                "#{hook} {bead} mm: {speeds:?}"
            );
        }
    }
}

/// What was seen before flies were told by their parts: one fell at the speed of its bead's envelope.
#[test]
fn brass_does_not_outsink_twice_its_size_in_tungsten_nor_a_large_hook_a_small_one() {
    for dressing in DRESSINGS {
        let brass = falls(&beaded("14", 1.5, "brass", dressing));
        let tungsten = falls(&beaded("14", 3.3, "tungsten", dressing));
        assert!(brass < tungsten, "{dressing}: {brass} {tungsten}");
        let (large, small) = (
            falls(&beaded("8", 2.8, "tungsten", dressing)),
            falls(&beaded("20", 2.8, "tungsten", dressing)),
        );
        assert!(large < small, "{dressing}: {large} {small}");
    }
}

#[test]
fn a_timed_fly_falls_as_it_was_timed_and_a_weighed_one_weighs_what_was_found() {
    let (mass, speed) = told("hook #14\nbead 2.8 mm tungsten\nmass 0.25 g\nsinks 0.40 m/s");
    assert!((mass - 250.0).abs() < 1e-6, "{mass}");
    assert!((speed - 0.40).abs() < 1e-9, "{speed}");
}

/// A box of dubbed flies that fall at so many metres a second, and a rig of an untimed one.
fn box_of(sinks: &[f64], asked: &str) -> String {
    let timed = sinks.iter().enumerate().map(|(place, speed)| {
        let bead = 2.4 + 0.4 * place as f64;
        format!("fly timed-{place}\n  hook #14\n  bead {bead} mm tungsten\n  dressed dressed\n  sinks {speed} m/s\n\n")
    });
    timed.collect::<String>() + &rig_of(asked)
}

/// What the last rig's fly falls at, between what, and what was taken for its drag.
fn fall_and_reason(text: &str) -> (f64, f64, String) {
    support::with_last(text, |evaluation| {
        let (fly, _) = evaluation.rig.chain.flies().next().expect("it has a fly");
        let sinks = measure::of(Kind::Fly, "sinks").expect("there is such a measure");
        let told = evaluation.measure(sinks, Thing::Fly(fly)).expect("it sinks");
        let between = sinks
            .between(evaluation, Thing::Fly(fly), &told)
            .expect("it is drawn");
        let speed = told.si();
        let assumed = evaluation.all_assumed().into_iter();
        let reasons = assumed.filter(|one| one.what.starts_with("the drag of"));
        let reasons: Vec<String> = reasons.map(|one| format!("{}: {}", one.value, one.why)).collect();
        (speed, (between.high - between.low) / speed, reasons.join(", "))
    })
}

const UNTIMED: &str = "hook #12\nbead 3.3 mm tungsten\ndressed dressed";

#[test]
fn three_timed_flies_of_a_dressing_tell_an_untimed_one_and_two_do_not() {
    let (alone, width, none) = fall_and_reason(&box_of(&[], UNTIMED));
    assert_eq!(none, "");
    // By their parts these fall at 0.52, 0.61 and 0.70 m/s.
    assert_eq!(
        fall_and_reason(&box_of(&[0.42, 0.49], UNTIMED)),
        (alone, width, none)
    );
    let (told, narrower, why) = fall_and_reason(&box_of(&[0.42, 0.49, 0.57], UNTIMED));
    assert!(told < 0.95 * alone && told > 0.8 * alone, "{told} of {alone}");
    assert!(narrower < 0.9 * width, "{narrower} of {width}");
    assert!(
        why.contains("as 3 timed flies that are dressed alike have it"),
        "{why}"
    );
}

#[test]
fn timings_tell_nothing_of_another_dressing_nor_of_a_timed_fly() {
    let timings = [0.42, 0.49, 0.57];
    let slim = UNTIMED.replace("dressed dressed", "dressed slim");
    assert_eq!(
        fall_and_reason(&box_of(&timings, &slim)),
        fall_and_reason(&box_of(&[], &slim))
    );
    let (speed, _, why) = fall_and_reason(&box_of(&timings, &format!("{UNTIMED}\nsinks 0.6 m/s")));
    assert!(
        (speed - 0.6).abs() < 1e-9 && why.contains("it was timed"),
        "{speed} {why}"
    );
}

/// What a fly has from another was timed on that one, and a slip of the watch is no timing.
#[test]
fn a_timing_counts_once_and_only_where_it_can_be() {
    let two = box_of(&[0.42, 0.49], UNTIMED);
    let alone = fall_and_reason(&two);
    let made_from = "fly again from timed-0\n  bead 2.8 mm tungsten\n\n";
    assert_eq!(fall_and_reason(&(made_from.to_owned() + &two)), alone);
    assert_eq!(fall_and_reason(&box_of(&[0.42, 0.49, 5.7], UNTIMED)), alone);
}

#[test]
fn a_weighed_fly_without_a_hook_has_the_one_that_its_bead_goes_on() {
    let shown = told("bead 2.8 mm tungsten\nmass 0.25 g");
    assert_eq!(shown, told("hook #16\nbead 2.8 mm tungsten\nmass 0.25 g"));
}

/// The shelf and the water crate both tell the dressings; people read the one, the mechanics' own tests the other.
#[test]
fn the_shelf_tells_the_dressings_that_the_water_was_tested_with() {
    let project = Project::default();
    let world = World::new(&project);
    for (name, dressing) in snell_water::fly::DRESSINGS {
        let id = world.shipped(BlockKind::Dressing, name).expect("it ships");
        let Read::Dressing(shipped) = world.read(id) else {
            panic!("{name} is a dressing");
        };
        let figures = [&shipped.bulk, &shipped.solid, &shipped.fibres];
        let figures = figures.map(|figure| figure.as_ref().expect("it is said").si());
        assert_eq!(
            figures,
            [dressing.bulk, dressing.solid, dressing.fibres],
            "{name}"
        );
    }
}
