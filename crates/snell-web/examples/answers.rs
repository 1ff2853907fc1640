//! The JSON Schema of all that the module answers, of which the package's
//! types for TypeScript are made.

use schemars::JsonSchema;
use snell_view::{Report, ShownRigs};
use snell_web::{
    Beside, Change, Changed, Found, Hovered, Judged, Look, Noted, Offer, Outlined, Stretch, Total, Word,
};

/// One field an answer, by the name of what is asked.
#[derive(JsonSchema)]
#[expect(dead_code, reason = "only its shape is asked")]
struct Answers {
    look: Look,
    judge: Judged,
    check: Report<'static>,
    show: ShownRigs<'static>,
    hover: Option<Hovered>,
    complete: Vec<Offer>,
    words: Vec<Word>,
    slide: Option<Change>,
    ways: Vec<Found>,
    findings: Vec<Noted>,
    missing: Vec<String>,
    look_around: Look,
    judge_around: Judged,
    tidy: Vec<Change>,
    mend: Vec<Change>,
    hints: Vec<Beside>,
    totals: Vec<Total>,
    outline: Vec<Outlined>,
    definition: Option<Stretch>,
    places: Vec<Stretch>,
    changeable: Stretch,
    rename: Vec<Changed>,
}

fn main() -> Result<(), serde_json::Error> {
    let schema = schemars::generate::SchemaSettings::draft2020_12()
        .for_serialize()
        .into_generator()
        .into_root_schema_for::<Answers>();
    println!("{}", serde_json::to_string_pretty(&schema)?);
    Ok(())
}
