//! Cards as one HTML page for the printer and the phone: a card a sheet, black
//! on white, and below each a real table that can be read out.

use crate::sheet::html::escaped;
use snell_view::{About, Remark, ShownCard, ShownCell, Wading, Written};

const STYLE: &str = include_str!("card.css");

/// Writes the page.
pub fn write(cards: &[ShownCard]) -> String {
    let title = match cards {
        [one] => format!("{}: a card for the pocket", escaped(&one.name)),
        _ => "Cards for the pocket".to_owned(),
    };
    let sections: String = cards
        .iter()
        .enumerate()
        .map(|(index, card)| section(index + 1, card))
        .collect();
    let papers: String = cards
        .iter()
        .enumerate()
        .map(|(index, card)| paper(index + 1, card))
        .collect();
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" \
         content=\"width=device-width, initial-scale=1\">\n<title>{title}</title>\n<style>\n{STYLE}{papers}</style>\n</head>\n\
         <body>\n<main>\n{sections}</main>\n</body>\n</html>\n"
    )
}

/// The paper of a card: as large as the card.
fn paper(number: usize, card: &ShownCard) -> String {
    card.scene().map_or_else(String::new, |scene| {
        let (width, height) = (scene.width.ceil(), scene.height.ceil());
        format!("@page card-{number} {{ size: {width}px {height}px; margin: 0; }}\n")
    })
}

fn section(number: usize, card: &ShownCard) -> String {
    let title = card
        .title
        .as_deref()
        .map(|title| format!(" <span>{}</span>", escaped(title)));
    let hidden = if card.cells.is_empty() {
        ""
    } else {
        " class=\"read\""
    };
    let head = format!(
        "<h1{hidden}>{}{}</h1>\n",
        escaped(&card.name),
        title.unwrap_or_default()
    );
    let body = if card.cells.is_empty() {
        format!("<p>No card without {}.</p>\n", escaped(&card.needs.join(", ")))
    } else {
        let picture = card
            .scene()
            .map(|scene| snell_picture::write::svg(&scene, &format!("card-{number}")));
        let table = format!("{}{}", table(card), remarks(card));
        format!(
            "<figure>\n{}</figure>\n<details>\n<summary>The card as a table</summary>\n{table}</details>\n",
            picture.unwrap_or_default()
        )
    };
    format!("<article style=\"page: card-{number}\">\n{head}{body}</article>\n")
}

fn table(card: &ShownCard) -> String {
    let speed = |speed: &Written| format!("<th scope=\"col\">{}</th>", escaped(&speed.text));
    let speeds: String = card.speeds.iter().map(speed).collect();
    let row = |(at, (depth, cells)): (usize, (&Written, &Vec<ShownCell>))| {
        let above = at.checked_sub(1).and_then(|above| card.cells.get(above));
        let cells = cells
            .iter()
            .enumerate()
            .map(|(column, cell)| data(cell, edges(cells, above, column)));
        format!(
            "<tr><th scope=\"row\">{}</th>{}</tr>\n",
            escaped(&depth.text),
            cells.collect::<String>()
        )
    };
    let rows: String = card.depths.iter().zip(&card.cells).enumerate().map(row).collect();
    format!(
        "<div class=\"wide\"><table>\n<thead><tr><th></th><th scope=\"colgroup\" colspan=\"{}\" class=\"what\">speed of the surface</th></tr>\n\
         <tr><th scope=\"col\" class=\"what\">depth</th>{speeds}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table></div>\n",
        card.speeds.len()
    )
}

/// Where one fly's water begins, to the left and above.
fn edges(row: &[ShownCell], above: Option<&Vec<ShownCell>>, column: usize) -> String {
    let head = |cell: &ShownCell| cell.words().into_iter().next();
    let own = head(&row[column]);
    let left = column
        .checked_sub(1)
        .is_some_and(|before| head(&row[before]) != own);
    let top = above.is_some_and(|above| head(&above[column]) != own);
    let classes: Vec<&str> = [(left, "left"), (top, "top")]
        .into_iter()
        .filter_map(|(edge, class)| edge.then_some(class))
        .collect();
    if classes.is_empty() {
        String::new()
    } else {
        format!(" class=\"{}\"", classes.join(" "))
    }
}

fn data(cell: &ShownCell, class: String) -> String {
    let mut words = cell.words().into_iter().map(|word| escaped(&word));
    let head = words.next().unwrap_or_default();
    let rest: Vec<String> = words.collect();
    format!(
        "<td{class}>{}<b>{head}</b><br>{}</td>",
        sign(cell.wading),
        rest.join("<br>")
    )
}

/// A sign drawn, not typed: not every printer's font has it.
fn sign(wading: Wading) -> String {
    let (fill, told) = match wading {
        Wading::Within => return String::new(),
        Wading::Hard => ("none", "hard water to stand in"),
        Wading::KeepOut => ("#000", "keep out"),
    };
    format!(
        "<svg class=\"sign\" viewBox=\"0 0 10 10\" role=\"img\"><title>{told}</title>\
         <polygon points=\"5,1 9,9 1,9\" fill=\"{fill}\" stroke=\"#000\" stroke-width=\"1.2\"/></svg>"
    )
}

fn remarks(card: &ShownCard) -> String {
    let remark = |remark: &Remark| {
        let head = match remark.about {
            About::Word(word) => escaped(word),
            About::Mark(wading) => sign(wading),
        };
        format!("<p><b>{head}</b> {}</p>\n", escaped(&remark.text))
    };
    let all: String = card.remarks().iter().map(remark).collect();
    format!("<div class=\"remarks\">\n{all}</div>\n")
}
