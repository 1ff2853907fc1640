//! A season as one HTML page that needs nothing else: the chart, what became
//! of each rig, and the outings.

use super::chart;
use super::words::{self, sentences};
use crate::season::read::Season;
use crate::sheet::html::{STYLE, escaped};
use snell_history::{Event, OnDay, RigStory, Sum};

/// What the page has beyond the style of sheets.
const OWN_STYLE: &str = "svg { max-width: 100%; height: auto; }\n.gone h1 { color: var(--quiet); }\n";

/// Writes the page.
pub fn write(season: &Season, who: bool) -> String {
    let rigs: String = season.rigs.iter().map(|story| rig(season, story, who)).collect();
    let remarks = words::remarks(season);
    let remarks = remarks.iter().map(|told| format!("<p>{}</p>\n", escaped(told)));
    let remarks: String = remarks.collect();
    let span = season.span().map_or_else(String::new, |(first, last)| {
        format!("{} to {}", escaped(first), escaped(last))
    });
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" \
         content=\"width=device-width, initial-scale=1\">\n<title>A season of rigs</title>\n<style>\n{STYLE}{OWN_STYLE}</style>\n\
         </head>\n<body>\n<main>\n<h1>A season of rigs <span>{}</span></h1>\n{remarks}<div class=\"wide\">\n{}</div>\n{}{rigs}</main>\n</body>\n</html>\n",
        span,
        chart::write(season),
        outings(season)
    )
}

fn rig(season: &Season, story: &RigStory, who: bool) -> String {
    let title = story.last().and_then(|card| card.shown.title.as_deref());
    let title = title.map_or_else(String::new, |title| format!(" <span>{}</span>", escaped(title)));
    let rows = |events: &[Event]| -> String { events.iter().map(|event| row(season, event, who)).collect() };
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
        "<article{class}>\n<h1>{}{title}</h1>\n<div class=\"wide\"><table>\n<tbody>\n{told}</tbody>\n</table></div>\n</article>\n",
        escaped(&story.name)
    )
}

fn row(season: &Season, event: &Event, who: bool) -> String {
    let commit = &season.commits[event.commit];
    let told: Vec<String> = sentences(event).iter().map(|one| escaped(one)).collect();
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
    let sums = [
        ("rig", &fished.by_rig),
        ("water", &fished.by_water),
        ("fly", &fished.by_fly),
    ];
    let tables: String = sums.iter().map(|(what, sums)| table(what, sums)).collect();
    let days: String = fished.days.iter().map(|one| day(season, one)).collect();
    format!(
        "<article>\n<h1>Outings</h1>\n<div class=\"wide\"><table>\n<tbody>\n{days}</tbody>\n</table></div>\n{tables}</article>\n"
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
    let rows: String = sums
        .iter()
        .map(|sum| {
            let (name, outings, fish) = (escaped(&sum.name), sum.outings, sum.fish);
            format!("<tr><th scope=\"row\">{name}</th><td class=\"figure\">{outings}</td><td class=\"figure\">{fish}</td></tr>\n")
        })
        .collect();
    format!(
        "<table>\n<caption>By {what}</caption>\n<thead><tr><th scope=\"col\">{what}</th><th scope=\"col\" class=\"figure\">\
         outings</th><th scope=\"col\" class=\"figure\">fish</th></tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n"
    )
}
