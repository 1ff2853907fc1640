//! Rigs as one HTML document that needs nothing else, legible on a phone, in
//! light and dark. Printed, each rig has one page: the verdict, its pictures,
//! what to cut in tying order, and cautions.

mod paper;
mod rig;

use super::Sheet;
use crate::cutting;
use crate::prose::printable;
use crate::sheet::entry::Named;
use paper::{Column, Paper};
pub use rig::{Drawing, RigPage};
use snell_picture::write::runs_left;
use snell_view::{CutPiece, CutRig};
use std::borrow::Cow;
use unicode_bidi::{BidiClass, bidi_class};

/// The style of every page.
pub const STYLE: &str = include_str!("../page.css");

/// The style of a page of rigs, behind that of every page.
const STYLE_OF_RIGS: &str = include_str!("rig.css");

/// Writes rigs as one document, each printed on a page of its own.
pub fn write(rigs: &[RigPage<'_>]) -> String {
    let title = match rigs {
        [one] => escaped(one.sheet.title.as_deref().unwrap_or(&one.sheet.name)),
        _ => "Rigs".to_owned(),
    };
    let articles: String = rigs.iter().map(article).collect();
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" \
         content=\"width=device-width, initial-scale=1\">\n<title>{title}</title>\n<style>\n{STYLE}{STYLE_OF_RIGS}</style>\n\
         </head>\n<body>\n<main>\n{articles}</main>\n</body>\n</html>\n"
    )
}

fn article(rig: &RigPage<'_>) -> String {
    let sheet = rig.sheet;
    let paper = Paper::of(rig);
    let figure = |picture: &Drawing| {
        let wide = paper.width(picture);
        format!(
            "<figure style=\"--wide: {wide:.1}mm\">\n{}</figure>\n",
            picture.svg
        )
    };
    let (first, others) = rig.pictures.split_at(rig.pictures.len().min(1));
    let of_rig: String = first.iter().map(figure).collect();
    let of_water: String = others.iter().map(figure).collect();
    let (map_in, map) = match (rig.waters, paper.waters) {
        (Some(map), Some(column)) => (column, figure(map)),
        (Some(map), None) => {
            let on_screen = format!("<figure class=\"screen\">\n{}</figure>\n", map.svg);
            (Column::Words, on_screen)
        }
        (None, _) => (Column::Words, String::new()),
    };
    let warns = cautions(rig.cautions, paper.cautions);
    let within = |column: Column| {
        let water = if paper.water == column { &*of_water } else { "" };
        let map = if map_in == column { &*map } else { "" };
        let warns = if paper.warns == column { &*warns } else { "" };
        [water, map, warns].concat()
    };
    let close = match (paper.close, paper.halved) {
        (true, true) => " close halved",
        (true, false) => " close",
        (false, _) => "",
    };
    format!(
        "<article class=\"rig{close}\">\n{}{}<div class=\"column\">\n{of_rig}{}</div>\n<div class=\"column\">\n{}{}{}</div>\n\
         {}</article>\n",
        header(sheet),
        answer(sheet),
        within(Column::Rig),
        pairs(&sheet.settings),
        cuts(rig.cuts),
        within(Column::Words),
        details(sheet),
    )
}

fn header(sheet: &Sheet) -> String {
    let title = sheet
        .title
        .as_deref()
        .map(|title| format!(" <span>{}</span>", escaped(title)))
        .unwrap_or_default();
    let from = sheet
        .from
        .as_deref()
        .map(|from| format!(", made from {}", escaped(from)))
        .unwrap_or_default();
    format!(
        "<header>\n<h1>{}{title}</h1>\n<p class=\"place\">{}{from}</p>\n</header>\n",
        escaped(&sheet.name),
        escaped(&sheet.place),
    )
}

fn answer(sheet: &Sheet) -> String {
    if sheet.answer.is_empty() {
        return String::new();
    }
    let line = |line: &String| format!("<p>{}</p>\n", escaped(line));
    let lines: String = sheet.answer.iter().map(line).collect();
    format!("<div class=\"answer\">\n{lines}</div>\n")
}

/// What to cut, in tying order.
fn cuts(rig: &CutRig) -> String {
    if rig.pieces.is_empty() {
        return String::new();
    }
    let piece = |piece: &CutPiece| {
        let lacks: String = piece
            .lacks
            .iter()
            .map(|lack| format!("; not known: {lack}"))
            .collect();
        format!(
            "<li><span class=\"name\">{}: </span>{} of {}<small>{}</small></li>\n",
            escaped(&piece.name),
            escaped(&cutting::cut(piece)),
            escaped(&piece.of),
            escaped(&(cutting::sum(piece) + &lacks)),
        )
    };
    let pieces: String = rig.pieces.iter().map(piece).collect();
    format!("<section>\n<h2>Cut, in tying order</h2>\n<ol class=\"cuts\">\n{pieces}</ol>\n</section>\n")
}

/// What the rules say against it; of `fit` there is room on paper.
fn cautions(cautions: &[String], fit: usize) -> String {
    if cautions.is_empty() {
        return String::new();
    }
    let item = |(index, caution): (usize, &String)| {
        let class = if index < fit { "" } else { " class=\"screen\"" };
        format!("<li{class}>{}</li>\n", escaped(caution))
    };
    let items: String = cautions.iter().enumerate().map(item).collect();
    let more = cautions.len().saturating_sub(fit);
    let more = match more {
        0 => String::new(),
        more => format!("<li class=\"paper\">and {more} more, which <code>snell check</code> tells</li>\n"),
    };
    format!("<section>\n<h2>Cautions</h2>\n<ul>\n{items}{more}</ul>\n</section>\n")
}

/// What is looked up, and not printed.
fn details(sheet: &Sheet) -> String {
    let more = [
        table(sheet),
        figures("Measures", &sheet.measures),
        figures("Estimates, each with its likely range", &sheet.estimates),
        pairs(&sheet.remarks),
        list("Assumed", &sheet.assumed),
        list("Unknown", &sheet.unknown),
    ];
    format!(
        "<details>\n<summary>Parts, measures, and what they stand on</summary>\n{}</details>\n",
        more.concat()
    )
}

/// The table from rod to fly.
pub fn table(sheet: &Sheet) -> String {
    if sheet.parts.is_empty() {
        return String::new();
    }
    let class = |figures: bool| if figures { " class=\"figure\"" } else { "" };
    let heading = |column: &super::Column| {
        format!(
            "<th scope=\"col\"{}>{}</th>",
            class(column.is_of_figures()),
            column.heading()
        )
    };
    let headings: String = sheet.columns.iter().map(heading).collect();
    let row = |part: &super::Part| {
        let cells = sheet.columns.iter().enumerate().map(|(index, column)| {
            let text = escaped(part.cell(*column));
            match index {
                0 => format!("<th scope=\"row\">{text}</th>"),
                _ => format!(
                    "<td{} data-head=\"{}\">{text}</td>",
                    class(column.is_of_figures()),
                    column.heading()
                ),
            }
        });
        format!("<tr>{}</tr>\n", cells.collect::<String>())
    };
    let rows: String = sheet.parts.iter().map(row).collect();
    format!(
        "<div class=\"wide\"><table class=\"parts\">\n<caption>From rod to fly</caption>\n<thead><tr>{headings}</tr></thead>\n\
         <tbody>\n{rows}</tbody>\n</table></div>\n"
    )
}

fn figures(caption: &str, measures: &[Named]) -> String {
    if measures.is_empty() {
        return String::new();
    }
    let row = |one: &Named| {
        format!(
            "<tr><th scope=\"row\">{}</th><td class=\"figure\">{}</td></tr>\n",
            escaped(&one.name),
            escaped(&one.text)
        )
    };
    let rows: String = measures.iter().map(row).collect();
    format!("<table>\n<caption>{caption}</caption>\n<tbody>\n{rows}</tbody>\n</table>\n")
}

fn pairs(all: &[Named]) -> String {
    if all.is_empty() {
        return String::new();
    }
    let pair = |one: &Named| format!("<dt>{}</dt><dd>{}</dd>\n", escaped(&one.name), escaped(&one.text));
    format!("<dl>\n{}</dl>\n", all.iter().map(pair).collect::<String>())
}

fn list(heading: &str, items: &[String]) -> String {
    if items.is_empty() {
        return String::new();
    }
    let items: String = items
        .iter()
        .map(|item| format!("<li>{}</li>\n", escaped(item)))
        .collect();
    format!("<h2>{heading}</h2>\n<ul>\n{items}</ul>\n")
}

/// A text as it may stand in a page or a picture.
pub fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for letter in isolated(&printable(text)).chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            letter => safe.push(letter),
        }
    }
    safe
}

/// A text in which words that run from right to left keep to themselves, so that the figures beside them stay in their
/// place (Unicode, UAX #9: isolates).
fn isolated(text: &str) -> Cow<'_, str> {
    let Some(first) = text.find(runs_left) else {
        return Cow::Borrowed(text);
    };
    let mut set = String::with_capacity(text.len() + 6);
    let (mut before, mut rest) = text.split_at(first);
    loop {
        set.push_str(before);
        // As far as the last such letter before one that runs to the right, with the marks that belong to it.
        let next = rest.find(|letter| matches!(bidi_class(letter), BidiClass::L | BidiClass::EN));
        let within = &rest[..next.unwrap_or(rest.len())];
        let end = within
            .char_indices()
            .rfind(|(_, letter)| runs_left(*letter) || bidi_class(*letter) == BidiClass::NSM)
            .map_or(within.len(), |(at, letter)| at + letter.len_utf8());
        set.extend(['\u{2068}']);
        set.push_str(&rest[..end]);
        set.extend(['\u{2069}']);
        rest = &rest[end..];
        let Some(first) = rest.find(runs_left) else {
            set.push_str(rest);
            return Cow::Owned(set);
        };
        (before, rest) = rest.split_at(first);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_stays_text() {
        assert_eq!(escaped("<b a=\"1\">&"), "&lt;b a=&quot;1&quot;&gt;&amp;");
    }

    #[test]
    fn words_from_right_to_left_keep_to_themselves() {
        let told = escaped("where \u{5d0}\u{5d1} \u{5d2} meets \u{5d3}: 1 fly");
        let expected = "where \u{2068}\u{5d0}\u{5d1} \u{5d2}\u{2069} meets \u{2068}\u{5d3}\u{2069}: 1 fly";
        assert_eq!(told, expected);
        assert_eq!(escaped("tippet 4 ft"), "tippet 4 ft");
    }
}
