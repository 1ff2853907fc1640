//! Several parts of a rig on one line, with arrows between them: `9 ft 4X leader > 2 ft 5X > #14 midge`.

use super::atoms::{Atom, Look, atoms};
use snell_text::Span;

/// The parts of a line; none where no arrow stands in it.
pub(crate) fn parts(line: &str) -> Vec<Span> {
    if !line.contains(['>', '→']) {
        return Vec::new();
    }
    let Some(read) = atoms(line) else {
        return Vec::new();
    };
    let arrows = arrows(&read.atoms);
    let ends = arrows.iter().map(|arrow| arrow.start as usize);
    let starts = arrows.iter().map(|arrow| arrow.end as usize);
    let parts = std::iter::once(0).chain(starts).zip(ends.chain([line.len()]));
    let trimmed = parts.map(|(start, end)| {
        let part = &line[start..end];
        let start = start + part.len() - part.trim_start().len();
        Span::from(start..start + part.trim().len())
    });
    let parts: Vec<Span> = trimmed.collect();
    let is_figure = |part: &&Span| part.of(line).contains(|letter: char| letter.is_ascii_digit());
    let are_sound = parts.len() > 1
        && parts.iter().all(|part| part.start < part.end)
        && parts.iter().filter(is_figure).count() * 2 > parts.len();
    if are_sound { parts } else { Vec::new() }
}

/// The arrows of a line, but for those of a taper, which stand between two plain numbers: `0.50 -> 0.20 mm`.
fn arrows(atoms: &[Atom]) -> Vec<Span> {
    let is_sign = |at: usize, signs: &[char]| {
        atoms
            .get(at)
            .is_some_and(|atom| matches!(atom.look, Look::Sign(sign) if signs.contains(&sign)))
    };
    let is_number = |at: usize| atoms.get(at).is_some_and(|atom| atom.look == Look::Number);
    let mut found = Vec::new();
    for at in 0..atoms.len() {
        if !is_sign(at, &['>', '→']) {
            continue;
        }
        let has_shaft = at > 0 && atoms[at].glued && is_sign(at - 1, &['-', '–', '—', '=']);
        let start = if has_shaft { at - 1 } else { at };
        let is_of_taper = start > 0 && is_number(start - 1) && is_number(at + 1);
        // `>=` compares.
        let compares = is_sign(at + 1, &['=']);
        if !is_of_taper && !compares {
            found.push(atoms[start].span.to(atoms[at].span));
        }
    }
    found
}
