//! One part of a rig: its line with the changes that derived rigs make to it.

use crate::fit::{Fit, Given};
use crate::keywords::Take;
use crate::project::LineRef;
use snell_syntax::{ExprKind, Joint, Word};

/// A part.
#[derive(Clone, Debug)]
pub struct Part<'p> {
    /// Its line's values; those that were changed stand in the lines that change them.
    pub given: Given<'p>,
    /// How an edit of the rig's own names it, where it comes from a base.
    pub target: Option<String>,
}

impl<'p> Part<'p> {
    /// The word that opens its line: its role, for a section.
    pub fn key(&self) -> &'static str {
        self.given.row.key
    }

    /// Its label and the line that gives it.
    pub fn label(&self) -> Option<(LineRef<'p>, &'p Word)> {
        let fit = self.given.within(Joint::As, Take::Label)?;
        match &fit.expr.kind {
            ExprKind::Path(words) => Some((fit.line, &words[0])),
            _ => None,
        }
    }

    /// Takes over what a `change` says: whole clauses, and values by what they are.
    /// A fly, and what a line is made of, is changed as a whole.
    pub(super) fn change(&mut self, change: Given<'p>) {
        let fly = |take: Take| !matches!(take, Take::PartLength | Take::Length);
        let own: Vec<Take> = change
            .fits
            .iter()
            .filter(|fit| fit.joint.is_none())
            .map(|fit| fit.take)
            .collect();
        let whole_fly = matches!(self.key(), "point" | "inline") && !own.is_empty();
        self.given.fits.retain(|fit| match fit.joint {
            Some(joint) => !change.has(joint),
            None if whole_fly => !fly(fit.take),
            None => !own.contains(&fit.take),
        });
        self.given.fits.extend(change.fits);
        for joint in change.joints {
            if !self.given.has(joint) {
                self.given.joints.push(joint);
            }
        }
    }

    /// What it is made of, as its line writes it.
    pub fn written_stuff(&self) -> String {
        written(self.given.fits.iter().filter(|fit| fit.joint == Some(Joint::Of)))
    }

    /// Its finished length, where it has one.
    pub fn length(&self) -> Option<Fit<'p>> {
        self.given.get(Take::PartLength)
    }
}

/// Values as they are written, one behind the other.
pub(super) fn written<'f, 'p: 'f>(fits: impl Iterator<Item = &'f Fit<'p>>) -> String {
    let words: Vec<&str> = fits.map(|fit| fit.line.written(fit.expr.span)).collect();
    words.join(" ")
}
