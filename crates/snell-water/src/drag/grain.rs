//! A compact body told by its sphericity: the law that went with the fly's envelope.

use crate::drag::sphere::sphere;
use crate::math::{exp, pow};

/// A body by its sphericity, with the constants of its law worked out once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shape {
    law: Law,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Law {
    Sphere,
    Grain { a: f64, b: f64, c: f64, d: f64 },
}

/// From here on a body counts as a sphere: the law for grains does not meet the sphere's at 1.
const AS_GOOD_AS_ROUND: f64 = 0.9999;

/// Below this the law for grains was never measured.
const LEAST_SPHERICITY: f64 = 0.1;

impl Shape {
    /// A body of a sphericity: the surface of the sphere of its volume over its own, up to 1. The law
    /// was fitted from 0.67 on and is taken no lower than 0.1.
    pub fn of_sphericity(sphericity: f64) -> Self {
        if sphericity >= AS_GOOD_AS_ROUND {
            return Self { law: Law::Sphere };
        }
        let p = sphericity.max(LEAST_SPHERICITY);
        let law = Law::Grain {
            a: exp(2.3288 - 6.4581 * p + 2.4486 * p * p),
            b: 0.0964 + 0.5565 * p,
            c: exp(4.905 - 13.8944 * p + 18.4222 * p * p - 10.2599 * p * p * p),
            d: exp(1.4681 + 12.2584 * p - 20.7322 * p * p + 15.8855 * p * p * p),
        };
        Self { law }
    }

    /// Drag coefficient on the area of the sphere of the body's volume, by the Reynolds number on that
    /// sphere's diameter; up to 2.6e5.
    ///
    /// Others than spheres: Haider and Levenspiel 1989, Powder Technology 58:63, about 10-15 % on the shapes they
    /// measured.
    pub fn drag_coefficient(&self, reynolds: f64) -> f64 {
        let re = reynolds;
        match self.law {
            Law::Sphere => sphere(re),
            Law::Grain { a, b, c, d } => 24.0 / re * (1.0 + a * pow(re, b)) + c / (1.0 + d / re),
        }
    }
}
