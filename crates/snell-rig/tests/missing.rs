//! What a rig leaves unsaid, as data and in words.

mod support;

use snell_rig::assumed::{Eyes, Usual, UsualKnot};
use snell_rig::lack::Lack;
use snell_rig::measure::{self, Kind};
use snell_rig::missing::{Of, Unsaid};
use snell_rig::thing::Thing;
use support::with_last;

/// What a measure of the first thing of a kind lacks: as data, and in words.
fn lacks(text: &str, kind: Kind, name: &str) -> (Vec<(Unsaid, Of)>, Vec<String>) {
    with_last(text, |evaluation| {
        let chain = &evaluation.rig.chain;
        let thing = match kind {
            Kind::Section => chain.sections().next().map(|(id, _)| Thing::Section(id)),
            Kind::Fly => chain.flies().next().map(|(id, _)| Thing::Fly(id)),
            Kind::Join => chain.joins().next().map(Thing::Join),
            Kind::Dropper => chain.droppers().next().map(Thing::Dropper),
            Kind::Gap => chain.gaps().next().map(Thing::Gap),
            Kind::Shot => chain.shots().next().map(Thing::Shot),
            Kind::Rig | Kind::Rod | Kind::Water => Some(Thing::Rig),
        };
        let measure = measure::of(kind, name).expect("there is such a measure");
        match evaluation.measure(measure, thing.expect("there is such a thing")) {
            Err(Lack::Unknown(missing)) => (
                missing.iter().map(|one| (one.what, one.of)).collect(),
                evaluation
                    .words_of_all(&missing)
                    .iter()
                    .map(ToString::to_string)
                    .collect(),
            ),
            other => panic!("{name} is {other:?}"),
        }
    })
}

fn words(text: &str, kind: Kind, name: &str) -> Vec<String> {
    lacks(text, kind, name).1
}

const BARE: &str = "rig bare\n  tippet of 6X\n  tippet 20 in of 5X\n  point bracken\n\nfly bracken\n  bead 2.8 mm tungsten\n";

fn bare() -> String {
    // The rig stands last, so that it is the one that is asked.
    let (rig, fly) = BARE.split_once("\n\n").expect("there are two blocks");
    format!("{fly}\n{rig}\n").replace("tippet of 6X", "line of 6X")
}

#[test]
fn each_is_said_of_its_thing() {
    let text = bare();
    assert_eq!(words(&text, Kind::Section, "length"), ["the length of the line"]);
    assert_eq!(
        words(&text, Kind::Section, "rated"),
        ["the rated strength of the line"]
    );
    assert_eq!(
        words(&text, Kind::Section, "strength"),
        ["the strength of the line"]
    );
    assert_eq!(
        words(&text, Kind::Fly, "mass"),
        ["the hook or the mass of bracken"]
    );
    assert_eq!(words(&text, Kind::Rig, "depth"), ["a water"]);
    assert_eq!(
        words(&text, Kind::Rig, "run-borne"),
        ["the strength of the tippet"]
    );
    let (data, _) = lacks(&text, Kind::Rig, "depth");
    assert_eq!(data, [(Unsaid::Water, Of::Rig)]);
}

#[test]
fn a_block_is_named_where_its_line_is_missing() {
    let text =
        "water pool\n  depth 3 ft\n\nrig wet\n  water pool\n  tippet 3 ft of 6X fluoro\n  point #14 0.2 g\n";
    assert_eq!(
        words(text, Kind::Rig, "wading"),
        ["the `surface` of the water `pool`"]
    );
}

#[test]
fn what_a_rig_need_not_have_is_told_apart() {
    let text = bare();
    let (data, words) = lacks(&text, Kind::Rig, "float-to-point");
    assert_eq!(
        (words.as_slice(), data[0].0.is_of_other_kind()),
        (&["a float".to_owned()][..], true)
    );
    assert!(!lacks(&text, Kind::Rig, "depth").0[0].0.is_of_other_kind());
}

#[test]
fn every_lack_of_one_value_is_told_once() {
    let text = "rig two\n  tippet of 6X\n";
    assert_eq!(
        words(&text.replace("tippet of", "line of"), Kind::Section, "mass").len(),
        2
    );
}

#[test]
fn usual_knots_are_assumed_where_none_is_named() {
    let text = "rig tied\n  line of #2\n  butt 60 in of 0.28 mm nylon\n  ring 2 mm\n  tippet 20 in of 6X fluoro\n  swivel\n  tippet 20 in of 5X fluoro\n  point #14 0.2 g\n";
    with_last(text, |evaluation| {
        for id in evaluation.rig.chain.joins() {
            let _ = evaluation.join_kind(id);
        }
        let assumed: Vec<Usual> = evaluation.assumed().iter().map(|one| one.what).collect();
        let wanted = [
            Usual::Knot(UsualKnot::LineToLeader),
            Usual::EyeKnots(Eyes::Ring),
            Usual::EyeKnots(Eyes::Swivel),
        ];
        assert_eq!(assumed, wanted);
        let words = evaluation.all_assumed();
        let told: Vec<&str> = words.iter().map(|one| one.what.as_str()).collect();
        assert_eq!(
            told,
            [
                "the knot line to butt",
                "the knots of the ring, butt to tippet 1",
                "the knots of the swivel, tippet 1 to tippet 2",
            ]
        );
        assert_eq!(words[0].value, "nail");
    });
}
