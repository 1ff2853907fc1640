//! A season as one HTML page that needs nothing else: how figures moved, what
//! the outings suggest, the outings, and what became of each rig.

use super::chart::{self, Chart};
use super::words::{self, sentences};
use crate::prose::counted;
use crate::season::read::Season;
use crate::sheet::html::{STYLE, escaped};
use snell_history::{Event, OnDay, RigStory, Sum, Told, told};

/// What the page has beyond the style of sheets.
const OWN_STYLE: &str = "\
.moves { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 21rem), 1fr)); gap: 0.5rem 1rem; margin: 1rem 0; }
.moved { width: 100%; height: auto; max-width: 30rem; break-inside: avoid; }
.about { color: var(--quiet); }
.gone h1 { color: var(--quiet); }
td { overflow-wrap: anywhere; }
@media print { .moved text { fill: #000; } .moves { grid-template-columns: 1fr 1fr; } }
@media (max-width: 30rem) { .happened td:nth-of-type(1) { display: none; } }
";

/// Writes the page.
pub fn write(season: &Season, who: bool) -> String {
    let (told, unchanged): (Vec<_>, Vec<_>) = season.rigs.iter().partition(|rig| season.is_told(rig));
    let rigs: String = told.into_iter().map(|story| rig(season, story, who)).collect();
    let remarks = words::remarks(season);
    let remarks = remarks.iter().map(|told| format!("<p>{}</p>\n", escaped(told)));
    let span = season.span().map_or_else(String::new, |(first, last)| {
        format!("{} to {}", escaped(first), escaped(last))
    });
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" \
         content=\"width=device-width, initial-scale=1\">\n<title>A season of rigs</title>\n<style>\n{STYLE}{}\n{OWN_STYLE}</style>\n\
         </head>\n<body>\n<main>\n<h1>A season of rigs <span>{span}</span></h1>\n{}{}{}{}{rigs}{}</main>\n</body>\n</html>\n",
        chart::STYLE,
        remarks.collect::<String>(),
        moves(season),
        suggested(season),
        outings(season),
        unchanged_rigs(&unchanged)
    )
}

fn moves(season: &Season) -> String {
    let chart = Chart::of(season);
    let pictures: String = chart.each().collect();
    format!(
        "<div class=\"moves\">\n{pictures}</div>\n<p class=\"about\">{}</p>\n",
        escaped(&chart.about())
    )
}

fn suggested(season: &Season) -> String {
    if season.suggested.is_empty() {
        return String::new();
    }
    let told = season.suggested.iter().map(words::suggestion);
    let told: String = told
        .map(|told| format!("<li>{}</li>\n", escaped(&told)))
        .collect();
    format!("<article>\n<h1>What the outings suggest</h1>\n<ul>\n{told}</ul>\n</article>\n")
}

fn unchanged_rigs(rigs: &[&RigStory]) -> String {
    if rigs.is_empty() {
        return String::new();
    }
    let names: Vec<String> = rigs.iter().map(|story| escaped(&story.name)).collect();
    format!(
        "<article>\n<h1>{} as written down</h1>\n<p>{}</p>\n</article>\n",
        counted(rigs.len(), "rig", "rigs"),
        names.join(", ")
    )
}

fn rig(season: &Season, story: &RigStory, who: bool) -> String {
    let title = story.last().and_then(|rig| rig.called.title.as_deref());
    let title = title.map_or_else(String::new, |title| format!(" <span>{}</span>", escaped(title)));
    let rows = |events: &[Event]| -> String {
        let all = told(events);
        all.iter().map(|one| row(season, one, who)).collect()
    };
    let mut told = rows(&story.events);
    for side in &story.sides {
        let branch = escaped(&words::branch(season, story, side));
        told.push_str(&format!(
            "<tr><th scope=\"rowgroup\" colspan=\"4\">{branch}</th></tr>\n"
        ));
        told.push_str(&rows(&side.events));
    }
    let class = if story.alive { "" } else { " class=\"gone\"" };
    format!(
        "<article{class}>\n<h1>{}{title}</h1>\n<div class=\"wide\"><table class=\"happened\">\n<tbody>\n{told}</tbody>\n</table></div>\n</article>\n",
        escaped(&story.name)
    )
}

fn row(season: &Season, one: &Told<'_>, who: bool) -> String {
    let (event, told) = match one {
        Told::Event(event) => (*event, sentences(event)),
        Told::Run(run) => (&run.events[0], vec![words::run(season, run)]),
    };
    let commit = &season.commits[event.commit];
    let told: Vec<String> = told.iter().map(|one| escaped(one)).collect();
    let who = if who {
        format!("<td>{}</td>", escaped(&commit.who))
    } else {
        String::new()
    };
    format!(
        "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td>{who}</tr>\n",
        escaped(commit.day()),
        event.what.word(),
        told.join("<br>")
    )
}

fn outings(season: &Season) -> String {
    let fished = &season.fished;
    if fished.days.is_empty() {
        return String::new();
    }
    let sums = fished.sums();
    let tables: String = sums.iter().map(|(what, sums)| table(what, sums)).collect();
    let days: String = fished.days.iter().map(|one| day(season, one)).collect();
    let all: Vec<&OnDay> = fished.days.iter().collect();
    format!(
        "<article>\n<h1>{}</h1>\n<div class=\"wide\"><table>\n<tbody>\n{days}</tbody>\n</table></div>\n{tables}</article>\n",
        words::outings_of(&all)
    )
}

fn day(season: &Season, day: &OnDay) -> String {
    let told: Vec<String> = words::outing(season, day)
        .iter()
        .map(|one| escaped(one))
        .collect();
    let notes = day.outing.notes.iter();
    let notes: String = notes
        .map(|note| format!("<br><span>{}</span>", escaped(note)))
        .collect();
    format!(
        "<tr><th scope=\"row\">{}</th><td>{}{notes}</td></tr>\n",
        day.outing.day,
        told.join("; ")
    )
}

fn table(what: &str, sums: &[Sum]) -> String {
    if sums.is_empty() {
        return String::new();
    }
    let lost = sums.iter().any(|sum| sum.lost > 0);
    let longest = sums.iter().any(|sum| sum.longest.is_some());
    let cell = |wanted: bool, text: &str| match wanted {
        true => format!("<td class=\"figure\">{}</td>", escaped(text)),
        false => String::new(),
    };
    let head = |wanted: bool, text: &str| match wanted {
        true => format!("<th scope=\"col\" class=\"figure\">{text}</th>"),
        false => String::new(),
    };
    let row = |sum: &Sum| {
        format!(
            "<tr><th scope=\"row\">{}</th>{}{}{}{}</tr>\n",
            escaped(&sum.name),
            cell(true, &sum.outings.to_string()),
            cell(true, &sum.fish.to_string()),
            cell(lost, &sum.lost.to_string()),
            cell(longest, sum.longest.as_deref().unwrap_or_default())
        )
    };
    let rows: String = sums.iter().map(row).collect();
    format!(
        "<table>\n<caption>By {what}</caption>\n<thead><tr><th scope=\"col\">{what}</th>{}{}{}{}</tr></thead>\n\
         <tbody>\n{rows}</tbody>\n</table>\n",
        head(true, "outings"),
        head(true, "fish"),
        head(lost, "lost"),
        head(longest, "longest")
    )
}
