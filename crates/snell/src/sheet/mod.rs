//! A rig as a sheet to read: its settings, its parts from rod to fly, its
//! measures, what was assumed and what is unknown.
//!
//! Every form that people read is written from the same sheet, so none says
//! more than another. How a value comes about is not known here.

pub mod card;
pub mod csv;
pub mod drawn;
pub mod drift;
mod entry;
pub mod fit;
pub mod fragment;
pub mod html;
pub mod json;
pub mod markdown;
pub mod plain;
pub mod plan;
mod table;
pub mod unsaid;
pub mod vary;
pub mod words;

pub use entry::Named;
use entry::named;
use snell_rig::measure::Kind;
use snell_syntax::BlockKind;
use snell_view::{Place, ShownRig, Written};

/// The forms of shown rigs.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, clap::ValueEnum)]
pub enum Form {
    /// A table for people, laid out for the width of the terminal.
    #[default]
    Table,
    /// JSON, with every measure in SI beside the author's own text.
    Json,
    /// Comma-separated values, one part a line.
    Csv,
    /// Markdown, for a page or a message.
    Markdown,
    /// One HTML page that needs nothing else.
    Html,
    /// A piece of HTML to put into a page: picture, caption, parts, and the rig's text to copy.
    Fragment,
}

/// A rig to read.
#[derive(Debug)]
pub struct Sheet {
    /// Its name.
    pub name: String,
    /// Its title.
    pub title: Option<String>,
    /// Where it stands: file and line.
    pub place: String,
    /// The rig that it is made from.
    pub from: Option<String>,
    /// The verdict in a few lines.
    pub answer: Vec<String>,
    /// Method, rod, water, notes.
    pub settings: Vec<Named>,
    /// The columns of the table that are not empty.
    pub columns: Vec<Column>,
    /// The table from rod to fly.
    pub parts: Vec<Part>,
    /// The rig's own measures.
    pub measures: Vec<Named>,
    /// Those of them that are estimates, each with how wrong it may be.
    pub estimates: Vec<Named>,
    /// The cast, droppers, gaps and flies, each in words.
    pub remarks: Vec<Named>,
    /// What was taken because the rig leaves it unsaid.
    pub assumed: Vec<String>,
    /// What cannot be told, by what is missing.
    pub unknown: Vec<String>,
}

/// A column of the table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Column {
    /// The part's name.
    Part,
    /// Its finished length.
    Length,
    /// From its lower end to the point.
    ToPoint,
    /// Its diameter.
    Diameter,
    /// What its label claims.
    Rated,
    /// What it is.
    What,
    /// The knot at its lower end.
    Knot,
}

impl Column {
    const ALL: [Self; 7] = [
        Self::Part,
        Self::Length,
        Self::ToPoint,
        Self::Diameter,
        Self::Rated,
        Self::What,
        Self::Knot,
    ];

    /// Its heading.
    pub fn heading(self) -> &'static str {
        match self {
            Self::Part => "part",
            Self::Length => "length",
            Self::ToPoint => "to point",
            Self::Diameter => "diameter",
            Self::Rated => "rated",
            Self::What => "what it is",
            Self::Knot => "knot",
        }
    }

    /// Whether its values are read from the right.
    pub fn is_of_figures(self) -> bool {
        matches!(self, Self::Length | Self::ToPoint | Self::Diameter | Self::Rated)
    }
}

/// A row of the table.
#[derive(Debug, Default)]
pub struct Part {
    /// Whether it hangs on the line rather than being a piece of it.
    pub hangs: bool,
    cells: [String; 7],
}

impl Part {
    /// What stands in a column.
    pub fn cell(&self, column: Column) -> &str {
        &self.cells[column as usize]
    }
}

impl Sheet {
    /// The sheet of a rig.
    pub fn of(rig: &ShownRig) -> Self {
        let parts: Vec<Part> = rig.rows.iter().map(part).collect();
        let filled = |column: &Column| parts.iter().any(|part| !part.cell(*column).is_empty());
        let columns = Column::ALL.into_iter().filter(filled).collect();
        Self {
            name: rig.name.clone(),
            title: rig.title.clone(),
            place: format!("{}:{}", rig.file, rig.line),
            from: rig.from.clone(),
            answer: rig
                .verdict
                .as_ref()
                .map_or_else(Vec::new, |verdict| verdict.answer.clone()),
            settings: settings(rig),
            columns,
            parts,
            measures: measures(rig, false),
            estimates: measures(rig, true),
            remarks: cast(rig).into_iter().chain(words::remarks(rig)).collect(),
            assumed: unsaid::assumed(&rig.assumed),
            unknown: unsaid::unknown(rig),
        }
    }
}

impl Sheet {
    /// The same without its water, and without what rests on it.
    #[must_use]
    pub fn without_water(mut self) -> Self {
        self.settings
            .retain(|setting| setting.name != BlockKind::Water.word());
        self.answer.clear();
        self.estimates.clear();
        self
    }
}

fn part(row: &snell_view::Row) -> Part {
    let text = |written: &Option<Written>| {
        written
            .as_ref()
            .map_or_else(String::new, |written| written.text.clone())
    };
    Part {
        hangs: row.place != Place::Section,
        cells: [
            row.part.clone(),
            text(&row.length),
            text(&row.to_point),
            text(&row.diameter),
            text(&row.rated),
            title_alone(&row.what).to_owned(),
            row.knot.clone(),
        ],
    }
}

fn settings(rig: &ShownRig) -> Vec<Named> {
    let settings = rig
        .settings
        .iter()
        .map(|(name, text)| named(name, title_alone(text)));
    let notes = rig.notes.iter().map(|note| named("note", note));
    settings.chain(notes).collect()
}

/// What stands over estimates.
pub const ESTIMATES: &str = "estimates, each with its likely range";

/// The rig's measures, estimates or not; those in words say what its settings say already.
fn measures(rig: &ShownRig, estimates: bool) -> Vec<Named> {
    let told = rig
        .measures
        .iter()
        .filter(|(name, _)| words::is_told(Kind::Rig, name));
    let figures = told.filter(|(_, written)| written.value.is_some() && written.estimate == estimates);
    figures
        .map(|(name, written)| named(name, &words::value(Kind::Rig, name, written)))
        .collect()
}

/// What carries the cast.
fn cast(rig: &ShownRig) -> Option<Named> {
    let cast = rig.verdict.as_ref()?.casts.as_ref()?;
    Some(named("cast", &cast.text))
}

/// `slate, slate spider` as `slate spider`: a title that opens with its name needs no name before it.
fn title_alone(described: &str) -> &str {
    match described.split_once(", ") {
        Some((name, title))
            if title
                .strip_prefix(name)
                .is_some_and(|rest| rest.starts_with([' ', ','])) =>
        {
            title
        }
        _ => described,
    }
}
