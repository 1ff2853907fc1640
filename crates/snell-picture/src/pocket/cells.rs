//! What a card shows: its head, cells, signs, and the rig that it is of.

/// What is drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pocket {
    /// What it is drawn for.
    pub paper: Paper,
    /// The rig's name, or what the picture is of where it stands under that.
    pub name: String,
    /// Its title for people.
    pub title: Option<String>,
    /// What the picture is, in words.
    pub about: String,
    /// Over the speeds.
    pub across: String,
    /// Over the depths.
    pub down: String,
    /// Speeds, from left to right.
    pub speeds: Vec<String>,
    /// Of each depth its name and its cells, from the surface down.
    pub rows: Vec<(String, Vec<PocketCell>)>,
    /// The rig from rod to fly.
    pub rig: Vec<PocketPart>,
    /// What stands below, each with a word or a sign before it.
    pub notes: Vec<PocketNote>,
}

/// What a card is drawn for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// A sheet of its own, as small as its figures allow, from A6 up.
    #[default]
    Own,
    /// A column of a rig's sheet.
    Column,
}

/// A cell. Cells beside one another with one answer are one region.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PocketCell {
    /// What fishes it, or why nothing does.
    pub answer: String,
    /// Whether something does.
    pub fished: bool,
    /// What the cell has of its own, a line each.
    pub lines: Vec<String>,
    /// The signs at its foot.
    pub signs: Vec<Sign>,
}

/// A sign at the foot of a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Hard water to stand in.
    Hard,
    /// Water to stay out of.
    KeepOut,
    /// The rig's own water.
    Own,
}

/// A part of the rig.
#[derive(Clone, Debug, PartialEq)]
pub struct PocketPart {
    /// Its name and length.
    pub part: String,
    /// What it is, or the spool that it comes from.
    pub what: String,
    /// The knot at its lower end.
    pub knot: String,
}

/// What stands before a note.
#[derive(Clone, Debug, PartialEq)]
pub enum NoteHead {
    /// A word.
    Word(String),
    /// A sign of the cells.
    Sign(Sign),
}

/// A note.
#[derive(Clone, Debug, PartialEq)]
pub struct PocketNote {
    /// What it is about.
    pub head: NoteHead,
    /// The note.
    pub text: String,
}
