//! Whether one value fits one place.

use super::given::Fit;
use super::run::{Accept, Run};
use super::shape::{Shape, doubtful};
use super::slips;
use crate::keywords::{Take, is_colour};
use crate::names::Found;
use snell_syntax::{BlockKind, Expr, Word};
use snell_units::Dimension;

/// What a place for quantities allows.
struct Allowed {
    dimensions: &'static [Dimension],
    spread: bool,
    x: bool,
}

const fn only(dimensions: &'static [Dimension]) -> Allowed {
    Allowed {
        dimensions,
        spread: false,
        x: false,
    }
}

const fn spread(dimensions: &'static [Dimension]) -> Allowed {
    Allowed {
        dimensions,
        spread: true,
        x: false,
    }
}

/// A piece of line shorter than this is a diameter by mistake.
const SHORTEST_PART: f64 = 0.004;

/// What is said to be heavier of a swivel, in kg, is its strength. Source: computed from geometry, a barrel of steel
/// 30 mm long and 10 mm wide.
const HEAVIEST_SWIVEL: f64 = 0.02;

impl Take {
    /// What quantities it takes, where it takes quantities.
    fn allowed(self) -> Option<Allowed> {
        Some(match self {
            Self::Length | Self::PartLength | Self::Diameter | Self::BeadSize => only(&[Dimension::LENGTH]),
            Self::Depth => spread(&[Dimension::LENGTH]),
            Self::LineSize => Allowed {
                dimensions: &[Dimension::LENGTH],
                spread: true,
                x: true,
            },
            Self::Mass => only(&[Dimension::MASS]),
            Self::Force => only(&[Dimension::MASS, Dimension::FORCE]),
            Self::Speed => spread(&[Dimension::SPEED]),
            Self::Lead => spread(&[Dimension::SPEED, Dimension::NONE]),
            Self::Temperature => only(&[Dimension::TEMPERATURE]),
            Self::Density => spread(&[Dimension::DENSITY]),
            Self::Stress => spread(&[Dimension::STRESS]),
            Self::Share => spread(&[Dimension::NONE]),
            Self::Plain => only(&[Dimension::NONE]),
            Self::Turns
            | Self::HookSize
            | Self::LineWeight
            | Self::Day
            | Self::Name(_)
            | Self::Word(_)
            | Self::Label
            | Self::Colour
            | Self::Path
            | Self::Any => return None,
        })
    }

    /// The dimension that it takes first, where it takes quantities.
    pub fn dimension(self) -> Option<Dimension> {
        self.allowed().map(|allowed| allowed.dimensions[0])
    }

    /// Whether a value of a dimension may stand in its place.
    pub fn takes(self, dimension: Dimension) -> bool {
        self.allowed()
            .is_none_or(|allowed| allowed.dimensions.contains(&dimension))
    }
}

impl<'p> Run<'_, 'p> {
    pub(super) fn accept(&self, take: Take, expr: &'p Expr, shape: &Shape<'p>, before: &[Fit<'p>]) -> Accept {
        match take {
            Take::Any => Accept::Yes,
            Take::Path => expr.path().is_some().into(),
            Take::Turns => self.turns(expr, shape),
            Take::Day => (*shape == Shape::Day).into(),
            Take::HookSize | Take::LineWeight => self.size(take, expr, shape),
            Take::Name(kind) => expr.word().map_or(Accept::No, |word| self.name(kind, expr, word)),
            Take::Word(words) => {
                let is = |word: &Word| words.iter().any(|named| *named.word == *word.folded);
                expr.word().is_some_and(is).into()
            }
            Take::Label => expr.word().is_some().into(),
            Take::Colour => expr
                .word()
                .is_some_and(|word| self.is_colour(word, before))
                .into(),
            Take::Length
            | Take::PartLength
            | Take::Depth
            | Take::LineSize
            | Take::Diameter
            | Take::BeadSize
            | Take::Mass
            | Take::Force
            | Take::Speed
            | Take::Lead
            | Take::Temperature
            | Take::Density
            | Take::Stress
            | Take::Share
            | Take::Plain => self.quantity(take, expr, shape),
        }
    }

    fn is_colour(&self, word: &Word, before: &[Fit<'p>]) -> bool {
        let stuff = [Take::Name(BlockKind::Material), Take::Name(BlockKind::Spool)];
        // Behind a bead's material stands the rest of the fly; behind a line's only its colour.
        let of_fly = self.slots.iter().any(|slot| slot.take == Take::HookSize);
        let known = !of_fly && before.iter().any(|fit| stuff.contains(&fit.take));
        known || self.row.key == "colour" || is_colour(&word.folded)
    }

    fn name(&self, kind: BlockKind, expr: &'p Expr, word: &'p Word) -> Accept {
        match self.fitting.names.find(self.line.file, kind, &word.folded) {
            Found::Block(_) => Accept::Yes,
            Found::Missing => Accept::No,
            Found::Ambiguous(first, second) => {
                let names = self.fitting.names;
                Accept::Wrong(names.ambiguous(self.line, self.place(expr), kind, word, first, second))
            }
        }
    }

    fn turns(&self, expr: &'p Expr, shape: &Shape<'p>) -> Accept {
        match shape {
            Shape::Quantity {
                unit: Some("turns"), ..
            } => Accept::Yes,
            Shape::Bare(_) => Accept::Wrong(slips::unit_missing(self, expr, Take::Turns)),
            Shape::Quantity { .. }
            | Shape::NoUnit { .. }
            | Shape::Size
            | Shape::Day
            | Shape::SizeSpread
            | Shape::Word(_)
            | Shape::Computed => Accept::No,
        }
    }

    fn size(&self, take: Take, expr: &'p Expr, shape: &Shape<'p>) -> Accept {
        match shape {
            Shape::Size => Accept::Yes,
            Shape::Quantity { unit: Some("wt"), .. } if take == Take::LineWeight => Accept::Yes,
            Shape::Bare(_) => Accept::Wrong(slips::mark_missing(self, expr, take)),
            Shape::Quantity { .. }
            | Shape::NoUnit { .. }
            | Shape::Day
            | Shape::SizeSpread
            | Shape::Word(_)
            | Shape::Computed => Accept::No,
        }
    }

    fn quantity(&self, take: Take, expr: &'p Expr, shape: &Shape<'p>) -> Accept {
        let Some(allowed) = take.allowed() else {
            return Accept::No;
        };
        match shape {
            Shape::Size => (take == Take::LineSize).into(),
            Shape::SizeSpread | Shape::Day => Accept::No,
            Shape::Word(word) => (self.fitting.is_value)(&word.folded).into(),
            Shape::Computed => match slips::spaced_size(self, expr) {
                Some(finding) => Accept::Wrong(finding),
                None => Accept::Yes,
            },
            Shape::Bare(_) if matches!(take, Take::Plain | Take::Share) => self.sound(expr, shape, &allowed),
            Shape::Bare(_) => Accept::Wrong(slips::unit_missing(self, expr, take)),
            Shape::NoUnit { word, span } => Accept::Wrong(slips::unit_unknown(self, expr, take, word, *span)),
            Shape::Quantity {
                dimension,
                si,
                x,
                unit,
                ..
            } => {
                let heavy = take == Take::Mass && self.row.key == "swivel" && *si > HEAVIEST_SWIVEL;
                let counted = matches!(unit, Some("turns" | "wt"));
                let short =
                    take == Take::PartLength && *si < SHORTEST_PART && *si > 0.0 && doubtful(expr).is_none();
                if counted || heavy || short || (*x && !allowed.x) || !allowed.dimensions.contains(dimension)
                {
                    return Accept::No;
                }
                match slips::too_large(self, expr, take) {
                    Some(finding) => Accept::Wrong(finding),
                    None => self.sound(expr, shape, &allowed),
                }
            }
        }
    }

    /// The last questions to a quantity that is in its place.
    fn sound(&self, expr: &'p Expr, shape: &Shape<'p>, allowed: &Allowed) -> Accept {
        if let Some(number) = doubtful(expr) {
            return Accept::Wrong(slips::doubtful(self.line, number));
        }
        let Shape::Quantity { si, x, spread, .. } = *shape else {
            return Accept::Yes;
        };
        if x && si <= 0.0 {
            Accept::Wrong(slips::too_fine(self.line, expr.span))
        } else if spread && !allowed.spread {
            Accept::Wrong(slips::spread_misplaced(self, expr))
        } else {
            Accept::Yes
        }
    }
}
