//! Lines whose key is marked in another way, stands further on, or does not stand at all.

mod reading;

use reading::{of, read_as, read_within};

#[test]
fn a_key_is_parted_from_its_values_by_any_usual_mark() {
    let cases = [
        ("BUTT = 5.5 m nylon 0.35 mm", "butt 5.5 m of 0.35 mm nylon"),
        ("butt 18 ft .015 in mono", "butt 18 ft of 0.015 in mono"),
        ("ring=2.5 mm", "ring 2.5 mm"),
        ("sighter. 40 cm. 0.18.", "sighter 40 cm of 0.18 mm"),
        ("butt 5 m 0.22 nylon.", "butt 5 m of 0.22 mm nylon"),
        ("method. czech nymph", "method tight-line \"czech nymph\""),
        (
            "dropper. red tag 14, 2.8 mm tungsten, 8 cm",
            "dropper 8 cm with #14 2.8 mm tungsten \"red tag\"",
        ),
        ("2 - tippet 20 in 5X", "tippet 20 in of 5X"),
        ("1. tippet 20 in 5X", "tippet 20 in of 5X"),
        ("• tippet 20 in 5X", "tippet 20 in of 5X"),
        ("* tip - 16\" 6.5X fc", "tippet 16 in of 6.5X fluorocarbon // tip"),
    ];
    for (written, strict) in cases {
        assert_eq!(read_as(written), strict, "{written}");
    }
}

#[test]
fn a_line_may_say_what_it_is_without_a_key() {
    let cases = [
        ("euro nymphing", "method tight-line \"euro nymphing\""),
        ("tight line", "method tight-line \"tight line\""),
        ("dry dropper", "method dry-dropper \"dry dropper\""),
        ("8 ft 20 lb mono butt", "butt 8 ft of 20 lb mono"),
        (
            "7.5 ft 3X tapered leader",
            "leader 7.5 ft of 3X // tapered leader",
        ),
        ("20 in 5X to point", "tippet 20 in of 5X // to point"),
        (
            "off the bend 30\" of 5X fluoro",
            "tippet 30 in off bend of 5X fluoro",
        ),
        (
            "6in tag #16 hare's ear, 2.5 mm tungsten",
            "dropper 6 in with #16 2.5 mm tungsten \"hare's ear\" // tag",
        ),
        (
            "Cold from the start. Nobody else about!",
            "note \"Cold from the start. Nobody else about!\"",
        ),
        (
            "strip it hard along the cut banks, pause, hang on",
            "note \"strip it hard along the cut banks, pause, hang on\"",
        ),
        (
            "17 May, wind SW 4, three trout on the bob",
            "note \"17 May, wind SW 4, three trout on the bob\"",
        ),
        (
            "4/12 - six browns, five on the little one",
            "note \"4/12 - six browns, five on the little one\"",
        ),
        ("fished it sunday, ok", "note \"fished it sunday, ok\""),
        ("main 4 m 0.18 mm nylon", "butt 4 m of 0.18 mm nylon // main"),
        ("middle: 3 ft, 6 lb", "taper 3 ft of 6 lb // middle"),
    ];
    for (written, strict) in cases {
        assert_eq!(read_as(written), strict, "{written}");
        assert_eq!(read_as(strict), strict, "{written}, once more");
    }
}

/// No line of a rig is taken for a remark, or for another part, that has only slipped.
#[test]
fn a_line_that_may_be_a_part_is_none_else() {
    for line in [
        "24 in of 2X",
        "8/3 in of 2X to nothing else",
        "20 mar of 5X",
        "5 ft of 12 lb mono",
        "5 ft of 6 lb mono, red",
        "hare's from ear the point",
        "ponit hare's ear on the lower rib",
        "tungten from the hare's ear",
        "six inches from the ring, don't",
        "olive hare's ear and dark quill",
        "tippet. 0. 18 mm of nylon",
        "euro nymphin",
        "depth low–water",
    ] {
        let file = of(&format!("rig a\n  {line}\n"));
        let read = file.blocks[0].body.iter().filter(|line| line.reading.is_some());
        assert_eq!(read.count(), 0, "{line}");
    }
}

#[test]
fn what_is_told_beside_a_rig_is_a_note() {
    for line in [
        "17 fish, biggest maybe 3 lb, snakes everywhere",
        "two 35 cm rainbows, one missed",
        "20.11. - 14 grayling, best 41 cm, all on the point",
        "14/6/26 — bright, low. Eight, all on the nymph.",
        "10/12 low & clear, 9 brookies",
        "Alderwick Run bend pool, 2 Sept 19:30",
        "Keep your tip up and don't watch the eagles.",
        "Cold morning, nothing until eleven. Then six in an hour.",
        "heaviest in the middle",
        "cast across, let it sink, lift",
        "caught 4, biggest about a pound",
        "swap the point to 3.5 in the run by the bridge",
    ] {
        assert!(read_as(line).starts_with("note "), "{line}: {}", read_as(line));
    }
    for line in [
        "lie: WF7 floater",
        "when depth under 3 ft",
        "hook #14",
        "16 in the ring of 5X",
    ] {
        assert!(!read_as(line).starts_with("note "), "{line}: {}", read_as(line));
    }
    assert_eq!(
        read_as("point: #16 pheasant tail. Watch it on the lift."),
        "point #16 \"pheasant tail\" // Watch it on the lift."
    );
}

#[test]
fn a_part_is_known_by_what_nothing_else_has() {
    let cases = [
        (
            "#14 perdigon, 2.8 mm tungsten",
            "fly #14 2.8 mm tungsten \"perdigon\"",
        ),
        ("foam hopper, #8, yellow", "fly #8 yellow \"foam hopper\""),
        (
            "On the point a size 14 hare's ear with a 3 mm tungsten bead.",
            "point #14 3 mm tungsten \"hare's ear\" // on the point",
        ),
        (
            "A 5 in dropper with a size 14 shrimp, pink.",
            "dropper 5 in with #14 pink \"shrimp\"",
        ),
        ("5 ft of 6 lb mono", "tippet 5 ft of 6 lb mono"),
        ("depth about 3 ft", "water 3 ft // about 3 ft"),
        ("speed 0.6 m/s", "water at 0.6 m/s"),
        ("bottom gravel", "water over gravel"),
        (
            "water knee deep, fast",
            "water 0.4 m to 0.5 m at 0.9 m/s to 1.3 m/s // knee deep; fast",
        ),
        (
            "sighter 50 cm 0.2 mm red-yellow",
            "sighter 50 cm of 0.2 mm red yellow",
        ),
        (
            "tippet 5 ft of 4X fluoro (triple surgeon)",
            "tippet 5 ft of 4X fluoro on triple-surgeon",
        ),
    ];
    for (written, strict) in cases {
        assert_eq!(read_as(written), strict, "{written}");
        assert_eq!(read_as(strict), strict, "{written}, once more");
    }
}

/// What is said so of a water, a fly or a rule is none of a rig's.
#[test]
fn other_blocks_keep_their_keys() {
    for (block, line) in [
        ("water", "depth 2-3 ft"),
        ("water", "bed cobble"),
        ("fly", "hook #14"),
    ] {
        let read: Vec<String> = read_within(block, line)
            .split_whitespace()
            .map(str::to_owned)
            .collect();
        assert_eq!(read.join(" "), line);
    }
}

#[test]
fn what_is_said_in_passing_is_kept_beside_the_values() {
    let cases = [
        (
            "tippet 3 ft 4 lb mono, 3-turn water knot",
            "tippet 3 ft of 4 lb mono on three-turn-surgeon",
        ),
        (
            "tippet 3 ft 4 lb mono, five-turn blood",
            "tippet 3 ft of 4 lb mono on blood // five-turn",
        ),
        (
            "leader 3.6 m, 0.50 -> 0.15 mm",
            "leader 3.6 m of 0.50 mm to 0.15 mm",
        ),
        (
            "leader 2.75 m, 0.53/0.20 mm, nylon",
            "leader 2.75 m of 0.53 mm to 0.20 mm nylon",
        ),
        (
            "dropper 0.12 m x 0.18 mm, hook 12 march brown",
            "dropper 0.12 m of 0.18 mm with #12 \"march brown\"",
        ),
        (
            "point hare's ear size 14 with bead",
            "point #14 \"hare's ear\" // bead",
        ),
        (
            "point size 14, tungsten I think, 2.5 mm?",
            "point #14 2.5 mm tungsten // I think; about 2.5 mm",
        ),
        (
            "tippet 4 yds of 4 lb nylon, less at the butt if windy",
            "tippet 4 yd of 4 lb nylon // less at the butt if windy",
        ),
        ("rod: 3.3 m, 6:4", "rod 3.3 m // 6:4"),
        ("flow: medium", "water at 0.5 m/s to 0.8 m/s // medium"),
        ("water 2 ft, gravel, 12 °C", "water 2 ft 12 C over gravel"),
        ("temp 8-10 C", "note \"temp 8-10 C\""),
        (
            "to the top dropper: spider, size 16, orange, on 3 in",
            "dropper 3 in with #16 orange \"spider\" // top dropper",
        ),
        ("rod end -> fly:", "note \"rod end -> fly:\""),
        ("approx. 16 ft overall", "note \"approx. 16 ft overall\""),
    ];
    for (written, strict) in cases {
        assert_eq!(read_as(written), strict, "{written}");
        assert_eq!(read_as(strict), strict, "{written}, once more");
    }
}
