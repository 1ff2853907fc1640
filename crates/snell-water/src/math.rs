//! Powers, logarithms and their like, the same on every machine.
//!
//! The standard library takes them from the platform, and platforms differ in the last digits. Searches and
//! choices between states can make a large difference out of a small one, so these are computed here.
//! The square root is exact everywhere, and small powers are written out as products.

pub(crate) use libm::{acos, asinh, atan2, cbrt, cos, erfc, exp, exp2, log as ln, pow, sinh};
