//! One finding a line, for editors and scripts that read without a parser.

use crate::prose::printable;
use snell_finding::Finding;
use snell_view::Places;
use std::io::{self, Write};

/// Writes `file:line:column: level: rule: message` for each finding.
///
/// # Errors
/// The output cannot be written.
pub fn write(out: &mut impl Write, findings: &[Finding], places: &Places<'_>) -> io::Result<()> {
    for finding in findings {
        let place = places.written(finding.place());
        let message = printable(&finding.message);
        writeln!(
            out,
            "{}: {}: {}: {message}",
            printable(&place),
            finding.level.word(),
            finding.code
        )?;
    }
    Ok(())
}
