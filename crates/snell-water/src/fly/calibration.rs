//! What the timings of some flies say of untimed flies of the same dressing.
//!
//! The drag of a dressing is off by something that all its flies share, and each fly by something of its own. What the timed
//! flies share is taken over, drawn in towards nothing as far as few timings or scattered ones leave it open.

use crate::fluid::Fluid;
use crate::fly::tied::{DRAG_KNOWN_TO, Fly, TIMED_DRAG_KNOWN_TO};
use crate::math::{exp, ln};
use std::ops::RangeInclusive;
use uom::si::ratio::ratio;

/// How timings of flies of one dressing fit together.
#[derive(Debug, Clone, PartialEq)]
pub struct Calibration {
    /// What each timed fly's drag is multiplied by, in the order that they were given in.
    pub timings: Vec<f64>,
    /// Their mean, by its logarithm.
    pub mean: f64,
    /// The factor by which one fly differs from the others, nine times out of ten.
    pub scatter: f64,
    /// The share of the mean that is taken over, 0 to 1.
    pub kept: f64,
    /// What the drag of an untimed fly is multiplied by.
    pub scale: f64,
    /// The factor to within which it is known then, nine times out of ten.
    pub known_to: f64,
}

/// A timed speed over what the fly's parts tell, beyond which it is more likely a slip than a strange fly. Source: by
/// judgement; a speed by parts is known to a factor of 1.22 and rather too quick, and this is more than twice as wide.
pub const LIKELY: RangeInclusive<f64> = 0.5..=1.6;
/// Timings from which on they say more than they leave open. Source: by judgement.
pub const WORTH_IT: usize = 3;
/// The share of the variance of an untimed fly's drag that its dressing shares. Source: by judgement, half and half.
const SHARED: f64 = 0.5;
/// How many timings what is assumed of the scatter counts for. Source: by judgement.
const ASSUMED: f64 = 4.0;
/// Standard deviations either way that nine of ten lie in. Source: the normal distribution.
const NINE_IN_TEN: f64 = 1.644_853_626_951_472_7;

impl Calibration {
    /// How the timed ones of some flies fit together; nothing with fewer than [`WORTH_IT`] of them that are
    /// [`LIKELY`].
    pub fn of<'a>(flies: impl IntoIterator<Item = &'a Fly>, water: &Fluid) -> Option<Self> {
        let timed = flies.into_iter().filter(|fly| is_likely(fly, water));
        let timings: Vec<f64> = timed
            .map(|fly| fly.in_water(water).drag_scale().get::<ratio>())
            .collect();
        if timings.len() < WORTH_IT {
            return None;
        }
        let count = timings.len() as f64;
        let mean = timings.iter().map(|timing| ln(*timing)).sum::<f64>() / count;
        let squares: f64 = timings.iter().map(|timing| squared(ln(*timing) - mean)).sum();

        let (untimed, timing) = (variance(DRAG_KNOWN_TO), variance(TIMED_DRAG_KNOWN_TO));
        let (shared, own) = (untimed * SHARED, untimed * (1.0 - SHARED));
        // Of one timing about the mean: a fly's own, and what the timing is off.
        let scattered = (ASSUMED * (own + timing) + squares) / (ASSUMED + count - 1.0);
        let kept = shared / (shared + scattered / count);
        let own = (scattered - timing).max(0.0);
        Some(Self {
            timings,
            mean: exp(mean),
            scatter: factor(own),
            kept,
            scale: exp(kept * mean),
            known_to: factor(shared * (1.0 - kept) + own),
        })
    }

    /// An untimed fly of the dressing as the timings have it; one that was timed stays as it is.
    #[must_use]
    pub fn applied(&self, fly: Fly) -> Fly {
        if fly.is_timed() {
            return fly;
        }
        fly.dragging(self.scale).known_to(self.known_to)
    }
}

fn is_likely(fly: &Fly, water: &Fluid) -> bool {
    let by_parts = fly.untimed().sinks(water);
    let share = fly
        .sinks(water)
        .zip(by_parts)
        .map(|(timed, parts)| (timed / parts).value);
    fly.is_timed() && share.is_some_and(|share| LIKELY.contains(&share))
}

fn squared(value: f64) -> f64 {
    value * value
}

/// Of the logarithm of what is known to within a factor nine times out of ten; and back.
fn variance(factor: f64) -> f64 {
    squared(ln(factor) / NINE_IN_TEN)
}

fn factor(variance: f64) -> f64 {
    exp(NINE_IN_TEN * variance.sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fly::{Bead, Dressing, Hook, Parts};
    use uom::si::f64::{Length, MassDensity, ThermodynamicTemperature};
    use uom::si::length::millimeter;
    use uom::si::mass_density::kilogram_per_cubic_meter;
    use uom::si::thermodynamic_temperature::degree_celsius;

    fn water() -> Fluid {
        Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(10.0))
    }

    fn fly(bead: f64) -> Fly {
        let parts = Parts {
            hook: Some(Hook::of_size(14.0)),
            bead: Some(Bead {
                diameter: Length::new::<millimeter>(bead),
                density: MassDensity::new::<kilogram_per_cubic_meter>(18_000.0),
                fill: Bead::BORED,
            }),
            dressing: Dressing::named("dressed"),
            ..Parts::default()
        };
        Fly::tied(&parts).expect("its parts have sizes")
    }

    /// Flies that fall at so much of the speed that their parts tell.
    fn timed(shares: &[f64]) -> Vec<Fly> {
        let timed = shares.iter().enumerate().map(|(place, share)| {
            let fly = fly(2.0 + 0.2 * place as f64);
            fly.sinking_at(fly.sinks(&water()).expect("it sinks") * *share, &water())
        });
        timed.collect()
    }

    #[test]
    fn flies_that_agree_draw_the_others_to_them_and_tell_how_near() {
        let some = Calibration::of(&timed(&[0.8, 0.82, 0.78]), &water()).expect("there are three");
        let many = Calibration::of(&timed(&[0.8; 9]), &water()).expect("there are nine");
        // Slower is more drag, and not all of three timings is taken over.
        assert!(some.scale > 1.2 && some.scale < some.mean, "{some:?}");
        assert!(many.scale > some.scale && many.scale < many.mean, "{many:?}");
        assert!(
            many.known_to < some.known_to && some.known_to < DRAG_KNOWN_TO,
            "{many:?} {some:?}"
        );
        let told = some.applied(fly(2.8));
        assert!(told.sinks(&water()) < fly(2.8).sinks(&water()));
        assert_eq!(told.drag_known_to(), some.known_to);
    }

    #[test]
    fn flies_that_scatter_say_little() {
        let even = Calibration::of(&timed(&[0.8, 0.8, 0.8]), &water()).expect("there are three");
        let wild = Calibration::of(&timed(&[0.5, 0.8, 1.3]), &water()).expect("there are three");
        assert!(
            wild.kept < even.kept && wild.known_to > even.known_to,
            "{wild:?} {even:?}"
        );
    }

    /// A slip of the watch or of the unit neither moves the others nor hides what they say.
    #[test]
    fn a_timing_that_cannot_be_is_left_out() {
        let sound = timed(&[0.8, 0.82, 0.78]);
        let slips = [sound.clone(), timed(&[6.0, 0.2])].concat();
        assert_eq!(
            Calibration::of(&slips, &water()),
            Calibration::of(&sound, &water())
        );
        assert_eq!(Calibration::of(&slips[2..], &water()), None);
    }

    #[test]
    fn two_timings_are_not_worth_it_and_a_timed_fly_keeps_its_own() {
        assert_eq!(Calibration::of(&timed(&[0.8, 0.8]), &water()), None);
        let flies = timed(&[0.8, 0.8, 0.8]);
        let found = Calibration::of(&flies, &water()).expect("there are three");
        assert_eq!(found.applied(flies[0]), flies[0]);
    }
}
