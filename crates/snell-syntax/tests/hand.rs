//! Lines in their author's own hand: which strict line each stands for, and that strict lines stay as they are.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

#[path = "hand/laws.rs"]
mod laws;
mod reading;

use reading::{of, read_as, read_within, tidied};
use snell_syntax::{read, whole};
use snell_text::TextId;
use std::fs;
use std::path::{Path, PathBuf};

#[test]
fn a_line_is_read_as_the_strict_line_that_it_stands_for() {
    let cases = [
        ("tippet 36 in 5X fluoro", "tippet 36 in of 5X fluoro"),
        ("nymph #14 3mm tungsten", "fly #14 3 mm tungsten // nymph"),
        (
            "point 16 perdigon 2.8 tungsten",
            "point #16 2.8 mm tungsten \"perdigon\"",
        ),
        ("butt 20 ft .011 mono", "butt 20 ft of 0.011 in mono"),
        ("butt - 15 ft - 12 lb mono", "butt 15 ft of 12 lb mono"),
        ("butt 2 m / 0.22 mm nylon", "butt 2 m of 0.22 mm nylon"),
        (
            "tippet 2: 30 in 5X fluoro",
            "tippet 30 in of 5X fluoro // tippet 2",
        ),
        ("tippet 5 ft 6X [new spool]", "tippet 5 ft of 6X // new spool"),
        (
            "butt 20 ft 8 lb mono, cut to 10 ft",
            "butt 10 ft of 8 lb mono // 20 ft cut to 10 ft",
        ),
        ("shot #4 x2", "shot 2 times 0.17 g \"#4\""),
        (
            "shot 2 BB, 8 in above point",
            "shot 2 times 0.4 g at 8 in over point \"BB\"",
        ),
        (
            "indicator orange, about 4 ft above the fly",
            "float orange at 4 ft over fly \"indicator\" // about 4 ft",
        ),
        (
            "float 1 in foam, 7' up from btm bug",
            "float 1 in foam at 7 ft over point",
        ),
        (
            "shot one BB, a foot above the point",
            "shot 1 times 0.4 g at 1 ft over point \"BB\"",
        ),
        ("shot 2x #6", "shot 2 times 0.1 g \"#6\""),
        (
            "shot 2x #6, right above the tippet knot",
            "shot 2 times 0.1 g \"#6\" // right above the tippet knot",
        ),
        ("tippet 4x fluoro", "tippet of 4X fluoro"),
        ("sighter pink and yellow", "sighter of pink yellow"),
        ("dropper #14, pheasant tail", "dropper with #14 \"pheasant tail\""),
        (
            "dropper no tag, size 8, stonefly, black",
            "inline #8 black \"stonefly\" // dropper; no tag",
        ),
        ("tippet 5 ft of the same", "tippet 5 ft of same"),
        (
            "drop 24 in 4X fluoro off the bend",
            "tippet 24 in of 4X fluoro off bend // drop",
        ),
        (
            "leader 15 ft tapered, 0.45 down to 0.22 mm",
            "leader 15 ft of 0.45 mm to 0.22 mm tapered",
        ),
        (
            "taper 12 in .009 (2X) soft nylon, blood knot",
            "taper 12 in of 2X 0.009 in nylon on blood // soft",
        ),
        ("tippet some 6X", "tippet of 6X // some"),
        ("rod 10'6 #2", "rod 10 ft 6 in #2"),
        (
            "tippet 70 cm, fluorocarbon 0.8 go (0.148 mm)",
            "tippet 70 cm of 0.148 mm fluorocarbon // 0.8 go",
        ),
        (
            "tippet 18\" 3lb nylon, water knot, leave the long end for the dropper",
            "tippet 18 in of 3 lb nylon on water-knot // leave the long end for the dropper",
        ),
        (
            "point Perdigon, #18, 2.0 mm tungsten, silver",
            "point #18 2.0 mm tungsten silver \"Perdigon\"",
        ),
        (
            "butt 16 feet of 10-pound monofilament",
            "butt 16 ft of 10 lb monofilament",
        ),
        ("butt 42 in x .020 nylon", "butt 42 in of 0.020 in nylon"),
        ("tippet 1,20 m nylon 11,7/100", "tippet 1.20 m of 0.117 mm nylon"),
        ("point cdc dun olive h18", "point #18 \"cdc dun olive\""),
        ("rod 10 ft for line 2", "rod 10 ft #2"),
        (
            "method slow pull off the drift",
            "note \"method slow pull off the drift\"",
        ),
        ("putty 0.3 g", "shot 0.3 g // putty"),
        ("knot: double uni", "knot double-uni"),
        ("line sink tip, 10 ft", "line 10 ft \"sink tip\""),
        ("sink tip 10 ft", "line 10 ft \"sink tip\""),
        (
            "water 3 ft, slow, mud",
            "water 3 ft at 0.2 m/s to 0.4 m/s over sand // slow",
        ),
        (
            "point #14 perdigón, 3,3 mm tungsten",
            "point #14 3.3 mm tungsten \"perdigón\"",
        ),
        ("tippet: fluoro 5X, 36 in", "tippet 36 in of 5X fluoro"),
        (
            "tippet 4X nylon, 2.5 ft., blood knot",
            "tippet 2.5 ft of 4X nylon on blood",
        ),
        ("butt 3,00 m of 40/100 nylon", "butt 3.00 m of 0.4 mm nylon"),
        ("butt 2 m × 0.35 nylon", "butt 2 m of 0.35 mm nylon"),
        ("tippet 20 in .22 mono", "tippet 20 in of 0.22 mm mono"),
        ("butt 20' 12# mono", "butt 20 ft of 12 lb mono"),
        (
            "sighter 18 in 2X bicolor mono (chartreuse/hot pink)",
            "sighter 18 in of 2X mono bicolour chartreuse hot-pink",
        ),
        (
            "sighter 12 in orange + 12 in yellow, 1X mono",
            "sighter 12 in + 12 in of 1X mono orange yellow",
        ),
        ("leader 9ft tapered, 5lb tip", "leader 9 ft of 5 lb tapered"),
        ("then 18in of 4lb mono", "tippet 18 in of 4 lb mono"),
        ("tippet ~4 ft 6X fluoro", "tippet 4 ft of 6X fluoro // about 4 ft"),
        (
            "point size 14 hare's ear, 2.8 mm gold tungsten",
            "point #14 2.8 mm tungsten gold \"hare's ear\"",
        ),
        (
            "point: hook n° 16, bead 2,8 mm tungsten, pheasant tail",
            "point #16 2.8 mm tungsten \"pheasant tail\"",
        ),
        (
            "dropper 8\" #16 2.5mm tungsten",
            "dropper 8 in with #16 2.5 mm tungsten",
        ),
        (
            "dropper 6in, sz 12 black buzzer",
            "dropper 6 in with #12 \"black buzzer\"",
        ),
        (
            "bob fly 6 in, size 8 green peter",
            "dropper 6 in with #8 \"green peter\" // bob fly",
        ),
        (
            "dry sz 12 parachute dry, barbless",
            "fly #12 dry barbless \"parachute dry\"",
        ),
        (
            "nymph 6 in #14 hare's ear",
            "dropper 6 in with #14 \"hare's ear\" // nymph",
        ),
        ("bung 20mm orange foam", "float 20 mm foam orange \"bung\""),
        ("swivel micro, 20 lb", "swivel 20 lb micro"),
        ("shot 2 x BB", "shot 2 times 0.4 g \"BB\""),
        ("line WF7 floater", "line of #7 \"WF7 floater\""),
        (
            "water 2-4 ft @ 3 ft/s, cobbles",
            "water 2-4 ft at 3 ft/s over cobble",
        ),
        (
            "water 40 cm - 1 m, 0,5 m/s, gravel & weed",
            "water 40 cm to 1 m at 0.5 m/s over gravel \"gravel & weed\"",
        ),
        (
            "method wet fly swing, 2 flies",
            "method team \"wet fly swing, 2 flies\"",
        ),
        ("method euro", "method tight-line \"euro\""),
        ("notes: wade with care", "note \"wade with care\""),
    ];
    for (written, strict) in cases {
        assert_eq!(read_as(written), strict, "{written}");
        assert_eq!(read_as(strict), strict, "{written}, once more");
    }
}

#[test]
fn a_rig_may_be_called_by_several_words() {
    let cases = [
        ("rig evening riffle\n", "rig evening-riffle \"evening riffle\"\n"),
        (
            "rig: winter, 2 nymphs\n",
            "rig winter-2-nymphs \"winter, 2 nymphs\"\n",
        ),
        (
            "rig low water from harrow\n",
            "rig low-water from harrow \"low water\"\n",
        ),
        ("rig 2 nymphs\n", "rig rig-2-nymphs \"2 nymphs\"\n"),
        ("rig low  // in June\n", "rig low  // in June\n"),
    ];
    for (written, strict) in cases {
        assert_eq!(tidied(written), strict);
        assert_eq!(tidied(strict), strict);
    }
}

/// Nothing is guessed: what can be read in two ways, and what is nearly a word of the line, is asked.
#[test]
fn words_above_all_other_lines_are_a_title() {
    for (first, strict) in [
        ("Winter leader", "rig winter-leader \"Winter leader\""),
        ("Euro leader, thin", "rig euro-leader-thin \"Euro leader, thin\""),
        ("For the Beck:", "rig for-the-beck \"For the Beck\""),
    ] {
        let text = format!("{first}\n  knot blood\n");
        assert_eq!(of(&text).findings, [], "{first}");
        assert_eq!(of(&text).blocks.len(), 1, "{first}");
        assert_eq!(tidied(&text), format!("{strict}\n  knot    blood\n"));
    }
    // What has slipped, and what stands lower, is none.
    for text in [
        "watr harrow\n",
        "rods kestrel\n",
        "spol trout\n",
        "Winter\n",
        "Winter leader 3 ft\n",
        "rig a\n  tippet 3 ft of 5X\n\nWinter leader\n",
    ] {
        let file = of(text);
        assert!(
            file.blocks
                .iter()
                .all(|block| block.head.is_none() || text.starts_with("rig a")),
            "{text}"
        );
        assert!(file.blocks.len() < 2, "{text}");
    }
}

#[test]
fn what_is_doubtful_is_asked() {
    let cases = [
        ("tippet: 3 ft, 4 ft of 5X", "read-two-ways"),
        ("tippet 20 in 5X 6X fluoro;", "read-two-ways"),
        ("dropper: 6 in, 8 in, #14", "read-two-ways"),
        ("method euro, under the bung", "read-two-ways"),
        ("tippet: 3 ft of 5X fluroo", "word-near-miss"),
        ("point: #14 2.5 mm tungstn hare's ear", "word-near-miss"),
        ("tippet: 3 ft fo 8 lb nylon", "word-near-miss"),
        ("point: #14 pheasnt tail", "word-near-miss"),
        ("sighter 18 in 2X mono (rhartreuse/hot pink)", "word-near-miss"),
        ("taper 60 26/100 cm", "read-two-ways"),
        ("tippet 20 in of 6X nylon, double surgen", "word-near-miss"),
        (
            "tippet 4 ft of 6 lb fluoro, three turn aater knot",
            "word-near-miss",
        ),
        (
            "tippet 4 ft of 6 lb fluoro, turn three water knot",
            "word-near-miss",
        ),
        ("bob 8\", #10 daiwl bach", "word-near-miss"),
        ("tippt: 6 ft of 8 lb fluoro", "word-near-miss"),
        ("method dry droper", "word-near-miss"),
    ];
    for (line, code) in cases {
        let text = format!("rig a\n  {line}\n");
        let findings = of(&text).findings;
        let codes: Vec<&str> = findings.iter().map(|finding| finding.code.name()).collect();
        assert_eq!(codes, [code], "{line}");
    }
}

/// A merge that was not finished is one fault, however many marks it left.
#[test]
fn the_marks_of_a_merge_are_one_fault() {
    let text = "rig a\n<<<<<<< ours\n  tippet 3 ft of 5X\n=======\n  tippet 4 ft of 5X\n>>>>>>> theirs\n  point #14\n";
    let findings = of(text).findings;
    let codes: Vec<&str> = findings.iter().map(|finding| finding.code.name()).collect();
    assert_eq!(codes, ["conflict-marker"]);
    assert_eq!(of(&text.repeat(2)).findings.len(), 2);
}

/// A number that lacks its unit has no reading of its own.
#[test]
fn a_bare_number_is_not_read() {
    for line in [
        "tippet 24 of 6X fluoro",
        "tippet 24 in of 6 fluoro",
        "butt 15 lb, 20",
        "tippet 2 m of mm 0.10",
        "water 6 to 2 ft, 1 ft/s",
        "tippet 50 cm 5X, to loop loop",
        "point 15 hare's ear",
        "point #14 12 hare's ear",
    ] {
        let text = format!("rig a\n  {line}\n");
        let file = of(&text);
        let readings = file.blocks[0].body.iter().filter(|line| line.reading.is_some());
        assert_eq!(readings.count(), 0, "{line}");
    }
}

#[test]
fn what_can_be_meant_in_two_ways_is_asked() {
    for line in ["leader 9 ft 4X tapered, trim to 7.5 ft", "tippet 24 in 5X 6X"] {
        let file = of(&format!("rig a\n  {line}\n"));
        assert_eq!(file.findings.len(), 1, "{line}: {:?}", file.findings);
    }
}

/// Every file of the project that holds rigs.
fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() {
            if name != "target" && !name.starts_with('.') && name != "node_modules" {
                files(&path, found);
            }
        } else if path.extension().is_some_and(|kind| kind == "rig" || kind == "md") {
            found.push(path);
        }
    }
}

#[test]
fn strict_lines_are_none_of_it() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut found = Vec::new();
    for folder in [
        "examples",
        "crates/snell-rules/book",
        "crates/snell-rig/shelf",
        "grammar",
    ] {
        files(&top.join(folder), &mut found);
    }
    let mut lines = 0;
    for path in found {
        let text = fs::read_to_string(&path).unwrap();
        let passages = match path.extension().is_some_and(|kind| kind == "md") {
            true => {
                let fences = snell_text::fences(&text).into_iter();
                fences.map(|fence| fence.lines).collect()
            }
            false => whole(&text),
        };
        let file = read(&text, TextId(0), &passages);
        for line in file
            .blocks
            .iter()
            .flat_map(|block| block.head.iter().chain(&block.body))
        {
            lines += 1;
            let strict = line.reading.as_ref().map(|reading| &reading.strict);
            assert_eq!(
                strict,
                None,
                "{}: {}",
                path.display(),
                &text[line.offset as usize..][..60]
            );
        }
    }
    assert!(lines > 500, "only {lines} lines were looked at");
}

/// Only an outing counts what was caught; on the card of a rig it is a note.
#[test]
fn an_outing_tells_its_day_and_its_fish() {
    let cases = [
        (
            "caught two grayling on the bob",
            "caught 2 on dropper \"grayling\"",
        ),
        (
            "1 brown 38 cm on point at 10:40",
            "caught 1 on point \"brown 38 cm, at 10:40\"",
        ),
        ("caught nothing", "caught 0"),
        ("lost 1 on the point", "lost 1 on point"),
        ("lost two browns on the bob", "lost 2 on dropper \"browns\""),
        ("lost one", "lost 1"),
        ("lost two flies on a snag", "note \"lost two flies on a snag\""),
        ("10:30 change point to #12", "change point to #12 // 10:30"),
        ("day 9 May 2026", "day 2026-05-09"),
        ("day 9.5.26", "day 2026-05-09"),
        ("day May 9, 2026", "day 2026-05-09"),
        ("day 25/9/2026", "day 2026-09-25"),
    ];
    for (written, strict) in cases {
        assert_eq!(read_within("outing", written), strict, "{written}");
        assert_eq!(read_within("outing", strict), strict, "{written}, once more");
    }
    for line in ["day 5/9/2026", "day 9 May"] {
        let file = of(&format!("outing a\n  {line}\n"));
        assert_eq!(file.findings.len(), 1, "{line}: {:?}", file.findings);
    }
    assert_eq!(read_as("caught two grayling"), "note \"caught two grayling\"");
}
