//! What holds of every line in its author's own hand: what is written out is strict, and no word is lost.

use crate::reading::{of, tidied};
use proptest::prelude::*;
use snell_text::TextId;

/// Pieces of lines as anglers write them.
fn scrap() -> impl Strategy<Value = String> {
    prop::sample::select(vec![
        "3 ft",
        "24 in",
        "6X",
        "5x",
        "0.22",
        "12/100",
        "20 lb",
        "12#",
        "8 kg",
        "#14",
        "sz 12",
        "2.5 mm",
        "tungsten",
        "fluoro",
        "nylon",
        "mono",
        "pink",
        "hot pink",
        "yellow",
        "and",
        "of",
        "with",
        "w/",
        "@",
        "on",
        "hare's ear",
        "pheasant tail",
        "PTN",
        "barbless",
        "blood knot",
        "(a note)",
        "(pink)",
        ",",
        ";",
        "-",
        "/",
        "+",
        "~",
        "2 x",
        "BB",
        "off the bend",
        "as upper",
        "gravel",
        "1 m/s",
        "\"x\"",
        "'",
        "½",
        "(",
        "× 2",
        "knotless",
        "-- aside",
    ])
    .prop_map(str::to_owned)
}

fn line() -> impl Strategy<Value = String> {
    let key = prop::sample::select(vec![
        "tippet", "tippet:", "leader", "dropper", "point", "fly", "dry", "bung", "shot", "swivel", "line",
        "water", "method", "rod", "then", "bob fly:", "rig",
    ]);
    (key, prop::collection::vec(scrap(), 0..7))
        .prop_map(|(key, scraps)| format!("{key} {}", scraps.join(" ")))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    /// What is written out is strict: laying it out again changes nothing, and the places of what it says lie in the line.
    #[test]
    fn a_reading_is_strict_and_lies_in_its_line(line in line()) {
        let text = format!("rig a\n  {line}\n");
        let once = tidied(&text);
        prop_assert_eq!(tidied(&once), once.clone());
        let file = of(&text);
        for line in file.blocks.iter().flat_map(|block| &block.body) {
            for token in line.said_tokens() {
                let place = line.place(TextId(0), token.span).span;
                prop_assert!(text.get(place.start as usize..place.end as usize).is_some());
            }
        }
    }

    /// No letter or digit of a line is lost but in what stands for it: each word is there, or one of the tables.
    #[test]
    fn tokens_are_the_line_again(line in line()) {
        let text = format!("rig a\n  {line}\n");
        let file = of(&text);
        for block in &file.blocks {
            for line in &block.body {
                let joined: String = line.tokens.iter().map(|token| token.span.shifted(line.offset).of(&text)).collect();
                prop_assert!(text.contains(&joined));
            }
        }
    }
}
