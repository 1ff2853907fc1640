//! Rigs as JSON: a contract with the programs that read it.

use crate::trouble::Trouble;
use serde::Serialize;
use snell_view::ShownRigs;
use std::io::Write;

/// Writes all rigs as one value.
///
/// # Errors
/// The output cannot be written.
pub fn write<T: Serialize>(out: &mut impl Write, rigs: &[T]) -> Result<(), Trouble> {
    serde_json::to_writer_pretty(&mut *out, &ShownRigs::from(rigs))?;
    Ok(writeln!(out)?)
}
