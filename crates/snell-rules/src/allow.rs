//! `allow` lines: which findings a rig silences, and which lines silence
//! nothing.

use crate::judge::{Breach, Skip};
use crate::rulebook::Books;
use snell_finding::{Code, Finding, Level};
use snell_rig::faults::Faults;
use snell_rig::fit::Given;
use snell_rig::keywords::Take;
use snell_rig::rig::Rig;
use snell_rig::{Evaluation, World};
use snell_syntax::Word;

/// Whether a breach is to be heard, with the rig's `allow` lines judged.
pub(crate) fn heard<'a, 'p>(
    books: &Books<'_, 'p>,
    evaluation: &'a Evaluation<'_, 'p>,
    breaches: &[Breach<'_, '_>],
    skips: &[Skip<'_, '_>],
    faults: &Faults,
) -> impl Fn(&Breach<'_, '_>) -> bool + use<'a, 'p> {
    let rig = evaluation.rig;
    let mut silenced = Vec::new();
    for allow in &rig.allows {
        let Some(word) = rule_word(allow) else { continue };
        let Some(rule) = books.rules.find(evaluation.world, allow.line.file, word) else {
            faults.report(
                books
                    .rules
                    .unknown(evaluation.world, allow.line, word, allow.line.file),
            );
            continue;
        };
        let used = breaches
            .iter()
            .any(|breach| breach.applied.rule.name == rule.name);
        let untold = rig.broken || skips.iter().any(|skip| skip.applied.rule.name == rule.name);
        if !used && !untold && rig.owns(allow.line) {
            faults.report(idle(allow, word));
        }
        silenced.push(word.folded.clone());
    }
    move |breach| !silenced.iter().any(|name| **name == *breach.applied.rule.name)
}

/// The rules that a rig's `allow` lines silence, by name.
pub(crate) fn silenced<'p>(books: &Books<'_, 'p>, world: &World<'p>, rig: &Rig<'p>) -> Vec<&'p str> {
    let allowed = rig.allows.iter().filter_map(|allow| {
        let word = rule_word(allow)?;
        Some(books.rules.find(world, allow.line.file, word)?.name)
    });
    allowed.collect()
}

fn rule_word<'p>(allow: &Given<'p>) -> Option<&'p Word> {
    allow.get(Take::Path)?.expr.path()?.first()
}

fn idle(allow: &Given<'_>, word: &Word) -> Finding {
    let message = format!(
        "this silences nothing: `{}` finds nothing here",
        allow.line.spelled(word)
    );
    Finding::new(Code::AllowIdle, Level::Advice, allow.line.whole(), message).help("take the line out")
}
