//! A rig's sheet as one picture, as wide as A4 between its margins: the verdict above two columns with its pictures, what
//! to cut and cautions.
//!
//! The pictures are laid out elsewhere, for [`Medium::Sheet`], and the words are written by those who know the rig.

use crate::labels::{paragraph, paragraph_of, run};
use crate::medium::Medium;
use crate::scene::{Ground, Item, Line, LineRole, Scene, TextRole, at};

const MEDIUM: Medium = Medium::Page;
const MARGIN: f64 = 10.0;
/// As wide as the pictures of a sheet.
const COLUMN: f64 = 350.0;
/// Between the columns, and between what stands in one.
const GAP: f64 = 16.0;
const WIDTH: f64 = 2.0 * (MARGIN + COLUMN) + GAP;
/// Around the verdict.
const PAD: f64 = 6.0;

/// What stands on a sheet in words.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Words {
    /// The rig's name.
    pub name: String,
    /// Its title for people.
    pub title: Option<String>,
    /// Where it is written.
    pub place: String,
    /// The verdict, a line each.
    pub answer: Vec<String>,
    /// Lists, each under its heading; they stand in this order.
    pub lists: Vec<List>,
}

/// A list under a heading.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct List {
    /// The heading; none where it needs none.
    pub heading: String,
    /// Its lines.
    pub lines: Vec<String>,
}

/// The sheet with some pictures. The first heads the one column and the lists the other; each picture behind it stands
/// where there is more room.
pub fn scene(words: &Words, pictures: &[Scene]) -> Scene {
    let mut items = Vec::new();
    let top = head(&mut items, words);
    let lefts = [MARGIN, MARGIN + COLUMN + GAP];
    let mut ends = [top, top];
    let (first, others) = pictures.split_at(pictures.len().min(1));
    for picture in first {
        put(&mut items, picture, lefts[0], &mut ends[0]);
    }
    for list in &words.lists {
        ends[1] = lines(&mut items, list, (lefts[1], ends[1]));
    }
    for picture in others {
        let column = usize::from(ends[1] < ends[0]);
        put(&mut items, picture, lefts[column], &mut ends[column]);
    }
    let about = words
        .answer
        .iter()
        .map(|line| format!("{line}."))
        .collect::<Vec<_>>();
    let shown = pictures
        .iter()
        .map(|picture| format!("{}: {}", picture.title, picture.about));
    Scene {
        title: words.title.clone().unwrap_or_else(|| words.name.clone()),
        about: about.into_iter().chain(shown).collect::<Vec<_>>().join(" "),
        width: WIDTH,
        height: ends[0].max(ends[1]) + MARGIN - GAP,
        metre: None,
        ground: Ground::Screen,
        items,
    }
}

/// Name, title, place and the verdict in its frame; returns where the columns begin.
fn head(items: &mut Vec<Item>, words: &Words) -> f64 {
    let room = WIDTH - 2.0 * MARGIN;
    let title = words
        .title
        .as_deref()
        .map(|title| format!("  {title}"))
        .unwrap_or_default();
    let named = vec![
        run(TextRole::Title, words.name.as_str()),
        run(TextRole::Figure, title),
    ];
    let mut y = paragraph_of(items, MEDIUM, named, room, (MARGIN, MARGIN));
    y = paragraph(
        items,
        MEDIUM,
        run(TextRole::Detail, words.place.as_str()),
        room,
        (MARGIN, y),
    );
    if words.answer.is_empty() {
        return y + GAP;
    }
    let from = y + PAD;
    y = from + PAD;
    for (index, line) in words.answer.iter().enumerate() {
        let role = if index == 0 {
            TextRole::Strong
        } else {
            TextRole::Detail
        };
        y = paragraph(
            items,
            MEDIUM,
            run(role, line.as_str()),
            room - 2.0 * PAD,
            (MARGIN + PAD, y),
        );
    }
    let to = y + PAD;
    let corners = [
        at(MARGIN, from),
        at(WIDTH - MARGIN, from),
        at(WIDTH - MARGIN, to),
        at(MARGIN, to),
        at(MARGIN, from),
    ];
    items.push(Line::even(LineRole::Bar, corners.to_vec(), 1.5).into());
    to + GAP
}

fn lines(items: &mut Vec<Item>, list: &List, (left, mut y): (f64, f64)) -> f64 {
    if list.lines.is_empty() {
        return y;
    }
    if !list.heading.is_empty() {
        y = paragraph(
            items,
            MEDIUM,
            run(TextRole::Name, list.heading.as_str()),
            COLUMN,
            (left, y),
        );
    }
    for line in &list.lines {
        y = paragraph(
            items,
            MEDIUM,
            run(TextRole::Detail, line.as_str()),
            COLUMN,
            (left, y),
        );
    }
    y + GAP
}

/// Puts a picture into a column, below what stands there.
fn put(items: &mut Vec<Item>, picture: &Scene, left: f64, end: &mut f64) {
    items.extend(picture.items.iter().map(|item| moved(item, left, *end)));
    *end += picture.height + GAP;
}

fn moved(item: &Item, right: f64, down: f64) -> Item {
    let mut item = item.clone();
    match &mut item {
        Item::Line(line) => line.points.iter_mut().for_each(|point| {
            (point.x, point.y) = (point.x + right, point.y + down);
        }),
        Item::Text(text) => (text.at.x, text.at.y) = (text.at.x + right, text.at.y + down),
        Item::Mark(mark) => (mark.at.x, mark.at.y) = (mark.at.x + right, mark.at.y + down),
    }
    item
}
