//! A rig at the bank of a water, and how it would be with some changes made.

use super::change::{Change, Target, To};
use crate::length;
use crate::rulebook::Books;
use rustc_hash::FxHashMap;
use snell_rig::Evaluation;
use snell_rig::blocks::Water;
use snell_rig::faults::Faults;
use snell_rig::fit::Fit;
use snell_rig::fly_box::{self, Choice};
use snell_rig::keywords::SectionRole;
use snell_rig::project::BlockRef;
use snell_rig::rig::{Rig, Stated};
use snell_rig::thing::FlyId;
use snell_rig::value::Value;
use snell_text::Place;
use snell_units::{Dimension, System};
use std::cell::RefCell;
use std::rc::Rc;

/// A rig at the bank of a water.
pub struct Bank<'a, 'w, 'p> {
    books: &'a Books<'w, 'p>,
    block: BlockRef<'p>,
    water: Option<Stated<Water>>,
    /// The rig by what is tied on it and how it is cast; lengths are only supposed.
    rigs: RefCell<FxHashMap<Vec<Change>, Rc<Rig<'p>>>>,
    pieces: Vec<Piece>,
    choices: Vec<(FlyId, Vec<Choice<'p>>)>,
}

/// A length that may be changed.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub(super) target: Target,
    place: Place,
    /// Its length as the rig has it in this water.
    pub(super) value: Value,
    /// The units that it is written in.
    pub(super) system: System,
}

impl<'a, 'w, 'p> Bank<'a, 'w, 'p> {
    /// A rig in the water that is given, or in its own.
    pub fn new(books: &'a Books<'w, 'p>, block: BlockRef<'p>, water: Option<Stated<Water>>) -> Self {
        let mut bank = Self {
            books,
            block,
            water,
            rigs: RefCell::default(),
            pieces: Vec::new(),
            choices: Vec::new(),
        };
        (bank.pieces, bank.choices) = bank.with(&[], |evaluation| {
            let flies = evaluation.rig.chain.flies();
            let choices = flies.map(|(id, _)| (id, choices(evaluation, id)));
            (pieces(evaluation), choices.collect())
        });
        bank
    }

    /// What an evaluation of the rig with some changes made comes to.
    pub fn with<T>(&self, changes: &[Change], ask: impl FnOnce(&Evaluation<'_, 'p>) -> T) -> T {
        let rig = self.rig(changes);
        let world = self.books.world();
        let supposed: Vec<(Place, Value)> = changes
            .iter()
            .filter_map(|change| self.supposed(*change))
            .collect();
        let evaluation = Evaluation::new(world, &rig);
        match supposed.is_empty() {
            true => ask(&evaluation),
            false => ask(&evaluation.supposing_all(supposed)),
        }
    }

    /// The rules that it is held against.
    pub fn books(&self) -> &'a Books<'w, 'p> {
        self.books
    }

    /// The fly that a change ties on.
    pub fn choice(&self, change: Change) -> Option<&Choice<'p>> {
        match (change.target, change.to) {
            (Target::Fly(fly), To::Fly(index)) => self.choices(fly).get(index),
            _ => None,
        }
    }

    /// The length that a change gives, with that of before, in the units that it is written in.
    pub fn lengths(&self, change: Change) -> Option<(Value, Value)> {
        let To::Length(steps) = change.to else { return None };
        let piece = self.piece(change.target)?;
        Some((piece.of_steps(steps), piece.value.clone()))
    }

    /// The length of a piece or a tag as the rig has it.
    pub fn own_length(&self, target: Target) -> Option<Value> {
        self.piece(target).map(|piece| piece.value.clone())
    }

    /// Whether a piece is a butt, which is not for the bank.
    pub(super) fn is_butt(&self, target: Target) -> bool {
        match target {
            Target::Section(id) => self.with(&[], |evaluation| {
                evaluation.rig.chain.section(id).role == SectionRole::Butt
            }),
            Target::Tag(_) | Target::Fly(_) | Target::Cast => false,
        }
    }

    pub(super) fn piece(&self, target: Target) -> Option<&Piece> {
        self.pieces.iter().find(|piece| piece.target == target)
    }

    pub(super) fn choices(&self, fly: FlyId) -> &[Choice<'p>] {
        let of = self.choices.iter().find(|(id, _)| *id == fly);
        of.map_or(&[], |(_, choices)| choices)
    }

    /// What can be changed at all.
    pub(super) fn targets(&self) -> impl Iterator<Item = Target> {
        let pieces = self.pieces.iter().map(|piece| piece.target);
        let flies = self.choices.iter();
        let flies = flies
            .filter(|(_, choices)| !choices.is_empty())
            .map(|(fly, _)| Target::Fly(*fly));
        pieces.chain(flies).chain([Target::Cast])
    }

    /// A figure of the rig with a length of one piece supposed beside the changes.
    pub(super) fn with_length<T>(
        &self,
        changes: &[Change],
        piece: &Piece,
        length: f64,
        ask: impl FnOnce(&Evaluation<'_, 'p>) -> T,
    ) -> T {
        let rig = self.rig(changes);
        let others = changes.iter().filter_map(|change| self.supposed(*change));
        let all: Vec<(Place, Value)> = others.chain([(piece.place, piece.of(length))]).collect();
        ask(&Evaluation::new(self.books.world(), &rig).supposing_all(all))
    }

    fn supposed(&self, change: Change) -> Option<(Place, Value)> {
        let To::Length(steps) = change.to else { return None };
        let piece = self.piece(change.target)?;
        Some((piece.place, piece.of_steps(steps)))
    }

    fn rig(&self, changes: &[Change]) -> Rc<Rig<'p>> {
        let tied = changes
            .iter()
            .filter(|change| !matches!(change.to, To::Length(_)));
        let tied: Vec<Change> = tied.copied().collect();
        if let Some(known) = self.rigs.borrow().get(&tied) {
            return known.clone();
        }
        // What is wrong with the rig is told where it is checked.
        let mut rig = snell_rig::read(self.books.world(), self.block, &Faults::default());
        rig.settings.takes_usual = true;
        let place = rig.place();
        if let Some(water) = &self.water {
            rig.settings.water = Some(water.clone());
        }
        for change in &tied {
            match (change.target, change.to) {
                (Target::Fly(fly), _) => {
                    if let Some(choice) = self.choice(*change) {
                        rig.tie(fly, choice);
                    }
                }
                (_, To::Cast(cast)) => {
                    rig.settings.cast = Some(Stated {
                        value: cast,
                        place,
                        block: None,
                    });
                }
                _ => {}
            }
        }
        let rig = Rc::new(rig);
        self.rigs.borrow_mut().insert(tied, rig.clone());
        rig
    }
}

impl Piece {
    pub(super) fn of(&self, length: f64) -> Value {
        self.value.clone().with(length, Dimension::LENGTH)
    }

    pub(super) fn of_steps(&self, steps: u32) -> Value {
        self.of(f64::from(steps) * length::cut(self.system))
    }

    /// A length in steps of what a person cuts to.
    pub(super) fn steps(&self, length: f64) -> u32 {
        (length / length::cut(self.system)).round() as u32
    }
}

/// Every butt, tippet and tag with a length. A butt is touched where nothing else helps: where the sag or a rulebook's
/// longest leader asks.
fn pieces<'p>(evaluation: &Evaluation<'_, 'p>) -> Vec<Piece> {
    let chain = &evaluation.rig.chain;
    let own = evaluation.system();
    let piece = |(target, fit): (Target, Option<Fit<'p>>)| {
        let fit = fit?;
        let value = evaluation.value(fit).ok()?;
        Some(Piece {
            target,
            place: fit.place(),
            system: value.system.unwrap_or(own),
            value,
        })
    };
    let sections = chain
        .sections()
        .filter(|(_, section)| matches!(section.role, SectionRole::Butt | SectionRole::Tippet));
    let sections = sections.map(|(id, section)| (Target::Section(id), section.part.length()));
    let tags = chain
        .droppers()
        .map(|id| (Target::Tag(id), chain.dropper(id).part.length()));
    sections.chain(tags).filter_map(piece).collect()
}

/// The flies that could be tied on in the place of one: such as sink where it sinks, and are weighted where it
/// is; those of the box first.
fn choices<'p>(evaluation: &Evaluation<'_, 'p>, fly: FlyId) -> Vec<Choice<'p>> {
    let world = evaluation.world;
    let on = evaluation.rig.chain.fly(fly).tied;
    let of_a_kind = |choice: &Choice<'p>| {
        choice.fly.floats.is_some() == evaluation.rig.rides_afloat(fly)
            && (choice.fly.is_weighted() || !on.fly.is_weighted())
            && (choice.block.is_none() || choice.block != on.block)
    };
    let flies = fly_box::flies(world, evaluation.rig.block.id.file);
    let beads = fly_box::with_other_beads(world, &on.fly);
    flies.into_iter().chain(beads).filter(of_a_kind).collect()
}
