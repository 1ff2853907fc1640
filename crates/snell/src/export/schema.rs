//! The JSON Schemas of what is written, made from the types that are written
//! and from the table of measures.
//!
//! Source: JSON Schema, draft 2020-12.

use crate::comparison::json as compare;
use crate::season::json as season;
use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema};
use serde_json::{Map, Value, json};
use snell_finding::Level;
use snell_rig::measure::{self, Get, Kind, Measure};
use snell_view::fit::ShownFit;
use snell_view::{REPORT_VERSION, RIGS_VERSION, Report, ShownCard, ShownRigs};

/// Where the parts of a rig stand in it, with what each is.
const PARTS: [(&str, Kind); 5] = [
    ("sections", Kind::Section),
    ("joins", Kind::Join),
    ("droppers", Kind::Dropper),
    ("gaps", Kind::Gap),
    ("flies", Kind::Fly),
];

/// The schema of a form.
pub fn schema(of: SchemaOf) -> Value {
    match of {
        SchemaOf::Show => {
            let mut schema = made::<ShownRigs<'static>>();
            name(&mut schema, "Rigs of snell, evaluated", RIGS_VERSION);
            with_measures(&mut schema);
            schema
        }
        SchemaOf::Findings => {
            let mut schema = made::<Report<'static>>();
            name(&mut schema, "Findings of snell", REPORT_VERSION);
            let levels = Level::ALL.map(Level::word);
            schema["$defs"]["Found"]["properties"]["level"]["enum"] = json!(levels);
            schema
        }
        SchemaOf::Compare => {
            let mut schema = made::<compare::Compared<'static>>();
            name(
                &mut schema,
                "What changed between two states of rigs",
                compare::VERSION,
            );
            schema
        }
        SchemaOf::Season => {
            let mut schema = made::<season::Told<'static>>();
            name(&mut schema, "What became of rigs in a history", season::VERSION);
            schema
        }
        SchemaOf::Fit => {
            let mut schema = made::<ShownRigs<'static, ShownFit>>();
            name(&mut schema, "Rigs fitted to a water", RIGS_VERSION);
            schema
        }
        SchemaOf::Card => {
            let mut schema = made::<ShownRigs<'static, ShownCard>>();
            name(&mut schema, "Cards for the pocket", RIGS_VERSION);
            schema
        }
    }
}

fn made<T: JsonSchema>() -> Value {
    let settings = SchemaSettings::draft2020_12().for_serialize();
    let schema: Schema = settings.into_generator().into_root_schema_for::<T>();
    let mut schema = schema.to_value();
    without_widths(&mut schema);
    schema
}

/// Takes out the widths of numbers, such as `uint32`: no vocabulary of JSON Schema has them, and strict validators
/// refuse what they do not know.
fn without_widths(schema: &mut Value) {
    match schema {
        Value::Object(fields) => {
            if fields.get("format").is_some_and(Value::is_string) {
                fields.remove("format");
            }
            fields.values_mut().for_each(without_widths);
        }
        Value::Array(all) => all.iter_mut().for_each(without_widths),
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}

fn name(schema: &mut Value, title: &str, version: u32) {
    schema["title"] = json!(title);
    schema["properties"]["version"]["const"] = json!(version);
}

/// Says which measures a rig and each kind of part may have.
fn with_measures(schema: &mut Value) {
    let part = schema["$defs"]["ShownPart"].clone();
    let rig = &mut schema["$defs"]["ShownRig"]["properties"];
    rig["measures"] = measures(Kind::Rig);
    for (key, kind) in PARTS {
        rig[key]["items"] = json!({"$ref": format!("#/$defs/{}", kind.word())});
    }
    for (_, kind) in PARTS {
        let mut one = part.clone();
        one["properties"]["measures"] = measures(kind);
        schema["$defs"][kind.word()] = one;
    }
    if let Some(defined) = schema["$defs"].as_object_mut() {
        defined.remove("ShownPart");
    }
}

fn measures(kind: Kind) -> Value {
    let known: Map<String, Value> = measure::all_of(kind)
        .map(|measure| (measure.name.to_owned(), one(measure)))
        .collect();
    json!({
        "description": format!("The measures that can be told, by name."),
        "type": "object",
        "properties": known,
        "additionalProperties": false,
    })
}

fn one(measure: &Measure) -> Value {
    let mut schema = json!({"type": "object", "$ref": "#/$defs/Written", "description": measure.about});
    if let Get::Value(_) = measure.get {
        let unit = measure.dimension.si_unit();
        if unit.is_empty() {
            schema["required"] = json!(["value"]);
        } else {
            schema["required"] = json!(["value", "unit"]);
            schema["properties"] = json!({"unit": {"const": unit}});
        }
    }
    schema
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::ValueEnum;

    /// What the code adds to the schemas stands where they have it.
    #[test]
    fn the_tables_stand_in_the_schema() {
        let show = schema(SchemaOf::Show);
        let rig = &show["$defs"]["ShownRig"]["properties"];
        assert_eq!(
            rig["measures"]["properties"]["total"]["properties"]["unit"]["const"],
            "m"
        );
        assert_eq!(rig["flies"]["items"]["$ref"], "#/$defs/fly");
        let fly = &show["$defs"]["fly"]["properties"]["measures"]["properties"];
        assert!(fly["rides"]["description"].is_string());
        let found = &schema(SchemaOf::Findings)["$defs"]["Found"]["properties"];
        assert_eq!(found["level"]["enum"], json!(["advice", "caution", "fault"]));
        assert_eq!(found["level"]["type"], "string");
        for of in SchemaOf::value_variants().iter().copied() {
            assert!(!schema(of).to_string().contains("\"format\""));
        }
    }
}

/// What there is a JSON Schema of.
#[derive(Clone, Copy, PartialEq, Eq, Debug, clap::ValueEnum)]
pub enum SchemaOf {
    /// Rigs: `snell show --form json`, `snell export`.
    Show,
    /// Findings: `snell check --form json`.
    Findings,
    /// What changed: `snell compare --form json`.
    Compare,
    /// What became of rigs: `snell season --form json`.
    Season,
    /// Rigs fitted to a water: `snell fit --form json`.
    Fit,
    /// Cards: `snell card --form json`.
    Card,
}
