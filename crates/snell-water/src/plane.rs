//! The plane of the stream: along it, and up.

/// How long a vector is.
///
/// `f64::hypot` guards against squares that overflow, which takes longer than all else that is done with the
/// vector; here such a square ends in an answer that is no number, and is refused as that.
pub(crate) fn size([along, up]: [f64; 2]) -> f64 {
    (along * along + up * up).sqrt()
}
