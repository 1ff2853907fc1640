//! What the targets share.

use snell_tests::laws::law;

/// Holds some bytes against the law with a name.
///
/// # Panics
/// They break it, or there is no such law.
pub fn hold(name: &str, bytes: &[u8]) {
    (law(name).expect("each target is named after a law").holds)(bytes);
}
