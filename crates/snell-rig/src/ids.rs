//! The numbers that files and blocks of a project go by.

/// A file of a project.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub struct FileId(pub u32);

/// A block of a project.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub struct BlockId {
    /// The file that it is written in.
    pub file: FileId,
    /// Its place in that file's order.
    pub index: u32,
}
