//! What a page is told, as plain data. Its names in TypeScript are made from
//! these types. Places count as JavaScript counts: units of UTF-16.

use schemars::JsonSchema;
use serde::Serialize;

/// A rig of a file, and where its block stands.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Rig {
    pub name: String,
    pub from: u32,
    pub to: u32,
}

/// All that a card shows of one rig at once.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Look {
    /// Every rig of the file.
    pub rigs: Vec<Rig>,
    /// The one that is shown; nothing where the file has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rig: Option<String>,
    /// Its title for people.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// The picture to scale, as SVG; nothing where none can be drawn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub picture: Option<String>,
    /// Why there is no picture.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub undrawn: Option<String>,
    /// What is wrong in the file, in its order.
    pub findings: Vec<Found>,
    /// What of the rig a slider moves.
    pub sliders: Vec<Slider>,
}

/// What a card says of the rig once it is worked out.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Judged {
    /// The one that is shown; nothing where the file has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rig: Option<String>,
    /// The verdict, at most three lines.
    pub verdict: Vec<String>,
}

/// A finding.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Found {
    /// The name of the rule or fault.
    pub rule: String,
    /// `fault`, `caution` or `advice`.
    pub level: &'static str,
    pub message: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub help: Option<String>,
    pub from: u32,
    pub to: u32,
    /// What the place is labelled with.
    pub label: String,
    /// Ways out that are known without a search.
    pub ways: Vec<Way>,
}

/// A way out of a finding.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Way {
    pub title: String,
    /// Whether it can only mean what was meant.
    pub sure: bool,
    pub changes: Vec<Change>,
}

/// A change of the file's text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Change {
    pub from: u32,
    pub to: u32,
    pub insert: String,
}

/// A quantity that a slider moves.
pub type Slider = snell_ide::Slider<Ends>;

/// Where a stretch of the file begins and ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Ends {
    pub from: u32,
    pub to: u32,
}

/// What a word means where it stands, in Markdown.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Hovered {
    pub from: u32,
    pub to: u32,
    pub text: String,
}

/// A word that may stand at a place.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Offer {
    pub word: String,
    /// `keyword`, `block`, `local`, `unit`, `measure` or `word`.
    pub sort: &'static str,
    pub detail: String,
    pub about: String,
    /// The half-typed word that it takes the place of.
    pub from: u32,
    pub to: u32,
}

/// A word and what it is, for colouring.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Word {
    pub from: u32,
    pub to: u32,
    /// `keyword`, `opener`, `given`, `name`, `number`, `unit`, `text` or `comment`.
    pub paint: &'static str,
}

/// A stretch of one of the files.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Stretch {
    pub file: String,
    pub from: u32,
    pub to: u32,
}

/// A finding as an editor tells it beside its text.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Noted {
    /// The name of the rule or fault.
    pub rule: String,
    /// `fault`, `caution` or `advice`.
    pub level: &'static str,
    /// The message, with note and help behind it, a line each.
    pub message: String,
    pub from: u32,
    pub to: u32,
    pub elsewhere: Vec<Elsewhere>,
}

/// Another place that a finding is about.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Elsewhere {
    #[serde(flatten)]
    pub at: Stretch,
    pub text: String,
}

/// A change in one of the files.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Changed {
    #[serde(flatten)]
    pub at: Stretch,
    pub insert: String,
}

/// What is told beside a place, and what that is.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Beside {
    pub at: u32,
    pub text: String,
    pub about: &'static str,
}

/// What a rig comes to, told above it.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Total {
    pub from: u32,
    pub to: u32,
    pub text: String,
}

/// A block of a file, or a part of a rig.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Outlined {
    pub name: String,
    pub detail: String,
    /// Whether it is a part of a rig.
    pub part: bool,
    pub from: u32,
    pub to: u32,
    pub name_from: u32,
    pub name_to: u32,
    pub parts: Vec<Outlined>,
}
