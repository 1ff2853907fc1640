//! Evaluated rigs for other programs: the JSON that `show` writes, the same a
//! rig a line, or comma-separated values a measure a line; and the schemas.
//!
//! How a rig is evaluated is not known here.

mod schema;

pub use schema::{SchemaOf, schema};

use crate::sheet::csv::number;
use crate::sheet::json;
use crate::trouble::Trouble;
use snell_rig::measure::Kind;
use snell_view::{Measures, Range, ShownPart, ShownRig};
use std::io::Write;

/// The forms of exported rigs.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, clap::ValueEnum)]
pub enum Form {
    /// One JSON value, as `snell show --form json` writes it.
    #[default]
    Json,
    /// JSON lines: each line one rig, as it stands in that value.
    JsonLines,
    /// Comma-separated values: each line one measure of a rig or of a part.
    Csv,
}

/// Writes rigs.
///
/// # Errors
/// The output cannot be written.
pub fn write(out: &mut impl Write, rigs: &[ShownRig], form: Form) -> Result<(), Trouble> {
    match form {
        Form::Json => json::write(out, rigs),
        Form::JsonLines => {
            for rig in rigs {
                serde_json::to_writer(&mut *out, rig)?;
                writeln!(out)?;
            }
            Ok(())
        }
        Form::Csv => csv(out, rigs),
    }
}

const HEADINGS: [&str; 11] = [
    "file", "rig", "of", "part", "measure", "value", "unit", "text", "estimate", "low", "high",
];

fn csv(out: &mut impl Write, rigs: &[ShownRig]) -> Result<(), Trouble> {
    let mut writer = csv::Writer::from_writer(out);
    writer.write_record(HEADINGS)?;
    for rig in rigs {
        each(rig, &mut |kind, part, measures| {
            for (name, written) in measures {
                let value = written.value.map_or_else(String::new, number);
                let between = written.between.as_ref();
                let end =
                    |of: fn(&Range) -> f64| between.map_or_else(String::new, |between| number(of(between)));
                writer.write_record([
                    rig.file.as_str(),
                    &rig.name,
                    kind.word(),
                    part,
                    name,
                    &value,
                    written.unit.as_deref().unwrap_or_default(),
                    &written.text,
                    if written.estimate { "yes" } else { "no" },
                    &end(|between| between.low),
                    &end(|between| between.high),
                ])?;
            }
            Ok(())
        })?;
    }
    Ok(writer.flush()?)
}

/// The measures of a rig and of each of its parts.
fn each(
    rig: &ShownRig,
    told: &mut dyn FnMut(Kind, &str, &Measures) -> Result<(), Trouble>,
) -> Result<(), Trouble> {
    told(Kind::Rig, "", &rig.measures)?;
    let kinds: [(Kind, &[ShownPart]); 5] = [
        (Kind::Section, &rig.sections),
        (Kind::Join, &rig.joins),
        (Kind::Dropper, &rig.droppers),
        (Kind::Gap, &rig.gaps),
        (Kind::Fly, &rig.flies),
    ];
    for (kind, parts) in kinds {
        for part in parts {
            told(kind, &part.name, &part.measures)?;
        }
    }
    Ok(())
}
