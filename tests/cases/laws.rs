//! Every input that the fuzzer kept, and every one that once broke a law, is
//! held against it again.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

use snell_analysis::Kind;
use snell_tests::laws::{LAWS, is_laid_out_at_once, keeps_its_meaning, seeds, sound};
use snell_tests::top;
use std::fs;

#[test]
fn kept_inputs_break_no_law() {
    for law in &LAWS {
        let folder = top().join("tests/fuzz/corpus").join(law.name);
        let mut held = 0;
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            // The fuzzer's own names say nothing, so the one that is being held is told.
            println!("{}", path.display());
            (law.holds)(&fs::read(&path).unwrap());
            held += 1;
        }
        assert!(held >= 10, "only {held} inputs are kept of {}", law.name);
    }
}

#[test]
fn what_a_fuzzer_starts_from_breaks_no_law() {
    for law in &LAWS {
        let all = seeds(law.name).unwrap();
        assert!(all.len() >= 10, "{} has only {} seeds", law.name, all.len());
        // A tenth of them: the fuzzer holds them all.
        for seed in all.iter().step_by(10) {
            (law.holds)(seed);
        }
    }
}

/// Found by the fuzzer: where a knot or a water held a line in its author's own way, the fault pointed at nothing.
#[test]
fn a_line_without_its_key_is_told_where_it_stands() {
    let lines = [
        "e as a rig can say.",
        "20 in of 5X fluoro to the point",
        "tight line",
        "2 trout",
    ];
    for line in lines {
        sound(Kind::Rig, &format!("knot nail\n  strength 90 %\n  {line}\n"));
    }
    sound(
        Kind::Rig,
        "rig cress\n  butt 60 in of 0.28lls, 12 lb fluorocarbon as measured; tuo as upper\n",
    );
}

/// Found by the fuzzer: a fault on the second line of a kind, whose key its author left out, pointed at nothing.
#[test]
fn a_second_line_without_its_key_is_told_where_it_stands() {
    sound(Kind::Rig, "rig a\n  method tight-line\n  -dry\n");
}

/// Found by the fuzzer: without the full stop, which laying out takes away, such a line was a remark.
#[test]
fn a_full_stop_makes_no_line_another() {
    keeps_its_meaning("rig a\n  s to it.\n");
}

/// Found by random changes of a notebook: parted from its comma by a space, the misspelt key was a remark.
#[test]
fn a_line_that_would_be_a_remark_once_laid_out_stays() {
    keeps_its_meaning("rig a\n  me,thod tight-line\n  rod 10 ft\n");
}

/// Found by the fuzzer: a fly goes by its words, and of these one is laid out as `0.20`.
#[test]
fn a_fly_is_called_by_its_words_as_they_are_laid_out() {
    keeps_its_meaning("rig a\n  point   #14 .20 mm nylon, pink\n");
}

/// Found by the fuzzer: each of these lines says once more what the named water says, and one of both would say it once.
#[test]
fn lines_beside_a_named_water_are_left_apart() {
    keeps_its_meaning("rig a\n  water pool\n  depth 2 ft\n  surface 2.2 ft/s\n  bed cobble\n");
}

/// Found by the fuzzer: in a rig without a head such a line, its number parted from what is no unit, was a remark.
#[test]
fn a_line_of_a_rig_without_a_head_stays_what_it_is() {
    is_laid_out_at_once("butt 3 m of 0.25 mm nylon\nwater over gravel\ntemperature 18minuterig dog-days\n");
}

fn holds(law: &str, bytes: &[u8]) {
    let law = LAWS.iter().find(|known| known.name == law).unwrap();
    (law.holds)(bytes);
}

/// Found by the fuzzer: a block that was edited between the marks of a merge told the last of them once more.
#[test]
fn a_block_within_a_conflict_is_told_as_afresh() {
    let text =
        "rig a\n<<<<<<< ours\n  rod 10 ft\n=======\nrule b\n  level advice\n>>>>>>> theirs\n  say \"c\"\n";
    let level = text.find("advice").unwrap();
    let mut bytes = format!("\0{text}\0").into_bytes();
    bytes.extend([0, level as u8, 1]);
    bytes.extend(b"A");
    holds("typed_texts_are_told_as_fresh_ones", &bytes);
}

/// Found by the fuzzer: words that had been the title stayed it when a line above them was written that is.
#[test]
fn what_is_written_above_a_title_takes_its_place() {
    let mut bytes = b"\x06// low\n\nslow seam\n  tippet 1 m of 5X\n\0".to_vec();
    // The place is taken by the length of the text and one: these are its start.
    bytes.extend([1, 10, 6]);
    bytes.extend(b"long glide");
    holds("typed_texts_are_told_as_fresh_ones", &bytes);
}

/// Found by the fuzzer: a lone `\r` ends a line, which went on behind it in a fence of a page.
#[test]
fn a_lone_carriage_return_ends_a_line_of_a_fence() {
    let page = "1. ```rig\n   rig alder\n     butt    60 in of 0.28 mm ny\rl\n";
    holds("places_of_a_page_lie_in_it", page.as_bytes());
    holds("places_of_a_page_lie_in_it", b"> ```rig\n> ```rigets\r ");
}

/// Found by the fuzzer: a rule with a line of a rulebook's was taken in as one, and a circle told in a page that ships.
#[test]
fn a_circle_is_told_in_the_authors_own_text() {
    let rule = "rule drag-setting-fine\n  with tight-line\n\nrig a\n  tippet 1 m of 5X\n";
    let book = "rulebook every-rig\n  with tight-line\n\nrig a\n  method tight-line\n  tippet 1 m of 5X\n";
    for text in [rule, book] {
        sound(Kind::Rig, text);
    }
}

#[test]
fn every_law_has_a_target() {
    let manifest = fs::read_to_string(top().join("tests/fuzz/Cargo.toml")).unwrap();
    for law in &LAWS {
        assert!(
            manifest.contains(&format!("\nname = \"{}\"\n", law.name)),
            "{}",
            law.name
        );
        let target = fs::read_to_string(top().join(format!("tests/fuzz/targets/{}.rs", law.name))).unwrap();
        assert!(target.contains(&format!("{:?}", law.name)), "{}", law.name);
    }
}
