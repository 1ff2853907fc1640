//! What a piece of line may be of: sizes that the author's rigs are of, and what
//! line is made of.

use super::super::told;
use super::typed::Typed;
use super::{Offers, Rank, Sort};
use rustc_hash::FxHashMap;
use snell_rig::blocks::Read;
use snell_syntax::{ExprKind, Form, Joint, SingleKind, Unit};
use snell_units::{Dimension, in_order};

/// More sizes than these are no help.
const MOST_SIZES: usize = 12;

impl Offers<'_, '_> {
    /// The sizes that most pieces of line in the text are of, unless one is there already.
    pub(super) fn sizes(&mut self, typed: &Typed<'_>) {
        if typed.sized {
            return;
        }
        let mut counts: FxHashMap<&str, usize> = FxHashMap::default();
        for line in told::rigs(self.world.project).flat_map(|block| block.lines()) {
            let Form::Plain(plain) = &*line.line.form else {
                continue;
            };
            let of = plain.clauses.iter().filter(|clause| clause.joint == Joint::Of);
            let first = of.filter_map(|clause| clause.items.iter().find(|item| may_be_size(&item.kind)));
            for item in first {
                *counts.entry(line.written(item.span)).or_default() += 1;
            }
        }
        let mut sizes: Vec<(&str, usize)> = counts.into_iter().collect();
        in_order(&mut sizes, |(one, some), (other, others)| {
            others.cmp(some).then(one.cmp(other))
        });
        for (size, _) in sizes.into_iter().take(MOST_SIZES) {
            self.offer_as(Rank::Size, Sort::Word, size, "size", "");
        }
    }

    /// What line is made of; beads and hooks are of other stuff, of which no stretch is known.
    pub(super) fn line_materials(&mut self) {
        let is_line = |read: &Read<'_>| read.material().is_some_and(|material| material.stretch.is_ok());
        self.names_where(snell_syntax::BlockKind::Material, Rank::Line, is_line);
    }
}

/// Whether it is an X size, or a length that a line may be thick.
fn may_be_size(kind: &ExprKind) -> bool {
    let ExprKind::Single(single) = kind else {
        return false;
    };
    let is_length =
        |unit: &Unit| snell_units::resolve(&unit.plain).is_ok_and(|unit| unit.dimension == Dimension::LENGTH);
    matches!(single.kind, SingleKind::X(_)) || single.unit().is_some_and(is_length)
}
