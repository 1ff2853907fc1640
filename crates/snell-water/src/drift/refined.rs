//! How much a finer cut of the line changes a drift.

use crate::drift::state::SEGMENTS;
use crate::drift::state::{Lead, Under};
use crate::drift::steady::drift_in;
use crate::fluid::Fluid;
use crate::fly::Fly;
use crate::profile::Profile;
use crate::strand::Strand;
use crate::stream::Stream;
use crate::tackle::{Hung, Tackle};
use proptest::prelude::*;
use uom::si::f64::{Length, Mass, MassDensity, ThermodynamicTemperature, Velocity};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::meter_per_second;

fn metres(value: f64) -> Length {
    Length::new::<meter>(value)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn twice_the_segments_move_no_depth(
        depth in 0.3..3.0, flow in 0.1..1.5, held in 0.6..1.0, share in 0.3..0.95,
        grams in 0.1..1.0, diameter in 0.076e-3..0.3e-3,
    ) {
        let fly = |grams: f64| {
            let lead = MassDensity::new::<kilogram_per_cubic_meter>(11_340.0);
            Fly::shot(Mass::new::<kilogram>(grams * 1e-3), lead).expect("it has a mass")
        };
        let density = MassDensity::new::<kilogram_per_cubic_meter>(1140.0);
        let line = Strand::new(metres(2.0), metres(diameter), density);
        let length = metres(depth * share);
        let hung = Hung { fly: fly(0.1), above_point: length / 2.0, tag: Some(line.of_length(metres(0.1))) };
        let tackle = Tackle::new(fly(grams), vec![line], vec![hung]).expect("its parts have sizes");
        let surface = Velocity::new::<meter_per_second>(flow);
        let stream = Stream {
            profile: Profile::over_bed(metres(depth), surface, metres(depth / 20.0)),
            fluid: Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(10.0)),
        };
        for lead in [Lead::Free, Lead::Speed(surface * held)] {
            let cut = |segments| drift_in(&tackle, &stream, Under::Length(length), lead, segments);
            let (Ok(coarse), Ok(fine)) = (cut(SEGMENTS), cut(2 * SEGMENTS)) else { continue };
            for (coarse, fine) in coarse.rides.iter().zip(&fine.rides) {
                let off = (coarse.depth - fine.depth).value.abs();
                prop_assert!(off < 0.001 * depth, "{coarse:?} and {fine:?}");
            }
        }
    }
}
