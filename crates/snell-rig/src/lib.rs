//! From trees to rigs: names, `from`, expressions with provenance, the rig
//! and its measures, and the blocks that ship.
//!
//! It reads no file and prints nothing; it knows no rule and no water physics.

pub mod assumed;
pub mod blocks;
pub mod content;
pub mod cut;
pub mod day;
pub mod evaluate;
pub mod evaluation;
pub mod faults;
pub mod fit;
pub mod fly_box;
mod ids;
pub mod keywords;
pub mod lack;
mod literal;
pub mod measure;
pub mod missing;
mod names;
mod opened;
pub mod project;
mod read;
pub mod rig;
pub mod shelf;
mod sight;
pub mod thing;
mod timed;
pub mod value;
mod world;

pub use content::ContentId;
pub use evaluation::Evaluation;
pub use names::{Answer, Found, Lookup, Names};
pub use project::{BlockId, FileId, Project, Shelf, Source};
pub use read::read;
pub use world::World;
