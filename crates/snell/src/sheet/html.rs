//! Sheets as one HTML page that needs nothing else: plain tables, legible on a
//! phone, in light and dark, and on paper.

use super::Sheet;
use crate::prose::printable;
use crate::sheet::entry::Named;

/// The style of every page.
pub const STYLE: &str = include_str!("page.css");

/// Writes a page of sheets, each with its pictures as SVG.
pub fn write(sheets: &[(&Sheet, &[String])]) -> String {
    let title = match sheets {
        [(one, _)] => escaped(one.title.as_deref().unwrap_or(&one.name)),
        _ => "Rigs".to_owned(),
    };
    let sections: String = sheets
        .iter()
        .map(|(sheet, pictures)| section(sheet, pictures))
        .collect();
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" \
         content=\"width=device-width, initial-scale=1\">\n<title>{title}</title>\n<style>\n{STYLE}</style>\n</head>\n\
         <body>\n<main>\n{sections}</main>\n</body>\n</html>\n"
    )
}

fn section(sheet: &Sheet, pictures: &[String]) -> String {
    let figure = |picture: &String| format!("<figure>\n{picture}</figure>\n");
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
        "<article>\n<h1>{}{title}</h1>\n<p class=\"place\">{}{from}</p>\n{}{}{}{}{}{}{}{}{}</article>\n",
        escaped(&sheet.name),
        escaped(&sheet.place),
        sheet
            .answer
            .iter()
            .map(|line| format!("<p>{}</p>\n", escaped(line)))
            .collect::<String>(),
        pairs(&sheet.settings),
        pictures.iter().map(figure).collect::<String>(),
        table(sheet),
        figures("Measures", &sheet.measures),
        figures("Estimates, each with its likely range", &sheet.estimates),
        pairs(&sheet.remarks),
        list("Assumed", &sheet.assumed),
        list("Unknown", &sheet.unknown),
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
                _ => format!("<td{}>{text}</td>", class(column.is_of_figures())),
            }
        });
        format!("<tr>{}</tr>\n", cells.collect::<String>())
    };
    let rows: String = sheet.parts.iter().map(row).collect();
    format!(
        "<div class=\"wide\"><table>\n<caption>From rod to fly</caption>\n<thead><tr>{headings}</tr></thead>\n\
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
    for letter in printable(text).chars() {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_stays_text() {
        assert_eq!(escaped("<b a=\"1\">&"), "&lt;b a=&quot;1&quot;&gt;&amp;");
    }
}
