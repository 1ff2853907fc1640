//! A comparison as JSON: a contract with the programs that read it.

use crate::trouble::Trouble;
use schemars::JsonSchema;
use serde::Serialize;
use snell_view::compare::Comparison;
use std::io::Write;

/// The version of this form.
pub const VERSION: u32 = 1;

/// What changed between two states.
#[derive(Serialize, JsonSchema)]
pub struct Compared<'c> {
    /// The version of this form.
    version: u32,
    #[serde(flatten)]
    comparison: &'c Comparison,
}

/// Writes it as one value.
///
/// # Errors
/// The output cannot be written.
pub fn write(out: &mut impl Write, comparison: &Comparison) -> Result<(), Trouble> {
    let compared = Compared {
        version: VERSION,
        comparison,
    };
    serde_json::to_writer_pretty(&mut *out, &compared)?;
    Ok(writeln!(out)?)
}
