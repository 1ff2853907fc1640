//! What a rig is made of, piece by piece, as two of them are compared.

use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use snell_rig::keywords::PartKind;
use snell_units::System;

/// A kind of part by its word.
pub(crate) fn by_word<S: Serializer>(kind: &PartKind, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(kind.word())
}

/// A piece of the line, or what is tied to it.
#[derive(Clone, Debug, Serialize, JsonSchema, PartialEq)]
pub struct Piece {
    /// What it is, by the word that opens its line: `tippet`, `dropper`, `ring`.
    #[serde(serialize_with = "by_word")]
    #[schemars(with = "String")]
    pub role: PartKind,
    /// Its label.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// What it is called: its label, or its role, numbered where there are several.
    pub name: String,
    /// What it is.
    pub traits: Vec<Trait>,
}

/// One side of a piece.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Trait {
    /// Which.
    #[serde(rename = "trait")]
    pub kind: TraitKind,
    /// As its author would say it.
    pub text: String,
    /// In SI, where it is a length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<f64>,
    /// What it comes to, by name.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub details: Vec<Detail>,
    /// Whether it was written, rather than taken as usual.
    #[serde(skip)]
    pub(super) stated: bool,
    /// The units that its author writes in.
    #[serde(skip)]
    pub(crate) system: Option<System>,
}

impl PartialEq for Trait {
    fn eq(&self, other: &Self) -> bool {
        if self.kind != other.kind {
            return false;
        }
        match (self.value, other.value) {
            (Some(one), Some(other)) => (one - other).abs() <= 1e-9 * one.abs().max(other.abs()),
            (None, None) if self.details.is_empty() && other.details.is_empty() => self.text == other.text,
            (None, None) => self.details == other.details,
            _ => false,
        }
    }
}

/// Something that a stuff or a fly comes to.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Detail {
    /// What.
    pub name: &'static str,
    /// As its author would say it.
    pub text: String,
    #[serde(skip)]
    pub(super) same: String,
}

impl PartialEq for Detail {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name && self.same == other.same
    }
}

/// The sides of a piece.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema, PartialEq, Eq, PartialOrd, Ord)]
#[serde(rename_all = "kebab-case")]
pub enum TraitKind {
    /// Its finished length.
    Length,
    /// What it is made of.
    Stuff,
    /// The fly that it carries.
    Fly,
    /// The knot that ties that fly on.
    FlyKnot,
    /// The knot at its lower end.
    Knot,
    /// How long the cut ends of that knot are left.
    Tags,
    /// The size of a ring, shot or float.
    Size,
}

impl Piece {
    /// One of its sides.
    pub fn get(&self, kind: TraitKind) -> Option<&Trait> {
        self.traits.iter().find(|one| one.kind == kind)
    }

    /// Its finished length in metres.
    pub fn length(&self) -> Option<f64> {
        self.get(TraitKind::Length)?.value
    }

    /// What it is: `20 in of 6X fluoro`, `8 in with slate spider`.
    pub fn described(&self) -> String {
        let sides = [
            TraitKind::Length,
            TraitKind::Stuff,
            TraitKind::Fly,
            TraitKind::Size,
        ];
        let said = sides.into_iter().filter_map(|side| {
            let text = &self.get(side).filter(|one| !one.text.is_empty())?.text;
            let joint = match side {
                TraitKind::Stuff => "of ",
                TraitKind::Fly if self.role == PartKind::Dropper => "with ",
                TraitKind::Fly
                | TraitKind::Length
                | TraitKind::FlyKnot
                | TraitKind::Knot
                | TraitKind::Tags
                | TraitKind::Size => "",
            };
            Some(format!("{joint}{text}"))
        });
        said.collect::<Vec<_>>().join(" ")
    }

    /// What kind of part it is, what it is, and its label: `tippet 20 in of 6X fluoro as upper`.
    pub fn in_words(&self) -> String {
        let label = self.label.as_ref().map(|label| format!("as {label}"));
        let words = [
            self.role.word().to_owned(),
            self.described(),
            label.unwrap_or_default(),
        ];
        let said: Vec<String> = words.into_iter().filter(|word| !word.is_empty()).collect();
        said.join(" ")
    }

    /// Whether it is a piece of line.
    pub fn is_section(&self) -> bool {
        self.role.role().is_some()
    }

    /// Whether it carries a fly.
    pub fn is_tied(&self) -> bool {
        self.get(TraitKind::Fly).is_some()
    }

    /// Whether one side is the same in both. A knot that neither names is what is usual there, and follows
    /// from the rest; one that only one rig has is told by the piece that comes or goes.
    pub(crate) fn same(&self, other: &Self, kind: TraitKind) -> bool {
        let (one, other) = (self.get(kind), other.get(kind));
        match (kind, one, other) {
            (TraitKind::Knot | TraitKind::FlyKnot, Some(one), Some(other)) => {
                one.text == other.text || !(one.stated || other.stated)
            }
            (TraitKind::Knot, None, _) | (TraitKind::Knot, _, None) => true,
            _ => one == other,
        }
    }

    /// Whether it is the same piece but for its label.
    pub(crate) fn equals(&self, other: &Self) -> bool {
        self.role == other.role && TraitKind::ALL.iter().all(|kind| self.same(other, *kind))
    }
}

impl TraitKind {
    /// Every one.
    pub const ALL: [Self; 7] = [
        Self::Length,
        Self::Stuff,
        Self::Fly,
        Self::FlyKnot,
        Self::Knot,
        Self::Tags,
        Self::Size,
    ];
}

impl Trait {
    /// A knot that is named, as its rig's line has it.
    pub fn as_knot_line(&self) -> Option<String> {
        match self.kind {
            TraitKind::Knot | TraitKind::FlyKnot if self.stated => Some(format!("knot {}", self.text)),
            TraitKind::Tags => Some(format!("tags {}", self.text)),
            TraitKind::Knot
            | TraitKind::FlyKnot
            | TraitKind::Length
            | TraitKind::Stuff
            | TraitKind::Fly
            | TraitKind::Size => None,
        }
    }
}

impl Detail {
    /// Its lower figure in SI, where it is one.
    pub(crate) fn number(&self) -> Option<f64> {
        self.same.split_once(' ')?.0.parse().ok()
    }
}
