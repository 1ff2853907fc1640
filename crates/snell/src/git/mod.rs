//! What is asked of git: where a repository is, what a revision holds, and how
//! it came about.
//!
//! The git program itself is asked, not a library: whoever has a history has
//! the program, it reads every format that a repository may be in, and a library
//! would add more to the build than all the rest of snell together. It is only
//! ever read from here; settings are `setup`'s.

mod blobs;
mod history;
mod origin;
mod program;
mod repository;
pub mod setup;
mod tree;

pub use blobs::Blobs;
pub use history::Step;
pub use origin::{Asked, Origin, is_none};
pub use repository::Repository;
pub use tree::{Tree, TreeDisk, from_top, in_tree};
