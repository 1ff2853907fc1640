//! What changed of settings, notes and claims: the lines of a rig that write no
//! part.

use super::cards::Saying;
use super::change::Change;

/// What changed of the lines that write no part.
pub(super) fn sayings(was: &[Saying], now: &[Saying]) -> Vec<Change> {
    let without = |own: &[Saying], other: &[Saying]| {
        let mut other = other.to_vec();
        let mut rest = own.to_vec();
        rest.retain(|one| match other.iter().position(|there| there == one) {
            Some(at) => {
                other.swap_remove(at);
                false
            }
            None => true,
        });
        rest
    };
    let (mut gone, new) = (without(was, now), without(now, was));
    let mut changes = Vec::new();
    for one in new {
        let before = gone.iter().position(|other| is_about_the_same(&one, other));
        changes.push(Change::Says {
            was: before.map(|at| gone.remove(at).text),
            key: one.key,
            now: Some(one.text),
        });
    }
    changes.extend(gone.into_iter().map(|one| Change::Says {
        key: one.key,
        was: Some(one.text),
        now: None,
    }));
    changes
}

/// Whether two lines of one key say something of the same thing: lines that name what they are about must
/// name the same.
fn is_about_the_same(one: &Saying, other: &Saying) -> bool {
    let subject = |saying: &Saying| saying.text.split_whitespace().next().map(str::to_lowercase);
    let names = matches!(one.key.as_str(), "let" | "expect" | "allow");
    one.key == other.key && (!names || subject(one) == subject(other))
}
