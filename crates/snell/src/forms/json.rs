//! Findings as JSON. What they say is a contract, and stands with the data.

use crate::trouble::Trouble;
use snell_analysis::Skipped;
use snell_finding::Finding;
use snell_view::{Places, Report};
use std::io::Write;

/// Writes all findings as one value; what was skipped, where it was asked for.
///
/// # Errors
/// The output cannot be written.
pub fn write(
    out: &mut impl Write,
    findings: &[Finding],
    skipped: Option<&[Skipped]>,
    places: &Places<'_>,
) -> Result<(), Trouble> {
    serde_json::to_writer_pretty(&mut *out, &Report::of(findings, skipped, places))?;
    Ok(writeln!(out)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk, Notebook};
    use snell_finding::Fix;
    use snell_finding::{Code, Level};
    use snell_text::{Place, Span, TextId};
    use std::path::Path;

    #[test]
    fn the_shape_is_the_contract() {
        let text = "// é\nfly a\n  hook 14\n".to_owned();
        let notebook = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text, &LocalDisk);
        let place = Place::new(TextId(0), Span::new(19, 21));
        let finding = Finding::new(Code::UnitMissing, Level::Fault, place, "no unit")
            .here("of what?")
            .label(Place::new(TextId(0), Span::new(6, 9)), "in this fly")
            .rig("low")
            .note("a note")
            .help("say it")
            .fix(Fix::sure(
                "write `#14`",
                Place::new(TextId(0), Span::empty(19)),
                "#",
            ));
        let mut out = Vec::new();
        let findings = [finding];
        write(&mut out, &findings, None, &Places::new(&notebook, &findings)).unwrap();
        insta::assert_snapshot!(String::from_utf8(out).unwrap());
    }
}
