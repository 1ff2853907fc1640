//! How parts lie on the line, and what they are called.

mod support;

use proptest::prelude::*;
use snell_rig::keywords::SectionRole;
use snell_rig::rig::{FlyAt, PartId, Rig};
use snell_rig::thing::Thing;
use support::{last_rig, told};

const FULL: &str = "rig full
  line    of #2
  butt    60 in of 0.28 mm nylon
  taper   24 in of 0.25 mm nylon
  taper   24 in of 0.22 mm nylon as thin
  sighter 15 in of 0.20 mm nylon, pink
  ring    2 mm
  tippet  32 in of 6X fluoro
  knot    blood with tags 1 in
  dropper 8 in  with #16 2 mm tungsten as tag
  shot    0.2 g tin
  tippet  20 in of 6X fluoro
  inline  #16 0.1 g
  tippet  10 in of 6X fluoro
  point   #14 2.8 mm tungsten
";

fn names(rig: &Rig<'_>) -> Vec<String> {
    let parts = rig.chain.parts();
    let name = |(id, _): (PartId, _)| match id {
        PartId::Section(id) => rig.chain.section_name(id),
        PartId::Knot(id) => format!("knot of {}", rig.chain.join_name(id)),
        PartId::Ring(id) => format!("ring of {}", rig.chain.join_name(id)),
        PartId::Swivel(id) => format!("swivel of {}", rig.chain.join_name(id)),
        PartId::Dropper(id) => rig.chain.dropper_name(id),
        PartId::Inline(id) | PartId::Point(id) => rig.chain.fly_name(id),
        PartId::Shot(_) => "shot".to_owned(),
        PartId::Float(_) => "float".to_owned(),
    };
    parts.map(name).collect()
}

#[test]
fn parts_stand_in_the_order_written() {
    last_rig(FULL, |rig| {
        assert_eq!(
            names(rig),
            [
                "line",
                "butt",
                "taper 1",
                "thin",
                "sighter",
                "ring of sighter to tippet 1",
                "tippet 1",
                "knot of tippet 1 to tippet 2",
                "tag",
                "shot",
                "tippet 2",
                "#16 0.1 g",
                "tippet 3",
                "#14 2.8 mm tungsten",
            ]
        );
    });
}

#[test]
fn a_join_knows_all_that_lies_in_it() {
    last_rig(FULL, |rig| {
        let chain = &rig.chain;
        let joins: Vec<_> = chain.joins().collect();
        assert_eq!(joins.len() + 1, chain.sections().len());
        let (ringed, tagged, inline) = (chain.join(joins[4]), chain.join(joins[5]), chain.join(joins[6]));
        assert!(ringed.ring.is_some() && ringed.knot.is_none() && ringed.dropper.is_none());
        assert!(tagged.knot.is_some() && tagged.tags.is_some() && tagged.ring.is_none());
        let dropper = chain.dropper(tagged.dropper.expect("it has a dropper"));
        assert_eq!((dropper.join, dropper.fly.number()), (joins[5], 0));
        assert_eq!(inline.inline.map(|fly| chain.fly(fly).at), Some(FlyAt::Inline));
    });
}

/// A surgeon's knot holds no fly: it joins two lines, and one of its ends is left as the tag. Common practice, no source.
#[test]
fn on_a_dropper_a_knot_of_two_lines_is_that_of_its_join() {
    let knots = |knot: &str| {
        let text = format!(
            "rig a\n  tippet 3 ft of 6X fluoro\n  dropper 6 in on {knot} with #16 2 mm tungsten\n  tippet 2 ft of 6X fluoro\n  \
             point #14 3 mm tungsten\n"
        );
        last_rig(&text, |rig| {
            let join = rig.chain.joins().next().expect("two tippets meet");
            let (_, fly) = rig.chain.flies().next().expect("it has a dropper");
            (rig.chain.join(join).knot.is_some(), fly.tied.knot.is_some())
        })
    };
    assert_eq!(knots("triple-surgeon"), (true, false));
    assert_eq!(knots("water-knot"), (true, false));
    assert_eq!(knots("clinch"), (false, true));
}

#[test]
fn places_count_the_pieces_above() {
    last_rig(FULL, |rig| {
        let chain = &rig.chain;
        let flies: Vec<usize> = chain.flies().map(|(_, fly)| fly.place.number()).collect();
        assert_eq!(flies, [6, 7, 8]);
        let shots: Vec<usize> = chain.shots().map(|id| chain.shot(id).place.number()).collect();
        assert_eq!(shots, [6]);
        assert_eq!(chain.point().map(|id| id.number()), Some(2));
        let gaps: Vec<String> = chain.gaps().map(|id| rig.name_of(Thing::Gap(id))).collect();
        assert_eq!(
            gaps,
            [
                "#16 2 mm tungsten to #16 0.1 g",
                "#16 0.1 g to #14 2.8 mm tungsten"
            ]
        );
    });
}

#[test]
fn what_has_no_place_is_told_and_let_go() {
    let text = "rig odd\n  ring 2 mm\n  tippet 40 in of 6X fluoro\n  dropper 6 in with #16 0.1 g\n";
    assert_eq!(
        told(text),
        [
            "2: part-unattached: this ring has no line above it",
            "4: part-unattached: nothing follows that this could join",
        ]
    );
    last_rig(text, |rig| {
        assert_eq!(names(rig), ["tippet"]);
        assert!(rig.broken && rig.chain.flies().len() == 0);
    });
}

#[test]
fn a_label_given_twice_is_told_at_the_later_line() {
    let text = "rig twice\n  tippet 40 in of 6X fluoro\n  shot 0.2 g tin as low\n  tippet 20 in of 6X fluoro as low\n";
    assert_eq!(
        told(text),
        ["4: name-twice: this rig has two things called `low`"]
    );
}

const LINES: [&str; 10] = [
    "butt 60 in of 0.28 mm nylon",
    "tippet 32 in of 6X fluoro",
    "sighter 15 in of 0.20 mm nylon",
    "ring 2 mm",
    "swivel 7 mm",
    "knot blood",
    "dropper 8 in with #16 0.1 g",
    "inline #16 0.1 g",
    "shot 0.2 g tin",
    "point #14 0.2 g",
];

proptest! {
    /// Whatever is written in whatever order, the chain holds together and no number leads astray.
    #[test]
    fn any_parts_make_a_chain(picked in prop::collection::vec(0..LINES.len(), 0..14)) {
        let lines: Vec<&str> = picked.iter().map(|at| LINES[*at]).collect();
        let text = format!("rig any\n  {}\n", lines.join("\n  "));
        last_rig(&text, |rig| {
            let chain = &rig.chain;
            let first = chain.parts().next().map(|(id, _)| id);
            assert!(matches!(first, None | Some(PartId::Section(_))), "{text}");
            let roles = chain.sections().map(|(_, section)| section.role);
            let tippets = roles.filter(|role| *role == SectionRole::Tippet).count();
            for (id, part) in chain.parts() {
                let thing = match id {
                    PartId::Section(id) => Thing::Section(id),
                    PartId::Dropper(id) => Thing::Dropper(id),
                    PartId::Inline(id) | PartId::Point(id) => Thing::Fly(id),
                    PartId::Shot(id) => Thing::Shot(id),
                    PartId::Knot(id) | PartId::Ring(id) | PartId::Swivel(id) => {
                        assert!(chain.joins().any(|join| join == id), "{text}");
                        continue;
                    }
                    PartId::Float(_) => continue,
                };
                let own = chain.part_of(thing).map(|part| part.place());
                assert_eq!(own, Some(part.place()), "{text}");
            }
            for id in chain.droppers() {
                assert!(chain.joins().any(|join| join == chain.dropper(id).join), "{text}");
            }
            assert!(tippets <= lines.len());
        });
    }
}

#[test]
fn lines_of_a_water_complete_one_another() {
    let rig = "rig a\n  water 2 ft\n  tippet 40 in of 6X fluoro\n  water at 2 ft/s\n  point #14\n  water over cobble\n";
    last_rig(rig, |rig| {
        let water = &rig.settings.water.as_ref().expect("it has one").value;
        assert!(water.depth.is_ok() && water.speed.0.is_ok() && water.bed.is_some());
    });
    // A rig made of another says its water anew.
    last_rig(&format!("{rig}\nrig b from a\n  water 3 ft\n"), |rig| {
        let water = &rig.settings.water.as_ref().expect("it has one").value;
        assert!(water.depth.is_ok() && water.speed.0.is_err() && water.bed.is_none());
    });
}
