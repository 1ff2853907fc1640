//! Where shots and floats sit on the line: where their lines stand among the pieces, or so far over what is below.

use super::core::Evaluation;
use crate::keywords::SectionRole;
use crate::lack::{Lack, Outcome};
use crate::rig::{Below, Seat};
use crate::thing::{FloatId, SectionId, ShotId};
use crate::value::Value;
use snell_finding::{Code, Finding};
use snell_units::Dimension;

/// A place on the line.
#[derive(Clone, Debug)]
pub struct Sits {
    /// The piece that it lies on, or at whose upper end.
    pub piece: SectionId,
    /// How much of that piece is below it, in metres; nothing where all of it is.
    pub below: Option<f64>,
}

/// Two lengths nearer than this, in metres, are one: a float that is said to sit where two pieces meet does so.
const SAME: f64 = 1e-6;

impl<'p> Evaluation<'_, 'p> {
    /// How far a float sits over the point, along the line.
    pub fn float_above_point(&self, id: FloatId) -> Outcome {
        let float = self.rig.chain.float(id);
        self.above_point(float.place, float.seat)
    }

    /// The same of a shot.
    pub fn shot_above_point(&self, id: ShotId) -> Outcome {
        let shot = self.rig.chain.shot(id);
        self.above_point(shot.place, shot.seat)
    }

    fn above_point(&self, place: SectionId, seat: Option<(Seat<'p>, Below)>) -> Outcome {
        match seat {
            None => self.down_from(place),
            Some((seat, Below::Place(lower))) => Ok(self.value(seat.distance)?.plus(&self.down_from(lower)?)),
            Some((seat, Below::Shot(shot))) => {
                Ok(self.value(seat.distance)?.plus(&self.shot_above_point(shot)?))
            }
        }
    }

    /// All line from a place down to the point.
    fn down_from(&self, place: SectionId) -> Outcome {
        let pieces = place.down_to(self.rig.chain.end());
        let nothing = Value::plain(0.0, Dimension::LENGTH);
        pieces
            .map(|id| self.section_length(id))
            .try_fold(nothing, |sum, length| Ok(sum.plus(&length?)))
    }

    /// On which piece a float sits.
    ///
    /// # Errors
    /// A length that is unknown, or that there is not so much line.
    pub fn float_sits(&self, id: FloatId) -> Result<Sits, Lack> {
        let float = self.rig.chain.float(id);
        match float.seat {
            None => Ok(whole(float.place)),
            Some((seat, _)) => self.sits(self.float_above_point(id)?.si(), seat),
        }
    }

    /// On which piece a shot sits.
    ///
    /// # Errors
    /// A length that is unknown, or that there is not so much line.
    pub fn shot_sits(&self, id: ShotId) -> Result<Sits, Lack> {
        let shot = self.rig.chain.shot(id);
        match shot.seat {
            None => Ok(whole(shot.place)),
            Some((seat, _)) => self.sits(self.shot_above_point(id)?.si(), seat),
        }
    }

    fn sits(&self, above_point: f64, seat: Seat<'p>) -> Result<Sits, Lack> {
        let mut left = above_point;
        for (id, section) in self.rig.chain.sections().rev() {
            if left <= SAME {
                return Ok(whole(id.below()));
            }
            // The line on the reel may be as long as it likes.
            let endless = section.role == SectionRole::Line && section.part.length().is_none();
            let length = match endless {
                true => f64::INFINITY,
                false => self.section_length(id)?.si(),
            };
            if left < length - SAME {
                return Ok(Sits {
                    piece: id,
                    below: Some(left),
                });
            }
            left -= length;
        }
        let first = self.rig.chain.sections().next().filter(|_| left <= SAME);
        first
            .map(|(first, _)| whole(first))
            .ok_or_else(|| self.faults.lack(beyond(seat)))
    }
}

const fn whole(piece: SectionId) -> Sits {
    Sits { piece, below: None }
}

fn beyond(seat: Seat<'_>) -> Finding {
    let distance = seat.distance.line.written(seat.distance.expr.span);
    let message = format!(
        "this rig has not so much line as `{distance}` over `{}`",
        seat.over.word()
    );
    Finding::fault(Code::PartUnattached, seat.distance.place(), message)
        .help("make the distance less, or add the line above that is left out")
}
