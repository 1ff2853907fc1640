//! A value that remembers where it came from.

use snell_finding::Limit;
use snell_text::Place;
use snell_units::{Dimension, Quantity, System, Unit};
use std::sync::Arc;

/// A quantity with its spread, the author's units and the places that made it.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// The quantity; of a spread, its middle.
    pub quantity: Quantity,
    /// Of a spread, its lower and higher end in SI.
    pub ends: Option<(f64, f64)>,
    /// The units that its author writes in.
    pub system: Option<System>,
    /// The unit that it is written with, where it is one written quantity.
    pub unit: Option<&'static Unit>,
    /// Where it came from, each place with its own part.
    pub causes: Causes,
}

/// A reader looks at no more places than these, and a hostile text would pile them up without end.
const MOST_CAUSES: usize = Limit::Causes.count();

/// The places that a value came from. Values are handed on far more often than they are asked where they
/// came from, so a copy costs nothing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Causes(Option<Arc<[Cause]>>);

impl Causes {
    /// Each place, in the order in which the value was made.
    pub fn iter(&self) -> impl Iterator<Item = &Cause> {
        self.0.iter().flat_map(|causes| causes.iter())
    }

    /// These, then those of `other`.
    #[must_use]
    pub fn joined(&self, other: &Self) -> Self {
        match (&self.0, &other.0) {
            (_, None) => self.clone(),
            (None, _) => other.clone(),
            // Most values that meet come from the same places.
            (Some(own), Some(others)) if others.iter().all(|cause| own.contains(cause)) => self.clone(),
            (Some(own), Some(others)) => {
                let mut all = Vec::with_capacity(own.len() + others.len());
                all.extend_from_slice(own);
                all.extend(others.iter().filter(|cause| !own.contains(cause)).copied());
                all.truncate(MOST_CAUSES);
                Self(Some(all.into()))
            }
        }
    }
}

impl FromIterator<Cause> for Causes {
    fn from_iter<I: IntoIterator<Item = Cause>>(causes: I) -> Self {
        Self(Some(causes.into_iter().collect()))
    }
}

/// A place that a value came from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cause {
    /// Where.
    pub place: Place,
    /// The value that stands there; of a spread, its middle.
    pub part: Quantity,
    /// Of a spread, its lower and higher end in SI.
    pub ends: Option<(f64, f64)>,
    /// The unit that it is written with, where it is one written quantity.
    pub unit: Option<&'static Unit>,
    /// The units that it is written in.
    pub system: Option<System>,
}

impl Cause {
    /// As its author would write it.
    pub fn written(&self) -> String {
        written(
            self.part,
            self.ends,
            self.unit,
            self.system.unwrap_or(System::Metric),
        )
    }
}

/// One quantity, or the ends of a spread.
fn written(part: Quantity, ends: Option<(f64, f64)>, unit: Option<&'static Unit>, system: System) -> String {
    let dimension = part.dimension;
    let one = |si| write(Quantity { si, dimension }, unit, system);
    match ends {
        Some((low, high)) => format!("{} to {}", one(low), one(high)),
        None => one(part.si),
    }
}

/// In the author's own unit where that is of the system, or else as the system writes it.
fn write(quantity: Quantity, unit: Option<&'static Unit>, system: System) -> String {
    match unit.filter(|unit| unit.dimension == quantity.dimension && unit.system == Some(system)) {
        Some(unit) => snell_units::write_as(quantity, &unit.into()),
        None => snell_units::write(quantity, system),
    }
}

impl Value {
    /// A value that comes from nowhere in a text: a count, a figure of the trade.
    pub fn plain(si: f64, dimension: Dimension) -> Self {
        Self {
            quantity: Quantity { si, dimension },
            ends: None,
            system: None,
            unit: None,
            causes: Causes::default(),
        }
    }

    /// A count.
    pub fn count(count: usize) -> Self {
        Self::plain(count as f64, Dimension::NONE)
    }

    /// In SI.
    pub fn si(&self) -> f64 {
        self.quantity.si
    }

    /// Its dimension.
    pub fn dimension(&self) -> Dimension {
        self.quantity.dimension
    }

    /// The lower end of its spread, or itself.
    pub fn low(&self) -> f64 {
        self.ends.map_or(self.si(), |(low, _)| low)
    }

    /// The higher end of its spread, or itself.
    pub fn high(&self) -> f64 {
        self.ends.map_or(self.si(), |(_, high)| high)
    }

    /// The same causes and system of units with another quantity; spread and unit are dropped.
    #[must_use]
    pub fn with(self, si: f64, dimension: Dimension) -> Self {
        Self {
            quantity: Quantity { si, dimension },
            unit: None,
            ends: None,
            ..self
        }
    }

    /// One end of its spread, in its own unit.
    #[must_use]
    pub fn at(mut self, si: f64) -> Self {
        self.quantity.si = si;
        self.ends = None;
        self
    }

    /// Sums both; the dimensions must be equal. Spreads count as their middle.
    #[must_use]
    pub fn plus(self, other: &Self) -> Self {
        let si = self.si() + other.si();
        let dimension = self.dimension();
        self.joined(other).with(si, dimension)
    }

    /// This value with the causes of `other` added, and its units where this one has none.
    #[must_use]
    pub fn joined(mut self, other: &Self) -> Self {
        self.system = self.system.or(other.system);
        self.causes = self.causes.joined(&other.causes);
        self
    }

    /// As its author would write it.
    pub fn written(&self) -> String {
        self.written_in(self.system.unwrap_or(System::Metric))
    }

    /// In the units of one system; a spread as its ends.
    pub fn written_in(&self, system: System) -> String {
        written(self.quantity, self.ends, self.unit, system)
    }
}
