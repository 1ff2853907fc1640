//! Whatever a rig and its water measure, its drift, its states and its sink
//! are finite or told not to be there, and come to an end.

use snell_finding::Limit;
use snell_water::drift::{Drift, Lead, Under, drift, states};
use snell_water::fly::{Bead, Dressing, Hook, Parts};
use snell_water::leader::Reach;
use snell_water::sink::{Cast, sink};
use snell_water::{Float, Fluid, Fly, Hung, Profile, Strand, Stream, Tackle};
use std::fmt::Debug;
use uom::si::f64::{Force, Length, Mass, MassDensity, Ratio, ThermodynamicTemperature, Time, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::velocity::meter_per_second;

/// Every two bytes are a number.
pub fn holds(bytes: &[u8]) {
    let mut numbers = Numbers(bytes);
    let Some(tackle) = numbers.tackle() else { return };
    let stream = numbers.stream();
    let lead = numbers.lead(&stream.fluid);
    let length = numbers.length(0.02, 20.0);
    let under = match numbers.choice(3) {
        0 => Under::PointOffBed(numbers.length(1e-4, 5.0)),
        _ => Under::Length(length),
    };
    if let Ok(found) = states(&tackle, &stream, length, &lead) {
        for state in &found {
            is_finite(state);
        }
    }
    if let Ok(found) = drift(&tackle, &stream, under, lead) {
        is_finite(&found);
        sinks(&mut numbers, &tackle, &stream, &found);
    }
}

fn sinks(numbers: &mut Numbers<'_>, tackle: &Tackle, stream: &Stream, found: &Drift) {
    let cast = [Cast::Tuck, Cast::Up, Cast::Down][numbers.choice(3)];
    let longest = Time::new::<second>(numbers.between(0.1, 60.0));
    let sunk = sink(tackle, stream, found, cast, 0.9, longest);
    assert!(!sunk.moments.is_empty(), "it landed");
    is_finite(&sunk);
}

/// No number of it is infinite or none.
fn is_finite(found: &impl Debug) {
    let told = format!("{found:?}");
    assert!(!told.contains("NaN") && !told.contains("inf"), "{told}");
}

/// Numbers out of bytes; where these are at an end, everything is middling.
struct Numbers<'a>(&'a [u8]);

/// The language reads no larger number.
const LARGEST: f64 = Limit::Number.most() as f64;

/// What no measure is, by the lowest bits of a number that is near its end.
const WILD: [f64; 6] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -1.0, LARGEST];

impl Numbers<'_> {
    fn next(&mut self) -> u16 {
        let Some((first, rest)) = self.0.split_first_chunk() else {
            return u16::MAX / 2;
        };
        self.0 = rest;
        u16::from_be_bytes(*first)
    }

    fn choice(&mut self, of: usize) -> usize {
        usize::from(self.next()) % of
    }

    /// Evenly over its decades; one in two hundred is wild.
    fn between(&mut self, low: f64, high: f64) -> f64 {
        const TAME: u16 = 65_200;
        let number = self.next();
        match number.checked_sub(TAME) {
            Some(beyond) => WILD[usize::from(beyond) % WILD.len()],
            None => low * libm::pow(high / low, f64::from(number) / f64::from(TAME)),
        }
    }

    fn length(&mut self, low: f64, high: f64) -> Length {
        Length::new::<meter>(self.between(low, high))
    }

    fn density(&mut self) -> MassDensity {
        MassDensity::new::<kilogram_per_cubic_meter>(self.between(300.0, 20_000.0))
    }

    fn speed(&mut self) -> Velocity {
        let sign = [1.0, 1.0, 1.0, -1.0][self.choice(4)];
        Velocity::new::<meter_per_second>(sign * self.between(0.01, 5.0))
    }

    fn strand(&mut self) -> Strand {
        Strand::new(self.length(0.01, 10.0), self.length(5e-5, 2e-3), self.density())
    }

    fn fly(&mut self) -> Option<Fly> {
        match self.choice(4) {
            0 => Fly::shot(Mass::new::<kilogram>(self.between(1e-6, 1e-2)), self.density()).ok(),
            kind => {
                let bead = (kind > 1).then(|| Bead {
                    diameter: self.length(5e-4, 8e-3),
                    density: self.density(),
                    fill: Bead::BORED,
                });
                let weighed = (kind > 2).then(|| Mass::new::<kilogram>(self.between(1e-6, 1e-2)));
                Fly::tied(&Parts {
                    hook: Some(Hook::of_size(self.between(1.0, 30.0))),
                    bead,
                    dressing: Dressing::named("nymph"),
                    weighed,
                    ..Parts::default()
                })
                .ok()
            }
        }
    }

    fn tackle(&mut self) -> Option<Tackle> {
        let point = self.fly()?;
        let strands = (0..=self.choice(4)).map(|_| self.strand()).collect();
        let mut hung = Vec::new();
        for _ in 0..self.choice(4) {
            hung.push(Hung {
                fly: self.fly()?,
                above_point: self.length(0.01, 5.0),
                tag: (self.choice(2) == 0).then(|| self.strand()),
            });
        }
        Tackle::new(point, strands, hung).ok()
    }

    fn stream(&mut self) -> Stream {
        let depth = self.length(0.02, 10.0);
        let profile = match self.choice(4) {
            0 => Profile::even(depth, self.speed()),
            1 => Profile::over_bed_by_mean(depth, self.speed(), self.length(1e-4, 1.0)),
            _ => Profile::over_bed(depth, self.speed(), self.length(1e-4, 1.0)),
        };
        let celsius = self.between(0.5, 60.0);
        let fluid = Fluid::at(ThermodynamicTemperature::new::<degree_celsius>(celsius));
        Stream { profile, fluid }
    }

    fn lead(&mut self, water: &Fluid) -> Lead {
        match self.choice(6) {
            0 => Lead::Free,
            1 => Lead::Pull(Force::new::<newton>(self.between(1e-6, 1.0))),
            2 => Lead::Speed(self.speed()),
            3 => Lead::Share(Ratio::new::<ratio>(self.between(0.05, 3.0))),
            4 => match Float::ball(self.length(2e-3, 0.1), self.density(), water) {
                Some(float) => Lead::Float(float),
                None => Lead::Free,
            },
            _ => Lead::Reach(Reach {
                along: self.length(0.05, 20.0),
                tip: self.length(0.05, 6.0),
                wind: None,
            }),
        }
    }
}
