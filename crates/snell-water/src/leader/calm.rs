//! The leader in air that does nothing: catenaries from the entry up, joined.
//!
//! With a level pull `H`, an upward pull `V` and the tension `T`: `dz = (T2 - T1) / w` and
//! `dx = H / w ln((V2 + T2) / (V1 + T1))`, in which nothing overflows where the line is nearly straight.

use crate::leader::place::Place;
use crate::math::ln;
use crate::plane::size;
use crate::strand::Strand;

/// Where a line that starts with a pull comes to the height of the tip. Nothing where no number leads there.
pub(super) fn at_tip(line: &[Strand], pull: f64, load: f64, tip: f64) -> Option<Place> {
    let level = pull.abs();
    let (mut lifted, mut left, mut along, mut length) = (load, tip, 0.0, 0.0);
    let last = line.len().checked_sub(1)?;
    for (index, strand) in line.iter().enumerate() {
        let weight = strand.weight_in_air();
        let tension = size([level, lifted]);
        let whole = lifted + weight * strand.length;
        let rises = (size([level, whole]) - tension) / weight;
        let ends = index == last || (rises >= left && whole > 0.0);
        let above = if ends {
            let tension = tension + weight * left;
            (tension * tension - level * level).max(0.0).sqrt()
        } else {
            whole
        };
        along += run(level, lifted, above) / weight;
        length += (above - lifted) / weight;
        lifted = above;
        if ends {
            break;
        }
        left -= rises;
    }
    let place = Place {
        along: along * pull.signum(),
        across: 0.0,
        length,
        pull: [pull, 0.0, lifted],
    };
    (along.is_finite() && length.is_finite()).then_some(place)
}

/// `H ln((V2 + T2) / (V1 + T1))`, also where the line comes up out of a dip or is not pulled at all.
fn run(level: f64, lower: f64, upper: f64) -> f64 {
    if level == 0.0 {
        return 0.0;
    }
    // Below nothing, `V + T` is the difference of two equal numbers.
    let sum = |lifted: f64| {
        let tension = size([level, lifted]);
        if lifted < 0.0 {
            level * level / (tension - lifted)
        } else {
            tension + lifted
        }
    };
    level * ln(sum(upper) / sum(lower))
}
