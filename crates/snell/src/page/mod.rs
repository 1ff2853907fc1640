//! What stands on a page: tables, lists, a paragraph, a picture; and a rig laid
//! out in them.
//!
//! Each way of writing a page takes the same pieces, so none says more than
//! another.

pub mod markdown;
pub mod pandoc;

use crate::comparison;
use crate::cutting;
use crate::sheet::card as cards;
use crate::sheet::unsaid::assumed;
use crate::sheet::{Column, ESTIMATES, Named, Sheet};
use crate::terminal::Terminal;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use snell_article::{Content, Shown};
use snell_view::compare::Comparison;
use snell_view::{CutPiece, CutRig, ShownAssumed, ShownCard, ShownCell, ShownRig, Written};

/// One thing on a page. Texts are plain: whoever writes them sees to what its form would misread.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// A paragraph.
    Text(String),
    /// A table.
    Table(Table),
    /// A list without order.
    List(Vec<String>),
    /// A list in order.
    Steps(Vec<String>),
    /// A picture.
    Picture {
        /// Where it is found.
        link: String,
        /// What it shows, for those who do not see it.
        instead: String,
    },
}

/// A table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// The heading of each column, and whether its values are read from the right.
    pub heads: Vec<(String, bool)>,
    /// The rows, as many cells in each as there are headings.
    pub rows: Vec<Vec<String>>,
}

/// What belongs between two markers of an article. `link` says where a picture is found.
pub fn of(content: &Content, link: impl Fn(&snell_article::Picture) -> String) -> Vec<Piece> {
    match content {
        Content::Figure(text) => vec![Piece::Text(text.clone())],
        Content::Picture(picture) => vec![Piece::Picture {
            link: link(picture),
            instead: picture.instead.clone(),
        }],
        Content::Card(card) => card_pieces(card),
        Content::Changes(comparison) => changes(comparison),
        Content::Cuts(cuts) => cuts.rigs.iter().flat_map(steps).collect(),
        Content::Rig(Shown::Parts, rig) => parts(rig),
        Content::Rig(Shown::Measures, rig) => measures(rig),
        Content::Rig(_, rig) => {
            let sheet = Sheet::of(rig);
            let settings = pairs(&sheet.settings);
            settings.into_iter().chain(below_settings(&sheet)).collect()
        }
    }
}

/// A card as a table, depths down and speeds across, with what it says of itself below.
fn card_pieces(card: &ShownCard) -> Vec<Piece> {
    let terminal = Terminal::plain();
    let heads = std::iter::once("depth").chain(card.speeds.iter().map(|speed| speed.text.as_str()));
    let row = |(depth, cells): (&Written, &Vec<ShownCell>)| {
        let cells = cells.iter().map(|cell| cards::cell(cell, &terminal));
        std::iter::once(depth.text.clone()).chain(cells).collect()
    };
    let table = Table {
        heads: heads.map(|head| (head.to_owned(), false)).collect(),
        rows: card.depths.iter().zip(&card.cells).map(row).collect(),
    };
    let mut pieces = vec![Piece::Text(cards::answer(card)), Piece::Table(table)];
    pieces.extend(pairs(&cards::remarks(card, &terminal)));
    pieces
}

/// What differs between two rigs: a list of it, and the measures that moved.
fn changes(comparison: &Comparison) -> Vec<Piece> {
    let told = comparison::of_one(comparison);
    if told.items.is_empty() && told.moved.is_empty() {
        return vec![Piece::Text("the two rigs are the same".to_owned())];
    }
    let list = (!told.items.is_empty()).then_some(Piece::List(told.items));
    let heads = [("measure", false), ("was", true), ("is", true)];
    let table = (!told.moved.is_empty()).then(|| {
        Piece::Table(Table {
            heads: heads
                .map(|(head, from_right)| (head.to_owned(), from_right))
                .to_vec(),
            rows: told.moved.into_iter().map(Vec::from).collect(),
        })
    });
    list.into_iter().chain(table).collect()
}

/// A picture as a link that holds it whole, for pages that are only built.
pub fn data_link(picture: &snell_article::Picture) -> String {
    let svg = svg(picture);
    let safe = percent_encoding::utf8_percent_encode(&svg, percent_encoding::NON_ALPHANUMERIC);
    format!("data:image/svg+xml,{safe}")
}

/// A picture as a link that holds it whole, painted, for what shows no picture of lines; one that is too large to be painted
/// stays as it is.
pub fn painted_link(picture: &snell_article::Picture) -> String {
    let painted = snell_picture::write::png(&picture.scene);
    painted.map_or_else(
        |_| data_link(picture),
        |png| format!("data:image/png;base64,{}", STANDARD.encode(png)),
    )
}

/// A sheet from its table on.
pub fn below_settings(sheet: &Sheet) -> Vec<Piece> {
    let mut pieces = Vec::new();
    pieces.extend(table(sheet));
    pieces.extend(figures("measure", &sheet.measures));
    pieces.extend(figures(ESTIMATES, &sheet.estimates));
    pieces.extend(pairs(&sheet.remarks));
    pieces.extend(told("Assumed", &sheet.assumed));
    pieces.extend(told("Unknown", &sheet.unknown));
    pieces
}

/// The table from rod to fly, with the knots that were taken because the rig leaves them unsaid.
fn parts(rig: &ShownRig) -> Vec<Piece> {
    let table = table(&Sheet::of(rig)).into_iter();
    let knots = told("Assumed", &assumed(&those(rig, true)));
    table.chain(knots).collect()
}

/// The rig's measures, with what else was assumed for them.
fn measures(rig: &ShownRig) -> Vec<Piece> {
    let sheet = Sheet::of(rig);
    let tables = figures("measure", &sheet.measures)
        .into_iter()
        .chain(figures(ESTIMATES, &sheet.estimates));
    let taken = told("Assumed", &assumed(&those(rig, false)));
    tables.chain(taken).collect()
}

/// What was assumed of knots, or of all else.
fn those(rig: &ShownRig, knots: bool) -> Vec<ShownAssumed> {
    let all = rig.assumed.iter();
    all.filter(|one| one.is_of_a_knot() == knots).cloned().collect()
}

/// What to cut, in tying order.
fn steps(rig: &CutRig) -> Vec<Piece> {
    if rig.pieces.is_empty() {
        return vec![Piece::Text("nothing to cut".to_owned())];
    }
    let mut pieces = vec![Piece::Steps(rig.pieces.iter().map(step).collect())];
    pieces.extend(told("Assumed", &assumed(&rig.assumed)));
    pieces
}

fn step(piece: &CutPiece) -> String {
    let mut step = format!(
        "{}: {} of {} ({})",
        piece.name,
        cutting::cut(piece),
        piece.of,
        cutting::sum(piece)
    );
    for lack in &piece.lacks {
        step.push_str(&format!("; not known: {lack}"));
    }
    step
}

fn table(sheet: &Sheet) -> Option<Piece> {
    if sheet.parts.is_empty() {
        return None;
    }
    let head = |column: &Column| (column.heading().to_owned(), column.is_of_figures());
    let heads = sheet.columns.iter().map(head).collect();
    let row = |part: &crate::sheet::Part| {
        let cells = sheet.columns.iter();
        cells.map(|column| part.cell(*column).to_owned()).collect()
    };
    let rows = sheet.parts.iter().map(row).collect();
    Some(Piece::Table(Table { heads, rows }))
}

fn figures(heading: &str, all: &[Named]) -> Option<Piece> {
    if all.is_empty() {
        return None;
    }
    let heads = vec![(heading.to_owned(), false), ("value".to_owned(), true)];
    let row = |one: &Named| vec![one.name.clone(), one.text.clone()];
    let rows = all.iter().map(row).collect();
    Some(Piece::Table(Table { heads, rows }))
}

/// Names with their texts as a list.
pub fn pairs(all: &[Named]) -> Option<Piece> {
    let items = all.iter().map(|one| format!("{}: {}", one.name, one.text));
    (!all.is_empty()).then(|| Piece::List(items.collect()))
}

fn told(heading: &str, items: &[String]) -> Vec<Piece> {
    if items.is_empty() {
        return Vec::new();
    }
    vec![Piece::Text(format!("{heading}:")), Piece::List(items.to_vec())]
}

/// The id of every picture in its own file.
const PICTURE_ID: &str = "rig";

/// A picture as it stands in its file.
pub fn svg(picture: &snell_article::Picture) -> String {
    snell_picture::write::svg(&picture.scene, PICTURE_ID)
}
