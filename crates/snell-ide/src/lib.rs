//! What an editor asks of a text: findings, hovers, completions, outlines,
//! hints and edits, as plain data by span.
//!
//! It knows no editor protocol. The text that is asked about is always the
//! first of its notebook; lines and columns are for those who talk to editors.

mod complete;
mod findings;
mod hints;
mod hover;
mod live;
mod names;
mod rename;
mod said;
mod shape;
mod sliders;
mod symbols;
mod tokens;
mod told;
mod walk;
mod workspace;

pub use complete::{Completion, Sort, complete};
pub use findings::{all_sure, findings, found_near};
pub use hints::{Hint, Lens, hints, lenses};
pub use hover::{Hover, hover, pictured};
pub use live::{Live, Which, chosen, live, verdict};
pub use names::{Named, Occurrence};
pub use rename::{Unnamed, changeable, definition, places, renamed};
pub use said::{Said, said};
pub use shape::{folds, grown, links, tidied};
pub use sliders::{Slider, SliderOf, slid};
pub use symbols::{Symbol, find, outline};
pub use tokens::{Paint, Painted, tokens};
pub use told::rigs;
pub use workspace::{Snapshot, Workspace};
