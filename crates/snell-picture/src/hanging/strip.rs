//! The strip beside a magnified part: the whole rig to scale, with a bracket
//! around the part that is magnified.

use super::drawing::thickness;
use super::frame::Frame;
use super::places::Inset;
use super::subject::{FlyKind, Hung};
use super::words;
use crate::scene::{Item, Line, LineRole, Mark, MarkKind, Stands, at};

/// How large a fly's sign is on the strip.
const FLY_SIGN: f64 = 7.0;
/// Thinner than in the picture beside it.
const THIN: f64 = 0.6;

/// Draws it between two heights, where the frame has a place for it.
pub(super) fn draw(hung: &Hung, frame: &Frame, (top, bottom): (f64, f64)) -> Vec<Item> {
    let (Some(inset), Some(x)) = (Inset::of(hung), frame.strip) else {
        return Vec::new();
    };
    let metre = metre(&inset, (top, bottom));
    let mut items = Vec::new();
    let mut y = top;
    let mut joins = vec![top];
    for piece in &hung.pieces {
        let Some(metres) = piece.metres else {
            joins.push(y);
            continue;
        };
        let from = y;
        y += metres * metre;
        joins.push(y);
        let (upper, lower) = thickness(piece);
        let line = Line {
            role: if piece.ends.is_some() {
                LineRole::Piece
            } else {
                LineRole::Unmeasured
            },
            points: vec![at(x, from), at(x, y)],
            thick: (upper * THIN, lower * THIN),
            colours: piece.colours.clone(),
            stands: Some(Stands {
                name: words::in_the_whole(&piece.name),
                metres,
                told: words::piece(piece),
            }),
        };
        items.push(line.into());
    }
    let cut = bottom - inset.metres * metre;
    let (near, far) = (x + 6.0, x + 10.0);
    let bracket = vec![at(near, cut), at(far, cut), at(far, bottom), at(near, bottom)];
    items.push(Line::even(LineRole::Bar, bracket, 1.4).into());
    for fly in &hung.flies {
        let kind = match fly.kind {
            FlyKind::Beaded => MarkKind::BeadedFly,
            FlyKind::Plain => MarkKind::PlainFly,
            FlyKind::Floating => MarkKind::FloatingFly,
        };
        let at = at(x, joins[fly.above]);
        items.push(Mark::plain(kind, at, FLY_SIGN).into());
    }
    items
}

/// How long a metre is drawn on the strip.
pub(super) fn metre(inset: &Inset, (top, bottom): (f64, f64)) -> f64 {
    (bottom - top) / inset.whole
}
