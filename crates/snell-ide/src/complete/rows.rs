//! What the rows of the tables take behind a key, and what an edit may change.

use super::typed::Typed;
use super::{Offers, Sort};
use snell_rig::keywords::{self, ClauseRow, Named, PartKind, Row, Slot, Take, TextNeed};
use snell_syntax::{BlockKind, Joint};

impl Offers<'_, '_> {
    pub(super) fn edit(&mut self, typed: &Typed<'_>, key: &str) {
        if typed.words.len() == 1 {
            self.locals();
            for row in PartKind::ALL.iter().map(|part| part.row()) {
                self.offer(Sort::Keyword, row.key, row.shape(), row.about);
            }
            return;
        }
        let to = typed
            .words
            .iter()
            .position(|word| word.eq_ignore_ascii_case("to"));
        match to {
            None if key == "change" => self.offer(Sort::Keyword, "to", "change TARGET to …", ""),
            Some(to) => {
                let target = self.part_of(&typed.word(1));
                if let Some(row) = keywords::row(BlockKind::Rig, &target) {
                    self.of_row(typed, row, to + 1);
                }
            }
            None => {}
        }
    }

    /// The key of the part that a label is given to.
    pub(super) fn part_of(&self, target: &str) -> String {
        let bases = self.block.map(|block| {
            snell_rig::blocks::lineage(&self.world.names, block).unwrap_or_else(|_| vec![block])
        });
        let mut locals = bases
            .unwrap_or_default()
            .into_iter()
            .flat_map(super::super::names::locals);
        locals.find(|(_, word)| *word.folded == *target).map_or_else(
            || target.to_owned(),
            |(line, _)| snell_rig::blocks::line_key(line).0.to_owned(),
        )
    }

    pub(super) fn plain(&mut self, typed: &Typed<'_>, key: &str) {
        if let Some(row) = keywords::row(self.kind(), key) {
            self.of_row(typed, row, 1);
        }
    }

    /// What a row takes behind the words from `first` on.
    pub(super) fn of_row(&mut self, typed: &Typed<'_>, row: &'static Row, first: usize) {
        let behind = typed.words.get(first..).unwrap_or_default();
        let joints: Vec<Joint> = behind.iter().filter_map(|word| Joint::of(word)).collect();
        let open = joints.last().and_then(|joint| row.clause(*joint));
        let slots = open.map_or(row.takes, |clause| clause.takes);
        let number = typed.number;
        let of_line = slots.iter().any(|slot| slot.take == Take::LineSize);
        for slot in slots {
            if slot.take == Take::LineSize && !number {
                self.sizes(typed);
            } else if slot.take == Take::Name(BlockKind::Material) && of_line && !number {
                self.line_materials();
            } else {
                self.slot(*slot, number, typed);
            }
        }
        if !number && behind.last().is_none_or(|word| Joint::of(word).is_none()) {
            for ClauseRow { joint, text, .. } in row.clauses.iter().filter(|row| !joints.contains(&row.joint))
            {
                let about = if *text == TextNeed::Needed {
                    "a reason in quotes follows"
                } else {
                    ""
                };
                self.offer(Sort::Keyword, joint.word(), row.shape(), about);
            }
        }
    }

    pub(super) fn slot(&mut self, slot: Slot, number: bool, typed: &Typed<'_>) {
        if let Some(dimension) = slot.take.dimension().filter(|_| number) {
            for name in snell_units::fitting(dimension) {
                let about = snell_units::UNITS
                    .iter()
                    .find(|unit| unit.name == name)
                    .map_or("", |unit| unit.about);
                self.offer(Sort::Unit, name, dimension.name(), about);
            }
        }
        if number {
            if matches!(slot.take, Take::LineSize | Take::Diameter) {
                self.offer(Sort::Unit, "X", "size", "(0.011 - X/1000) in");
            }
            return;
        }
        match slot.take {
            Take::Name(kind) => self.names(kind),
            Take::Word(words) => self.listed(words),
            Take::Colour => {
                for colour in keywords::COLOURS {
                    self.offer(Sort::Word, colour, "colour", "");
                }
            }
            Take::PartLength if is_expression(typed) => self.values(typed),
            Take::PartLength
            | Take::Length
            | Take::Depth
            | Take::LineSize
            | Take::Diameter
            | Take::BeadSize
            | Take::Mass
            | Take::Force
            | Take::Speed
            | Take::Lead
            | Take::Temperature
            | Take::Density
            | Take::Stress
            | Take::Share
            | Take::Plain
            | Take::Turns
            | Take::HookSize
            | Take::LineWeight
            | Take::Day
            | Take::Label
            | Take::Path
            | Take::Any => {}
        }
    }

    pub(super) fn listed(&mut self, words: &'static [Named]) {
        for named in words {
            self.offer(Sort::Word, named.word, "", named.about);
        }
    }
}

/// Whether a length is being reckoned: names are only offered once a letter of one, or a sign, is there.
fn is_expression(typed: &Typed<'_>) -> bool {
    typed.owner.is_some()
        || !typed.half.is_empty()
        || typed
            .words
            .last()
            .is_some_and(|word| matches!(*word, "+" | "-" | "*" | "/" | "times" | "×"))
}
