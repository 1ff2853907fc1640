//! What is tied round a hook: how thick it makes the body, and how much of it is no more than trapped water.
//!
//! Dressing is drag, not weight: 8 to 13 mg of it on a #14, and 2 mg under water.

/// A dressing by three shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dressing {
    /// What it adds to the thickness of the body, in gapes.
    pub bulk: f64,
    /// The share of its room that is no water, 0 to 1.
    pub solid: f64,
    /// The area of its free fibres, in squares of the gape.
    pub fibres: f64,
}

/// The dressings that have names, from the least to the most that the water takes hold of.
/// Source of all figures: from memory; a file's own figures go first.
pub const DRESSINGS: [(&str, Dressing); 5] = [
    (
        "thread",
        Dressing {
            bulk: 0.15,
            solid: 0.90,
            fibres: 0.03,
        },
    ),
    (
        "slim",
        Dressing {
            bulk: 0.25,
            solid: 0.50,
            fibres: 0.08,
        },
    ),
    (
        "dressed",
        Dressing {
            bulk: 0.42,
            solid: 0.25,
            fibres: 0.25,
        },
    ),
    (
        "hackled",
        Dressing {
            bulk: 0.25,
            solid: 0.50,
            fibres: 0.90,
        },
    ),
    (
        "bushy",
        Dressing {
            bulk: 0.75,
            solid: 0.12,
            fibres: 1.10,
        },
    ),
];

/// Thread, fur and varnish without the water between them, kg/m3. Source: from memory.
pub(super) const MATTER: f64 = 1250.0;

impl Dressing {
    /// Nothing tied round the hook.
    pub const BARE: Self = Self {
        bulk: 0.0,
        solid: 0.0,
        fibres: 0.0,
    };

    /// A dressing by its name in [`DRESSINGS`].
    pub fn named(name: &str) -> Option<Self> {
        let named = DRESSINGS.iter().find(|(known, _)| *known == name);
        named.map(|(_, dressing)| *dressing)
    }

    pub(super) fn is_sound(&self) -> bool {
        let shares = [self.bulk, self.solid, self.fibres];
        shares.iter().all(|share| share.is_finite() && *share >= 0.0) && self.solid <= 1.0
    }
}
