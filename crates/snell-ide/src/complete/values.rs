//! What stands in an expression or a claim: measures, neighbours, lets and
//! labels, conditions.

use super::super::names;
use super::super::told::is_rig;
use super::typed::Typed;
use super::{Offers, Sort};
use snell_rig::keywords::{Method, PartKind, SectionRole};
use snell_rig::measure::{self, Kind};
use snell_syntax::CONDITIONS;

impl Offers<'_, '_> {
    /// Measures and neighbours behind a dot; else lets, labels and measures of the rig.
    pub(super) fn values(&mut self, typed: &Typed<'_>) {
        if let Some(owner) = typed.owner {
            let kind = match owner {
                "rod" => Some(Kind::Rod),
                "water" => Some(Kind::Water),
                other => match PartKind::of(other) {
                    Some(PartKind::Point) => Some(Kind::Fly),
                    Some(part) if part.role().is_some() => Some(Kind::Section),
                    Some(_) | None => Kind::of(other.rsplit('.').next().unwrap_or(other)),
                },
            };
            for row in measure::all_of(kind.unwrap_or(Kind::Section)) {
                self.offer(Sort::Measure, row.name, row.of.word(), row.about);
            }
            return;
        }
        if typed.number {
            for unit in snell_units::UNITS {
                self.offer(Sort::Unit, unit.name, unit.dimension.name(), unit.about);
            }
        }
        self.locals();
        for row in measure::all_of(Kind::Rig) {
            self.offer(Sort::Measure, row.name, "measure", row.about);
        }
        for kind in Kind::EACH.into_iter().chain([Kind::Rod, Kind::Water]) {
            self.offer(Sort::Measure, kind.word(), "then a dot", "");
        }
    }

    /// The rig's lets and labels, and those of its bases.
    pub(super) fn locals(&mut self) {
        let Some(block) = self.block.filter(|block| is_rig(*block)) else {
            return;
        };
        let bases = snell_rig::blocks::lineage(&self.world.names, block).unwrap_or_else(|_| vec![block]);
        for (line, word) in bases.into_iter().flat_map(names::locals) {
            let written = line.as_written();
            self.offer(Sort::Local, &word.folded, written, "");
        }
    }

    pub(super) fn claim(&mut self, typed: &Typed<'_>) {
        let words: Vec<String> = (1..typed.words.len()).map(|index| typed.word(index)).collect();
        let asked = words.iter().any(|word| {
            CONDITIONS
                .iter()
                .any(|(condition, _)| condition.starts_with(word.as_str()))
        });
        if words.is_empty() || asked || typed.owner.is_some() {
            self.values(typed);
        }
        if asked
            && words
                .last()
                .is_some_and(|word| word == "is" || word == "not" || word == "or")
        {
            self.listed(Method::WORDS);
            for role in SectionRole::ALL {
                self.offer(Sort::Word, role.word(), "role", "");
            }
        }
        if !words.is_empty() && !asked {
            for (condition, about) in CONDITIONS {
                self.offer(Sort::Keyword, condition, "condition", *about);
            }
        }
    }
}
