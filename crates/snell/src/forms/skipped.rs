//! Rules that could not be judged, as a list for people.
//!
//! One entry for what is lacking and the parts that lack it, with every rule
//! that asks for it there. It judges nothing and knows no other form.

use super::text::MARGIN;
use crate::prose::{WIDEST, pad, printable, width, wrap};
use crate::terminal::Terminal;
use indexmap::IndexMap;
use snell_analysis::Skipped;
use snell_rig::evaluation::MissingWords;
use std::io::{self, Write};

/// Rigs, each with parts of it.
type Rigs<'s> = Vec<(&'s str, Vec<&'s str>)>;

/// Rules that lack the same at the same places.
struct Entry<'s> {
    rules: Vec<&'s str>,
    needs: &'s [MissingWords],
    rigs: Rigs<'s>,
}

/// Writes an entry for each thing that rules lack.
///
/// # Errors
/// The output cannot be written.
pub fn write(out: &mut impl Write, skipped: &[Skipped], terminal: &Terminal) -> io::Result<()> {
    for entry in entries(skipped) {
        let room = terminal.width.min(WIDEST) - MARGIN;
        let word = "skipped";
        let mut margin = format!("{}{}", terminal.quiet(word), " ".repeat(MARGIN - width(word)));
        for line in wrap(&printable(&entry.rules.join(", ")), room) {
            writeln!(out, "{margin}{}", terminal.strong(&line))?;
            margin = " ".repeat(MARGIN);
        }
        let needs: Vec<String> = entry.needs.iter().map(ToString::to_string).collect();
        line(out, "needs", &needs.join("; "), terminal)?;
        let rigs: Vec<String> = entry.rigs.iter().map(told).collect();
        line(out, "in", &rigs.join("; "), terminal)?;
        writeln!(out)?;
    }
    Ok(())
}

/// How many rules are among those that were skipped.
pub fn rules(skipped: &[Skipped]) -> usize {
    let mut rules: Vec<&str> = skipped.iter().map(|skip| &*skip.rule).collect();
    rules.sort_unstable();
    rules.dedup();
    rules.len()
}

/// A rig with its parts; a rule that looks at the rig as a whole names it alone.
fn told((rig, parts): &(&str, Vec<&str>)) -> String {
    if parts.iter().all(|part| part == rig) {
        return (*rig).to_owned();
    }
    format!("{rig} ({})", parts.join(", "))
}

fn line(out: &mut impl Write, word: &str, text: &str, terminal: &Terminal) -> io::Result<()> {
    let mut word = format!("  {}", pad(word, MARGIN - 2));
    for line in wrap(&printable(text), terminal.width.min(WIDEST) - MARGIN) {
        writeln!(out, "{}{line}", terminal.quiet(&word))?;
        word = " ".repeat(MARGIN);
    }
    Ok(())
}

/// In the order in which rules are first met.
fn entries(skipped: &[Skipped]) -> Vec<Entry<'_>> {
    let mut found: IndexMap<(&str, &[MissingWords]), Rigs<'_>> = IndexMap::new();
    for skip in skipped {
        let rigs = found.entry((&skip.rule, &skip.needs)).or_default();
        match rigs.last_mut() {
            Some((rig, parts)) if *rig == skip.rig => parts.push(&skip.of),
            _ => rigs.push((&skip.rig, vec![&skip.of])),
        }
    }
    let mut alike: IndexMap<(&[MissingWords], Rigs<'_>), Vec<&str>> = IndexMap::new();
    for ((rule, needs), rigs) in found {
        alike.entry((needs, rigs)).or_default().push(rule);
    }
    let entries = alike.into_iter();
    entries
        .map(|((needs, rigs), rules)| Entry { rules, needs, rigs })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn alike_entries_are_told_once() {
        let skip = |rule: &str, rig: &str, of: &str, needs: &str| Skipped {
            rule: rule.to_owned(),
            rig: rig.to_owned(),
            of: of.to_owned(),
            needs: vec![MissingWords::plain(needs)],
        };
        let skipped = [
            skip("wading", "low", "low", "a water"),
            skip("label-size", "low", "upper", "the diameter of the tippet"),
            skip("label-size", "low", "lower", "the diameter of the tippet"),
            skip("warm-water", "low", "low", "a water"),
            skip("wading", "high", "high", "a water"),
            skip("warm-water", "high", "high", "a water"),
            skip("warm-water", "spate", "spate", "the temperature of the water"),
        ];
        let terminal = Terminal {
            colour: false,
            unicode: true,
            palette: crate::terminal::Palette::Sixteen,
            width: 30,
        };
        let mut out = Vec::new();
        write(&mut out, &skipped, &terminal).unwrap();
        let wanted = "skipped  wading, warm-water\n  needs  a water\n  in     low; high\n\n\
                      skipped  label-size\n  needs  the diameter of the\n         tippet\n  in     low (upper, lower)\n\n\
                      skipped  warm-water\n  needs  the temperature of\n         the water\n  in     spate\n\n";
        assert_eq!(String::from_utf8(out).unwrap(), wanted);
        assert_eq!(rules(&skipped), 3);
    }
}
