//! Findings in the forms that people and programs read.
//!
//! Every form is made from the same findings and loses nothing of them that
//! it has a place for. What is a finding, and which count, is not known here.

pub mod excerpt;
pub mod json;
pub mod junit;
pub mod lines;
pub mod sarif;
mod shared;
pub mod skipped;
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
    /// SARIF 2.1.0, for services that show findings beside the code.
    Sarif,
    /// JUnit XML, for builds that count tests: a file is a suite, a rig a case.
    Junit,
}
