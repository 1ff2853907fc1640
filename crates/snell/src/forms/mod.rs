//! Findings in the forms that people and programs read.
//!
//! Every form is made from the same findings and loses nothing of them that
//! it has a place for. What is a finding, and which count, is not known here.

pub mod excerpt;
pub mod json;
pub mod lines;
pub mod places;
pub mod text;

/// The forms of a check.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, clap::ValueEnum)]
pub enum Form {
    /// Reports for people, with the lines they speak of.
    #[default]
    Text,
    /// One finding a line: file:line:column: level: rule: message.
    Lines,
    /// JSON, with every place and mend.
    Json,
}
