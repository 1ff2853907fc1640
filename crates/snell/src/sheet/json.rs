//! Rigs as JSON: a contract with the programs that read it.

use crate::trouble::Trouble;
use schemars::JsonSchema;
use serde::Serialize;
use snell_view::ShownRig;
use std::io::Write;

/// The version of this form.
pub const VERSION: u32 = 1;

/// All rigs in one value.
#[derive(Serialize, JsonSchema)]
pub struct Shown<'r, T = ShownRig> {
    /// The version of this form.
    version: u32,
    /// The rigs, in the order of their files.
    rigs: &'r [T],
}

/// Writes all rigs as one value.
///
/// # Errors
/// The output cannot be written.
pub fn write<T: Serialize>(out: &mut impl Write, rigs: &[T]) -> Result<(), Trouble> {
    let shown = Shown {
        version: VERSION,
        rigs,
    };
    serde_json::to_writer_pretty(&mut *out, &shown)?;
    Ok(writeln!(out)?)
}
