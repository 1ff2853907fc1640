//! Every name in a notebook and what it means: blocks, and the labels and lets
//! of rigs. Definition, references and rename read it.
//!
//! A label belongs to the rig that gives it; the rigs made from that one speak
//! of the same label.

use super::told::is_rig;
use super::walk::{self, each_expr, each_within, touches};
use snell_rig::blocks::is_edit;
use snell_rig::keywords::{self, Key, OutingKey, RigKey, Take};
use snell_rig::project::{BlockRef, LineRef};
use snell_rig::{BlockId, World};
use snell_syntax::{BlockKind, Form, Joint, Word};
use snell_text::{Place, TextId};
use std::sync::Arc;

/// What a name means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Named {
    /// A block.
    Block(BlockId),
    /// A label or let, and the rig that gives it.
    Local(BlockId, Arc<str>),
}

/// A name where it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Occurrence {
    /// Where.
    pub place: Place,
    /// What it means.
    pub of: Named,
    /// Whether it gives the name.
    pub defines: bool,
}

/// Every name in the notebook's own files.
pub fn occurrences(world: &World<'_>) -> Vec<Occurrence> {
    let project = world.project;
    let own = project.files().filter(|file| !project.ships(*file));
    let mut found = Vec::new();
    for block in own.flat_map(|file| project.blocks(file)) {
        of_block(world, block, &mut found);
    }
    found
}

/// The name at a byte of a text.
pub fn at(world: &World<'_>, text: TextId, at: u32) -> Option<Occurrence> {
    let block = walk::blocks_of(world.project, text)
        .find(|block| walk::lines_of(*block).any(|line| touches(line.whole().span, at)))?;
    let mut found = Vec::new();
    of_block(world, block, &mut found);
    found.into_iter().find(|one| touches(one.place.span, at))
}

/// The place that gives a name.
pub fn definition(world: &World<'_>, of: &Named) -> Option<Place> {
    match of {
        Named::Block(id) => Some(world.project.block(*id).name_place()),
        Named::Local(id, name) => {
            let block = world.project.block(*id);
            locals(block)
                .into_iter()
                .find(|(_, word)| word.folded == *name)
                .map(|(line, word)| line.place(word.span))
        }
    }
}

/// The labels and lets that a block itself gives.
pub fn locals<'p>(block: BlockRef<'p>) -> Vec<(LineRef<'p>, &'p Word)> {
    let mut found = Vec::new();
    for line in block.lines() {
        match &*line.line.form {
            Form::Bind(bind) if &*bind.key.folded == "let" => found.push((line, &bind.name)),
            Form::Bind(_) => {}
            form => each_expr(form, &mut |joint, expr| {
                if let (Some(Joint::As), Some(word)) = (joint, expr.word()) {
                    found.push((line, word));
                }
            }),
        }
    }
    found
}

struct Names<'a, 'p> {
    world: &'a World<'p>,
    block: BlockRef<'p>,
    /// The rig that it is, or that it fished.
    rig: BlockId,
    /// Labels and lets in sight, each with the rig that gives it first.
    locals: Vec<(Arc<str>, BlockId)>,
    found: &'a mut Vec<Occurrence>,
}

/// The rig whose labels a block speaks of: itself, or the one that an outing fished.
fn rig_of<'p>(world: &World<'p>, block: BlockRef<'p>) -> Option<BlockRef<'p>> {
    match world.read(block.id).outing() {
        Some(outing) => Some(world.project.block(outing.rig?)),
        None => is_rig(block).then_some(block),
    }
}

fn of_block<'p>(world: &World<'p>, block: BlockRef<'p>, found: &mut Vec<Occurrence>) {
    let kind = block.head().map_or(BlockKind::Rig, |head| head.kind);
    let rig = rig_of(world, block);
    let bases = rig.map(|rig| snell_rig::blocks::lineage(&world.names, rig).unwrap_or_else(|_| vec![rig]));
    let mut locals: Vec<(Arc<str>, BlockId)> = Vec::new();
    for base in bases.into_iter().flatten() {
        for (_, word) in self::locals(base) {
            if !locals.iter().any(|(name, _)| *name == word.folded) {
                locals.push((word.folded.clone(), base.id));
            }
        }
    }
    let mut names = Names {
        world,
        block,
        rig: rig.map_or(block.id, |rig| rig.id),
        locals,
        found,
    };
    names.head();
    for line in block.lines() {
        names.line(kind, line);
    }
}

impl<'p> Names<'_, 'p> {
    fn push(&mut self, place: Place, of: Named, defines: bool) {
        self.found.push(Occurrence { place, of, defines });
    }

    fn head(&mut self) {
        let (Some(head), Some(line)) = (self.block.head(), self.block.head_line()) else {
            return;
        };
        self.push(line.place(head.name.span), Named::Block(self.block.id), true);
        let Some(base) = &head.base else { return };
        let base_block = if base.folded == head.name.folded {
            self.world.names.find_next_out(self.block)
        } else {
            self.world.find(line.file, head.kind, &base.folded)
        };
        if let Some(id) = base_block.block() {
            self.push(line.place(base.span), Named::Block(id), false);
        }
    }

    fn line(&mut self, kind: BlockKind, line: LineRef<'p>) {
        match &*line.line.form {
            Form::Bind(bind) if &*bind.key.folded == "let" => self.local(line, &bind.name, true),
            Form::Change(change) => self.local(line, &change.target.name, false),
            Form::Use(_) | Form::Block(_) | Form::Bind(_) | Form::Claim(_) | Form::Plain(_) => {}
        }
        // The edits of an outing are those of a rig.
        let kind = if is_edit(line) { BlockKind::Rig } else { kind };
        let row = match &*line.line.form {
            Form::Plain(plain) => keywords::row(kind, &self.part_key(line, &plain.key.folded)),
            Form::Change(change) => keywords::row(kind, &self.part_key(line, &change.target.name.folded)),
            Form::Use(_) | Form::Block(_) | Form::Bind(_) | Form::Claim(_) => None,
        };
        let mut words = Vec::new();
        each_expr(&line.line.form, &mut |joint, expr| {
            each_within(expr, &mut |inner| {
                if let Some(path) = inner.path() {
                    words.push((joint, path, std::ptr::eq(inner, expr)));
                }
            });
        });
        for (joint, path, outermost) in words {
            self.path(line, row, joint, path, outermost);
        }
    }

    /// The key whose row says what a line takes: of a `change`, that of the part that it changes; of an
    /// `add`, that of the part that is put in.
    fn part_key(&self, line: LineRef<'p>, key: &str) -> String {
        if RigKey::of(key) == Some(RigKey::Add) {
            let mut first = None;
            each_expr(&line.line.form, &mut |_, expr| {
                first = first.or_else(|| expr.word());
            });
            return first.map_or_else(|| key.to_owned(), |word| word.folded.to_string());
        }
        let Some((_, owner)) = self.locals.iter().find(|(name, _)| **name == *key) else {
            return key.to_owned();
        };
        let giver = self::locals(self.world.project.block(*owner))
            .into_iter()
            .find(|(_, word)| *word.folded == *key);
        giver.map_or_else(
            || key.to_owned(),
            |(line, _)| snell_rig::blocks::line_key(line).0.to_owned(),
        )
    }

    fn path(
        &mut self,
        line: LineRef<'p>,
        row: Option<&'static keywords::Row>,
        joint: Option<Joint>,
        path: &'p [Word],
        outermost: bool,
    ) {
        let first = &path[0];
        if let (Some(Joint::As), [word]) = (joint, path) {
            self.local(line, word, true);
            return;
        }
        let of_fish = [OutingKey::Caught, OutingKey::Lost].map(OutingKey::row);
        if row.is_some_and(|row| of_fish.contains(&row)) && joint == Some(Joint::On) {
            return self.caught(line, first);
        }
        let slots = row.map(|row| match joint {
            Some(joint) => row.clause(joint).map_or(&[][..], |clause| clause.takes),
            None => row.takes,
        });
        for slot in slots.unwrap_or_default().iter().filter(|_| outermost) {
            let kind = if slot.take == Take::Path {
                BlockKind::Rule
            } else if let (Take::Name(kind), 1) = (slot.take, path.len()) {
                kind
            } else {
                continue;
            };
            if let Some(id) = self.world.find(line.file, kind, &first.folded).block() {
                self.push(line.place(first.span), Named::Block(id), false);
                return;
            }
        }
        // `change upper to 5X fluoro` takes what stands behind `of` at once.
        let of = row
            .and_then(|row| row.clause(Joint::Of))
            .filter(|_| outermost && joint.is_none());
        for slot in of.map_or(&[][..], |clause| clause.takes) {
            if let (Take::Name(kind), 1) = (slot.take, path.len())
                && let Some(id) = self.world.find(line.file, kind, &first.folded).block()
            {
                self.push(line.place(first.span), Named::Block(id), false);
                return;
            }
        }
        self.local(line, first, false);
    }

    /// What fish were caught on: a label of the rig, or the name of a fly as the rig's own file knows it.
    fn caught(&mut self, line: LineRef<'p>, word: &Word) {
        let fly = self
            .world
            .find(self.rig.file, BlockKind::Fly, &word.folded)
            .block();
        let is_local = self.locals.iter().any(|(name, _)| *name == word.folded);
        match fly.filter(|_| !is_local) {
            Some(id) => self.push(line.place(word.span), Named::Block(id), false),
            None => self.local(line, word, false),
        }
    }

    fn local(&mut self, line: LineRef<'p>, word: &Word, defines: bool) {
        let given = self.locals.iter().find(|(name, _)| *name == word.folded);
        if let Some((name, owner)) = given.cloned() {
            self.push(line.place(word.span), Named::Local(owner, name), defines);
        }
    }
}

#[cfg(test)]
mod tests;
