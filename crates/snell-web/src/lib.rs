//! Snell within a web page: texts in, and what an editor or a picture beside
//! them asks for out, as JSON.
//!
//! Nothing is read but what the page hands over. The same functions answer
//! natively, for tests; in a browser they stand behind `Rigs` of the module.

mod answers;
#[cfg(feature = "bank")]
mod bank;
mod files;
mod page;

#[cfg(target_arch = "wasm32")]
mod module;

pub use answers::{Change, Found, Hovered, Judged, Look, Offer, Rig, Slider, Way, Word};
pub use page::{Page, Refused};
