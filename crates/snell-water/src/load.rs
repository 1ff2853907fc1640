//! What a rig bears: its strength, its stretch and the sudden run of a fish.
//!
//! It knows springs that stay straight, which miss the energy to break of real
//! line by 30 % either way.

use uom::si::area::square_meter;
use uom::si::energy::joule;
use uom::si::f64::{Area, Energy, Force, Length, Mass, Pressure, Ratio, SurfaceTension, Velocity};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::velocity::meter_per_second;

/// Force over stretch. `uom` has newtons over metres under the name of surface tension.
pub type Stiffness = SurfaceTension;

/// Something that gives under a pull.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spring {
    /// Metres per newton.
    compliance: f64,
}

impl Spring {
    /// A length of line: `k = E A / L`. Nothing where a size is nothing.
    pub fn of_line(length: Length, area: Area, modulus: Pressure) -> Option<Self> {
        let stiff = area.get::<square_meter>() * modulus.get::<pascal>();
        Self::of(length.get::<meter>() / stiff)
    }

    /// Springs one behind the other.
    #[must_use]
    pub fn in_series(springs: impl IntoIterator<Item = Self>) -> Option<Self> {
        Self::of(springs.into_iter().map(|spring| spring.compliance).sum())
    }

    fn of(compliance: f64) -> Option<Self> {
        (compliance > 0.0 && compliance.is_finite()).then_some(Self { compliance })
    }

    /// Force over stretch.
    pub fn stiffness(&self) -> Stiffness {
        Stiffness::new::<newton_per_meter>(1.0 / self.compliance)
    }

    /// How far it gives under a force.
    pub fn stretch(&self, force: Force) -> Length {
        Length::new::<meter>(force.get::<newton>() * self.compliance)
    }

    /// What it takes up until a force is reached.
    pub fn energy(&self, force: Force) -> Energy {
        let force = force.get::<newton>();
        Energy::new::<joule>(0.5 * force * force * self.compliance)
    }

    /// The force that a fish of a mass puts on it by a run at a speed that it has to stop, when it
    /// already bears `before`: `T = T0 + v sqrt(k m)`, the answer of a mass on a spring.
    pub fn jolt(&self, run: Velocity, fish: Mass, before: Force) -> Force {
        let more = run.get::<meter_per_second>() * (fish.get::<kilogram>() / self.compliance).sqrt();
        before + Force::new::<newton>(more)
    }
}

/// The strength of line at a knot: as tested, times what wetness leaves, times what the knot leaves.
pub fn knotted(test: Force, wet: Ratio, knot: Ratio) -> Force {
    test * wet.get::<ratio>() * knot.get::<ratio>()
}

/// The least of some strengths, and which it is; of equal ones the last.
pub fn weakest(strengths: impl IntoIterator<Item = Force>) -> Option<(usize, Force)> {
    let order = |a: &(usize, Force), b: &(usize, Force)| {
        let (x, y) = (a.1.get::<newton>(), b.1.get::<newton>());
        x.total_cmp(&y).then(b.0.cmp(&a.0))
    };
    strengths.into_iter().enumerate().min_by(order)
}
