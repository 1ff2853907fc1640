//! Snell within a web page: texts in, and what an editor or a picture beside
//! them asks for out, as JSON.
//!
//! Nothing is read but what the page hands over. The same functions answer
//! natively, for tests; in a browser they stand behind `Rigs` of the module.

mod answers;
#[cfg(feature = "bank")]
mod bank;
#[cfg(feature = "editor")]
mod editor;
mod files;
mod page;

#[cfg(target_arch = "wasm32")]
mod module;

pub use answers::{
    Beside, Change, Changed, Elsewhere, Ends, Found, Hovered, Judged, Look, Noted, Offer, Outlined, Rig,
    Slider, Stretch, Total, Way, Word,
};
pub use page::{Page, Refused};
