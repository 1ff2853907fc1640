//! A season as comma-separated values, one thing that happened a line: what
//! became of rigs, how figures moved, and fish.

use super::words::sentences;
use crate::season::read::Season;
use crate::sheet::csv::number;
use crate::trouble::Trouble;
use snell_history::{Event, FishOnDay, OnDay, RigStory, Series};
use snell_rig::blocks::Came;
use std::io::Write;

const HEADINGS: [&str; 18] = [
    "what",
    "day",
    "rig",
    "file",
    "commit",
    "told",
    "figure",
    "value",
    "unit",
    "low",
    "high",
    "water",
    "fly",
    "fish",
    "lost",
    "species",
    "lengths_m",
    "time",
];

/// One line; what is not filled in is empty.
#[derive(Default)]
struct Row<'r> {
    what: &'r str,
    day: String,
    rig: &'r str,
    file: &'r str,
    commit: &'r str,
    told: String,
    figure: &'r str,
    value: String,
    unit: &'r str,
    low: String,
    high: String,
    water: &'r str,
    fly: &'r str,
    fish: String,
    lost: String,
    species: &'r str,
    lengths: String,
    time: &'r str,
}

impl Row<'_> {
    fn cells(&self) -> [&str; HEADINGS.len()] {
        [
            self.what,
            &self.day,
            self.rig,
            self.file,
            self.commit,
            &self.told,
            self.figure,
            &self.value,
            self.unit,
            &self.low,
            &self.high,
            self.water,
            self.fly,
            &self.fish,
            &self.lost,
            self.species,
            &self.lengths,
            self.time,
        ]
    }
}

/// Writes a line of headings and one line a thing that happened.
///
/// # Errors
/// The output cannot be written.
pub fn write(out: &mut impl Write, season: &Season) -> Result<(), Trouble> {
    let mut writer = csv::Writer::from_writer(out);
    writer.write_record(HEADINGS)?;
    for story in &season.rigs {
        let events = story.all_events().map(|one| event(season, one));
        let figures = story
            .series
            .iter()
            .flat_map(|series| figures(season, story, series));
        for row in events.chain(figures) {
            writer.write_record(row.cells())?;
        }
    }
    for day in &season.fished.days {
        for row in outing(season, day) {
            writer.write_record(row.cells())?;
        }
    }
    Ok(writer.flush()?)
}

fn event<'s>(season: &'s Season, event: &'s Event) -> Row<'s> {
    let commit = &season.commits[event.commit];
    Row {
        what: event.what.word(),
        day: commit.day().to_owned(),
        rig: &event.rig.called.name,
        file: &event.rig.called.file,
        commit: &commit.id,
        told: sentences(event).join("; "),
        ..Row::default()
    }
}

fn figures<'s>(
    season: &'s Season,
    story: &'s RigStory,
    series: &'s Series,
) -> impl Iterator<Item = Row<'s>> + 's {
    series.points.iter().filter_map(|point| {
        let commit = &season.commits[point.commit];
        let written = point.written.as_ref()?;
        let end = |of: fn(&snell_view::Range) -> f64| {
            let between = written.between.as_ref();
            between.map_or_else(String::new, |between| number(of(between)))
        };
        Some(Row {
            what: "figure",
            day: commit.day().to_owned(),
            rig: &story.name,
            file: &story.file,
            commit: &commit.id,
            told: written.text.clone(),
            figure: series.figure.name(),
            value: written.value.map_or_else(String::new, number),
            unit: written.unit.as_deref().unwrap_or_default(),
            low: end(|between| between.low),
            high: end(|between| between.high),
            ..Row::default()
        })
    })
}

/// A line for each fly or kind of fish; one for an outing without any.
fn outing<'s>(season: &'s Season, day: &'s OnDay) -> Vec<Row<'s>> {
    let row = |fish: Option<&'s FishOnDay>| {
        let count = |came: Came| {
            let of = fish.filter(|fish| fish.came == came);
            of.map_or(0, |fish| fish.count).to_string()
        };
        let said = fish.map(|fish| &fish.said);
        let lengths = said.into_iter().flat_map(|said| &said.lengths);
        let lengths: Vec<String> = lengths.map(|length| number(length.metres)).collect();
        let commit = day.taken.commit().map(|commit| &season.commits[commit].id);
        Row {
            what: "outing",
            day: day.outing.day.to_string(),
            rig: day.rig_name(&season.rigs),
            file: &day.outing.rig_file,
            commit: commit.map_or("", String::as_str),
            told: day.outing.notes.join("; "),
            water: day.water.as_deref().unwrap_or_default(),
            fly: fish.and_then(|fish| fish.fly.as_deref()).unwrap_or_default(),
            fish: count(Came::ToHand),
            lost: count(Came::Off),
            species: said.and_then(|said| said.species).unwrap_or_default(),
            lengths: lengths.join(" "),
            time: said.and_then(|said| said.time.as_deref()).unwrap_or_default(),
            ..Row::default()
        }
    };
    match day.fish.as_slice() {
        [] => vec![row(None)],
        all => all.iter().map(|fish| row(Some(fish))).collect(),
    }
}
