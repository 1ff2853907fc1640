//! From trees to rigs: names, `from`, expressions with provenance, the rig
//! and its measures, and the blocks that ship.
//!
//! It reads no file and prints nothing; it knows no rule and no water physics.

pub mod blocks;
pub mod cut;
pub mod day;
pub mod evaluate;
pub mod evaluation;
pub mod faults;
pub mod fit;
pub mod fly_box;
pub mod keywords;
pub mod measure;
mod names;
pub mod project;
pub mod rig;
pub mod shelf;
pub mod value;
mod world;

pub use evaluation::Evaluation;
pub use names::{Answer, Found, Lookup};
pub use project::{BlockId, ContentId, FileId, Project, Source};
pub use shelf::Shelf;
pub use world::World;
