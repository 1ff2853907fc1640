//! Patterns of flies by what they are called.

use super::words::COLOURS;

/// Traditional patterns in whose name a colour says nothing more of the fly. Source: common practice, no source.
const NAMED_BY_COLOUR: &[&str] = &[
    "blue dun",
    "blue-winged olive",
    "blue winged olive",
    "gold ribbed",
    "golden olive",
    "green peter",
    "greenwell",
    "grey duster",
    "iron blue",
    "orange partridge",
    "partridge and orange",
    "partridge and yellow",
    "red tag",
    "silver invicta",
    "waterhen bloa",
];

/// The colours that a pattern's name gives its fly: `black buzzer`.
pub fn colours_in_name(name: &str) -> Vec<&'static str> {
    let folded = snell_syntax::fold(name);
    if NAMED_BY_COLOUR.iter().any(|named| folded.contains(named)) {
        return Vec::new();
    }
    let words = folded.split_whitespace();
    let colour = |word: &str| COLOURS.iter().copied().find(|colour| *colour == word);
    words.filter_map(colour).collect()
}
